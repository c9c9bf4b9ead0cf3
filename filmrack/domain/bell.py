"""Before the bell: whether a roll can leave dry, and until when to begin one that shall."""

from __future__ import annotations

from datetime import datetime, timedelta
from functools import lru_cache
from typing import Literal

from filmrack.domain.course import LIKELY, Course, DryingRules
from filmrack.domain.crossing import SHORTEST, minutes_until
from filmrack.domain.dryer import flipped_after
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.learning import Learned

DryByBell = Literal["yes", "tight", "no"]


@lru_cache(maxsize=64)
def minutes_to_likely_dry(learned: Learned) -> float:
    """Return the fan minutes until a fresh roll, flipped as advised, is likely dry.

    No film dries sooner than flipped exactly halfway; what hangs twice as long as until its flip
    is flipped so, and then two of three rolls are dry.
    """
    return learned.posterior.fan_minutes(
        LIKELY, learned.flip, least=learned.median, most=2 * learned.flip
    )


def likely_within(learned: Learned, minutes: float) -> bool:
    """Tell whether a fresh roll, flipped as advised, is likely dry after so many fan minutes."""
    return learned.posterior.p_dry(*flipped_after(learned.flip, minutes)) >= LIKELY


@lru_cache(maxsize=64)
def minutes_to_dry(learned: Learned, rules: DryingRules | None = None) -> float:
    """Return the fan minutes until "dry" is said of a fresh roll that is flipped as advised."""
    surely = learned.sure(flipped=True)

    def more_than_enough(x: float) -> float:
        had = flipped_after(learned.flip, x)
        if learned.proven and (beyond := dryer_minutes(*had) - learned.least) < 0:
            return beyond
        return learned.posterior.p_dry(*had) - surely

    unproven = (rules or DryingRules()).unproven_minutes
    return minutes_until(more_than_enough, SHORTEST if learned.proven else unproven)


def latest_hang(bell: datetime, fan_minutes: float, lag_minutes: float) -> datetime:
    """Return until when to hang a roll that needs so many fan minutes and shall leave by the bell.

    `lag_minutes` are the room's for fetching it: see `Rules.drying_lag_minutes`.
    """
    return bell - timedelta(minutes=lag_minutes + fan_minutes)


def before_bell(bell: datetime, course: Course, now: datetime, lag_minutes: float) -> DryByBell:
    """Tell whether a roll that takes this course leaves dry: flipped as advised.

    "yes" when even "dry" is said in time, "tight" when a touch is worth while in time, else "no".
    What does not come before the fan stops fits never.
    """
    last = min(latest_hang(bell, 0, lag_minutes), max(now, course.fan_ends))
    if course.dry_by(last):
        return "yes"
    return "tight" if course.likely_by(last) else "no"


def start_developing_by(
    bell: datetime,
    learned: Learned,
    *,
    process_minutes: float,
    lag_minutes: float,
) -> datetime:
    """Return until when to start a process of so many minutes, for film to leave likely dry."""
    hung_by = latest_hang(bell, minutes_to_likely_dry(learned), lag_minutes)
    return hung_by - timedelta(minutes=process_minutes)
