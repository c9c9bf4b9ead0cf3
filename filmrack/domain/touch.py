"""Touch checks: what a dry finger says about how long a roll needs.

ln M is normal over the rolls of a cabinet, with median μ and spread σ, and the cabinet's air has
a slope s. A check after A and B minutes says M < x(s) (dry) or M > x(s) (tacky), x(s) being the
dryer minutes, and is wrong with a small chance. All checks of one roll count jointly: each
interval between them gets the product over the checks of (1 − wrong) where it agrees and
`wrong` where it contradicts, so left-, right-, interval-censored and contradictory rolls share
one formula, Σ weight·(F(x[k+1]) − F(x[k])). (Censored likelihood as in any textbook of survival
analysis; the weights are our own.)
"""

import math
import sys
from array import array
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from filmrack.domain.drying import dryer_minutes

SLOPES = tuple(n / 10 for n in range(1, 9))
SPREADS = (0.08, 0.11, 0.15, 0.20, 0.27, 0.36, 0.48)
CENTRES = tuple(math.log(2) + 0.1 * n for n in range(31))
CELLS = len(SLOPES) * len(SPREADS) * len(CENTRES)
"""The grid of what a cabinet may be like: slopes, then spreads σ, then centres μ (ln minutes)."""

WRONG = 0.025
"""How often a touch check is wrong (from memory)."""

NAT = 1 << 20
"""Units of evidence in a natural logarithm of 1: a cell is off by less than a millionth."""

MOST_ROLLS = 60
"""How many rolls' evidence may be summed."""

_WORD = "I"
# A float of this size counts in units of 1 / NAT: what is added to it is rounded to whole ones,
# and its low four bytes are how many these are.
_TO_UNITS = 1.5 * (1 << 52) / NAT
_LOW_WORD = 0 if sys.byteorder == "little" else 1
# Sixty rolls as unlikely as this, and the prior, are a sum that four bytes hold.
_LEAST = 1e-29
_ROOT_HALF = math.sqrt(0.5)
_SCALED = [
    (_ROOT_HALF / spread, [centre * _ROOT_HALF / spread for centre in CENTRES])
    for spread in SPREADS
]


class TimedCheck(NamedTuple):
    """A touch at both ends after `a` effective minutes the first way up and `b` flipped."""

    a: float
    b: float
    dry: bool


def in_order(checks: Sequence[TimedCheck]) -> list[TimedCheck]:
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


def evidence(checks: Sequence[TimedCheck], wrong: float = WRONG) -> "array[int]":
    """Return what one roll's checks say against every cell of the grid.

    That is −ln of their likelihood in units of 1 / NAT, whole numbers, so that sums are exact
    whatever their order.
    """
    # As little as can be in Python's own loops: this is done in 1,736 cells whenever a check is
    # told.
    ordered = in_order(checks)
    last, steps = shares([check.dry for check in ordered], wrong)
    points = [(c, 0.5 * step) for c, step in zip(ordered, steps, strict=True) if c.a + c.b > 0]
    likelihoods = [last + sum(half for _, half in points)] * CELLS
    for check, half in points:
        twice = _twice_above_half(check.a, check.b)
        likelihoods = [each + half * f for each, f in zip(likelihoods, twice, strict=True)]
    if min(likelihoods) < _LEAST:
        likelihoods = [max(each, _LEAST) for each in likelihoods]
    log2, nats = math.log2, math.log(2)  # `log` takes twice as long
    rounded = array("d", [_TO_UNITS - nats * log2(each) for each in likelihoods])
    return array(_WORD, rounded.tobytes())[_LOW_WORD::2]


@lru_cache(maxsize=128)
def _twice_above_half(a: float, b: float) -> list[float]:
    """Return 2F − 1 in every cell, F being the share of rolls that need less than these minutes.

    A roll's next check asks for it again.
    """
    erf, found = math.erf, []
    for s in SLOPES:
        minutes = math.log(dryer_minutes(a, b, s))
        for rate, centres in _SCALED:
            scaled = minutes * rate
            found += [erf(scaled - centre) for centre in centres]
    return found


def as_number(evidence: "array[int]") -> int:
    """Return evidence as one great number with a digit for each cell.

    Adding and taking away such numbers does so in all cells at once, and exactly, as long as what
    comes out is a sum of at most `MOST_ROLLS` rolls and the prior.
    """
    return int.from_bytes(evidence.tobytes(), sys.byteorder)


def as_evidence(number: int) -> "array[int]":
    """Return what `as_number` was told. Raises ValueError for what it never returns."""
    try:
        return array(_WORD, number.to_bytes(4 * CELLS, sys.byteorder))
    except OverflowError as error:
        raise ValueError("something was taken away that had not been added") from error


def pack(evidence: "array[int]") -> bytes:
    """Return evidence as bytes for the file: four for each cell, low byte first."""
    if sys.byteorder == "big":
        evidence = evidence[:]
        evidence.byteswap()
    return evidence.tobytes()


def unpack(packed: bytes) -> "array[int]":
    """Return the evidence that `pack` wrote; ValueError when it is not of this grid."""
    if len(packed) != 4 * CELLS:
        raise ValueError(f"{len(packed)} bytes are no evidence against {CELLS} cells")
    evidence = array(_WORD, packed)
    if sys.byteorder == "big":
        evidence.byteswap()
    return evidence
