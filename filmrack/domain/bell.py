"""Before the bell: whether a roll can leave dry, and until when to begin one that shall."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import lru_cache
from typing import Literal

from filmrack.domain.course import LIKELY, Course, DryingRules
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.learning import Learned
from filmrack.domain.posterior import LONGEST, crossing

LAG_MINUTES = 3.0
"""What passes between a roll being dry and its owner being out of the door (from memory)."""

Fits = Literal["yes", "tight", "no"]


def x50(learned: Learned) -> float:
    """Return the fan minutes until a fresh roll, flipped as advised, is likely dry."""
    return _fan_minutes(learned, LIKELY, None)


def likely_within(learned: Learned, minutes: float) -> bool:
    """Tell whether a fresh roll, flipped as advised, is likely dry after so many fan minutes."""
    a, b = min(minutes, learned.flip), max(0.0, minutes - learned.flip)
    return learned.posterior.p_dry(a, b) >= LIKELY


def x95(learned: Learned, rules: DryingRules | None = None) -> float:
    """Return the fan minutes until "dry" is said of a fresh roll that is flipped as advised."""
    return _fan_minutes(learned, learned.sure(flipped=True), rules or DryingRules())


@lru_cache(maxsize=64)
def _fan_minutes(learned: Learned, p: float, guard: DryingRules | None) -> float:
    flip, posterior = learned.flip, learned.posterior

    def more_than_enough(x: float) -> float:
        a, b = min(x, flip), max(0.0, x - flip)
        if guard is not None and learned.proven and dryer_minutes(a, b) < learned.least:
            return dryer_minutes(a, b) - learned.least
        return posterior.p_dry(a, b) - p

    unproven = guard is not None and not learned.proven
    low = guard.unproven_minutes if guard is not None and unproven else 0.0
    found = crossing(more_than_enough, low, LONGEST)
    return LONGEST if found is None else found


def latest_hang(bell: datetime, x: float, lag_minutes: float = LAG_MINUTES) -> datetime:
    """Return until when to hang a roll that needs `x` fan minutes and shall leave by the bell."""
    return bell - timedelta(minutes=lag_minutes + x)


def before_bell(
    bell: datetime, way: Course, now: datetime, lag_minutes: float = LAG_MINUTES
) -> Fits:
    """Tell whether a roll leaves dry that goes this way: flipped as advised.

    "yes" when even "dry" is said in time, "tight" when a touch is worth while in time, else "no".
    What does not come before the fan stops fits never.
    """
    last = min(latest_hang(bell, 0, lag_minutes), max(now, way.fan_ends))
    if way.dry_by(last):
        return "yes"
    return "tight" if way.likely_by(last) else "no"


def start_developing_by(
    bell: datetime,
    learned: Learned,
    process_minutes: float,
    *,
    lag_minutes: float = LAG_MINUTES,
) -> datetime:
    """Return until when to start a process of so many minutes, for film to leave likely dry."""
    return latest_hang(bell, x50(learned), lag_minutes) - timedelta(minutes=process_minutes)
