"""When a borrowed sleeve is due, and how late it is: both in school days."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from filmrack.domain.roll import Roll
from filmrack.domain.room import Room


def due_back(room: Room, lent: datetime) -> date:
    """Return the school day on which a sleeve is due that is lent at a moment, by the room's rule.

    Where no school comes within a year, as many days later.
    """
    day, number = room.timetable.local_date(lent), room.rules.loan_school_days
    return room.timetable.days.school_day_after(day, number) or day + timedelta(days=number)


def school_days_late(roll: Roll, room: Room, now: datetime) -> int:
    """Return how many school days ago a borrowed sleeve was due; 0 when it is not late."""
    if roll.loan is None:
        return 0
    due, today = date.fromisoformat(roll.loan.until), room.timetable.local_date(now)
    return max(0, room.timetable.days.count(due, today))
