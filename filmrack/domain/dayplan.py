"""Day plans: which period meets from when to when, on the clock on the wall."""

from collections.abc import Iterable
from datetime import time
from itertools import pairwise
from typing import NamedTuple, Self

from filmrack.domain.refusal import Refused


class _Slot(NamedTuple):
    period: int
    starts: time
    ends: time


class Slot(_Slot):
    """One period of one day, in local wall time; it ends on the day on which it starts.

    Raises Refused for a period below 0, or an end that is not after the start.
    """

    __slots__ = ()

    def __new__(cls, period: int, starts: time, ends: time) -> Self:
        """Check and keep a slot."""
        if period < 0:
            raise Refused(
                f"period {period} cannot be in the timetable because periods count from 0: "
                "give it a number from 0 up"
            )
        if starts.tzinfo or ends.tzinfo:
            raise Refused(
                f"period {period} cannot carry a time zone because its times are those of "
                "the clock on the wall: give hours and minutes alone"
            )
        if ends <= starts:
            raise Refused(
                f"period {period} cannot end at {ends:%H:%M} because it starts at "
                f"{starts:%H:%M}: give an end later on the same day"
            )
        return super().__new__(cls, period, starts, ends)


DayPlan = tuple[Slot, ...]
"""The periods of a day in their order; lunch and breaks are the gaps between them."""


def day_plan(slots: Iterable[Slot]) -> DayPlan:
    """Return the slots in the order of the day.

    Raises Refused when one starts before the one before it has ended: one room holds one class.
    """
    plan = tuple(sorted(slots, key=lambda slot: slot.starts))
    for earlier, later in pairwise(plan):
        if later.starts < earlier.ends:
            raise Refused(
                f"period {later.period} cannot start at {later.starts:%H:%M} because period "
                f"{earlier.period} ends at {earlier.ends:%H:%M}: move one of the two"
            )
    return plan
