"""Touch checks: what a dry finger says about how long a roll needs.

ln M is normal over the rolls of a cabinet, with median μ and spread σ, and the cabinet's air has
a slope s. A check after A and B minutes says M < x(s) (dry) or M > x(s) (tacky), x(s) being the
dryer minutes, and is wrong with a small chance. All checks of one roll count jointly: each
interval between them gets the product over the checks of (1 − wrong) where it agrees and
`wrong` where it contradicts, so left-, right-, interval-censored and contradictory rolls share
one formula, Σ weight·(F(x[k+1]) − F(x[k])). (Censored likelihood as in any textbook of survival
analysis; the weights are our own.)
"""

from __future__ import annotations

import math
import sys
from array import array
from collections.abc import Sequence
from typing import NamedTuple

from filmrack.domain.drying import dryer_minutes

SLOPES = tuple(n / 10 for n in range(1, 9))
SPREADS = (0.08, 0.11, 0.15, 0.20, 0.27, 0.36, 0.48)
CENTRES = tuple(math.log(2) + 0.1 * n for n in range(31))
CELLS = len(SLOPES) * len(SPREADS) * len(CENTRES)
"""The grid of what a cabinet may be like: slopes, then spreads σ, then centres μ (ln minutes)."""

WRONG = 0.025
"""How often a touch check is wrong (from memory)."""

_LEAST = 1e-300
_ROOT_HALF = math.sqrt(0.5)


class Check(NamedTuple):
    """A touch at both ends after `a` effective minutes the first way up and `b` flipped."""

    a: float
    b: float
    dry: bool


def in_order(checks: Sequence[Check]) -> list[Check]:
    """Return the checks of one roll in time order (effective minutes never go back)."""
    return sorted(checks, key=lambda check: check.a + check.b)


def shares(results: Sequence[bool], wrong: float = WRONG) -> tuple[float, list[float]]:
    """Return (w, c) so that a roll's likelihood is w + Σ c[j]·F(x[j]).

    `results` are its checks in time order, True for dry. `w` is the weight of the last, open
    interval. This is the sum over the intervals, collected by F(x[j]).
    """
    weights = [
        math.prod(1 - wrong if (k <= j) == dry else wrong for j, dry in enumerate(results))
        for k in range(len(results) + 1)
    ]
    return weights[-1], [weights[j] - weights[j + 1] for j in range(len(results))]


def below(ln_minutes: float, centre: float, spread: float) -> float:
    """Return F: the share of rolls that need less than the minutes given by their logarithm."""
    return 0.5 + 0.5 * math.erf((ln_minutes - centre) / spread * _ROOT_HALF)


def log_likelihood(checks: Sequence[Check], wrong: float = WRONG) -> array[float]:
    """Return the log-likelihood of one roll's checks in every cell of the grid, float32."""
    ordered = in_order(checks)
    last, steps = shares([check.dry for check in ordered], wrong)
    logs: list[float] = []
    for s in SLOPES:
        minutes = [dryer_minutes(check.a, check.b, s) for check in ordered]
        points = [(math.log(x), c) for x, c in zip(minutes, steps, strict=True) if x > 0]
        for spread in SPREADS:
            logs += _logs(points, last, spread)
    return array("f", logs)


def _logs(points: Sequence[tuple[float, float]], last: float, spread: float) -> list[float]:
    likelihoods = [last] * len(CENTRES)
    for point, step in points:
        likelihoods = [
            total + step * below(point, centre, spread)
            for total, centre in zip(likelihoods, CENTRES, strict=True)
        ]
    return [math.log(max(total, _LEAST)) for total in likelihoods]


def pack(logs: array[float]) -> bytes:
    """Return a log-likelihood as bytes for the file: float32, low byte first."""
    if sys.byteorder == "big":
        logs = array("f", logs)
        logs.byteswap()
    return logs.tobytes()


def unpack(packed: bytes) -> array[float]:
    """Return the log-likelihood that `pack` wrote; ValueError when it is not of this grid."""
    if len(packed) != 4 * CELLS:
        raise ValueError(f"{len(packed)} bytes are no log-likelihood of {CELLS} cells")
    logs = array("f", packed)
    if sys.byteorder == "big":
        logs.byteswap()
    return logs
