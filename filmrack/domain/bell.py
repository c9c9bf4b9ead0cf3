"""Before the bell: whether a roll can leave dry, and until when to begin one that shall."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import lru_cache
from typing import Literal

from filmrack.domain.course import LIKELY, DryingRules
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.learning import Learned
from filmrack.domain.posterior import crossing

LAG_MINUTES = 3.0
"""What passes between a roll being dry and its owner being out of the door (from memory)."""

Fits = Literal["yes", "tight", "no"]

_LONGEST = 600.0


def x50(learned: Learned) -> float:
    """Return the fan minutes until a fresh roll, flipped as advised, is likely dry."""
    return _fan_minutes(learned, LIKELY, None)


def x95(learned: Learned, rules: DryingRules | None = None) -> float:
    """Return the fan minutes until "dry" is said of a fresh roll that is flipped as advised."""
    return _fan_minutes(learned, learned.sure(flipped=True), rules or DryingRules())


@lru_cache(maxsize=64)
def _fan_minutes(learned: Learned, p: float, guard: DryingRules | None) -> float:
    flip, posterior = learned.flip, learned.posterior

    def reached(x: float) -> bool:
        a, b = min(x, flip), max(0.0, x - flip)
        if guard is not None and learned.proven and dryer_minutes(a, b) < learned.least:
            return False
        return posterior.p_dry(a, b) >= p

    unproven = guard is not None and not learned.proven
    low = guard.unproven_minutes if guard is not None and unproven else 0.0
    return low if low and reached(low) else crossing(reached, low, _LONGEST)


def latest_hang(bell: datetime, x: float, lag_minutes: float = LAG_MINUTES) -> datetime:
    """Return until when to hang a roll that needs `x` fan minutes and shall leave by the bell."""
    return bell - timedelta(minutes=lag_minutes + x)


def before_bell(
    bell: datetime,
    likely_at: datetime | None,
    dry_at: datetime | None,
    lag_minutes: float = LAG_MINUTES,
) -> Fits:
    """Tell whether a roll leaves dry, by its moments if it is flipped as advised (see outlook).

    "yes" when even the moment fits at which "dry" is said, "tight" when the likely one does, else
    "no"; a moment that does not come before the fan stops fits never.
    """
    last = latest_hang(bell, 0, lag_minutes)
    if dry_at is not None and dry_at <= last:
        return "yes"
    return "tight" if likely_at is not None and likely_at <= last else "no"


def start_developing_by(
    bell: datetime,
    learned: Learned,
    process_minutes: float,
    *,
    lag_minutes: float = LAG_MINUTES,
) -> datetime:
    """Return until when to start a process of so many minutes, for film to leave likely dry."""
    return latest_hang(bell, x50(learned), lag_minutes) - timedelta(minutes=process_minutes)
