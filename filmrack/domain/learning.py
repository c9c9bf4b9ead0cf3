"""What one dryer has taught through the touch checks of its rolls, and when that is enough."""

import math
from array import array
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple, Self

from filmrack.domain.drying import dryer_minutes
from filmrack.domain.posterior import Posterior
from filmrack.domain.touch import MOST_ROLLS, TimedCheck, evidence, in_order

COUNTED_ROLLS = MOST_ROLLS
"""How many checked rolls count, the latest."""
LEAST_ROLLS, LEAST_TACKY = 10, 3
"""What a dryer must have taught before anything is called dry by estimate."""
SURE = 0.95
"""The chance from which "dry" is said; what is left of it is halved, once each, where rolls differ
much and where the air is steep and the roll was never flipped."""
FLIP_SHARE = 2 / 3
"""A fresh roll is flipped at half of what this share of rolls need: it costs least on average."""
ALIKE, UNLIKE = 0.2, 0.3
"""Spreads (sd of ln minutes) up to which rolls dry alike, and from which they differ much."""
LEVEL, STEEP = 0.55, 0.8
"""Slopes of the air up to which it is as usual, and from which it is steep."""


class CheckedRoll:
    """A roll with touch checks, in time order, and what they say (kept in the file)."""

    __slots__ = ("checks", "evidence")

    def __init__(self, checks: tuple[TimedCheck, ...], evidence: "array[int]") -> None:
        self.checks = checks
        self.evidence = evidence

    @classmethod
    def of(cls, checks: Sequence[TimedCheck]) -> Self:
        """Return a roll with its evidence worked out: about 0.5 ms."""
        return cls(tuple(in_order(checks)), evidence(checks))


class Learned:
    """All that a dryer has taught, with the guard against one-sided checks.

    Compared by identity: build it once per new check and keep it, since what is computed from
    it is remembered with it. `proven` says that "dry" may be said by estimate; `least` are the
    dryer minutes before which it is never said then.
    """

    __slots__ = ("least", "posterior", "proven")

    def __init__(self, posterior: Posterior, proven: bool = False, least: float = 0.0) -> None:
        self.posterior = posterior
        self.proven = proven
        self.least = least

    def sure(self, *, flipped: bool) -> float:
        """Return the chance of dry from which "dry" is said of a roll, flipped or never.

        The less alike the rolls, the longer the tail that a few dozen checks do not show yet; the
        steeper the air, the later the bottom of a roll that was never flipped. At 0.95 for all, 6
        to 8 % of the rolls of the most uneven dryers are tacky when called dry, and 12 % of those
        never flipped (tests/bench/bench_drying.py).
        """
        unlike, steep = _doubts(self.posterior)
        halved = unlike if flipped else unlike + steep
        return 1 - (1 - SURE) * math.pow(0.5, halved)

    @property
    def median(self) -> float:
        """Return the minutes that half the rolls need, flipped halfway."""
        return _needs(self.posterior, 0.5)

    @property
    def flip(self) -> float:
        """Return the minutes after which to flip a fresh roll; what it needs is uncertain."""
        return _needs(self.posterior, FLIP_SHARE) / 2


@lru_cache(maxsize=64)
def _doubts(posterior: Posterior) -> tuple[float, float]:
    """Return how much rolls differ, and how steep the air is, each from 0 to 1."""
    unlike = (posterior.mean_spread() - ALIKE) / (UNLIKE - ALIKE)
    steep = (posterior.mean_slope() - LEVEL) / (STEEP - LEVEL)
    return min(1.0, max(0.0, unlike)), min(1.0, max(0.0, steep))


@lru_cache(maxsize=64)
def _needs(posterior: Posterior, share: float) -> float:
    return posterior.needs(share)


class Guard(NamedTuple):
    """Whether enough was taught to say "dry" by estimate, and from how many dryer minutes on."""

    proven: bool
    least: float


def guard(rolls: int, tacky: int, found: Iterable[float]) -> Guard:
    """Return the guard against one-sided checks.

    From how many rolls count, how many of their checks said tacky, and the minutes at which film
    was found dry. People log "dry" and forget "tacky", so it takes at least 10 rolls and 3 tacky
    results, and never less than the k-th smallest of these minutes, k = max(3, a fifth of them).
    """
    minutes = sorted(found)
    k = max(3, math.ceil(0.2 * len(minutes)))
    enough = len(minutes) >= k
    return Guard(
        rolls >= LEAST_ROLLS and tacky >= LEAST_TACKY and enough,
        minutes[k - 1] if enough else math.inf,
    )


def found_dry(checks: Sequence[TimedCheck]) -> float | None:
    """Return the dryer minutes at which a roll was first found dry and stayed so, else None.

    Its checks are in time order.
    """
    found = None
    for check in checks:
        if not check.dry:
            found = None
        elif found is None:
            found = dryer_minutes(check.a, check.b)
    return found


def tacky(checks: Sequence[TimedCheck]) -> int:
    """Return how many of a roll's checks said tacky."""
    return sum(not check.dry for check in checks)
