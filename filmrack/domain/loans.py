"""Loans: whom and until when as a line says it, when a sleeve is due, and how late it is.

>>> from filmrack.domain.schooldays import SchoolDays
>>> loan_line("to Ms Novak until 4 dec", date(2026, 11, 17), SchoolDays())
LoanLine(who='Ms Novak', until=datetime.date(2026, 12, 4), quoted=False)
>>> loan_line("mara a week", date(2026, 11, 17), SchoolDays())
LoanLine(who='mara', until=datetime.date(2026, 11, 24), quoted=False)
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import NamedTuple

from filmrack.domain.clock import day_words, printed_day, whole_day
from filmrack.domain.counted import counted
from filmrack.domain.days import ends_in_a_day, read_day, read_whole_day, refuse_just_past
from filmrack.domain.lengths import ends_in_a_length, speaks_of_time
from filmrack.domain.names import QUOTES
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Loan, Roll
from filmrack.domain.room import Room
from filmrack.domain.schooldays import SchoolDays

_LONG = timedelta(days=183)
"""Longer is nothing lent without its year being said."""

_UNTIL = ("until", "till", "by")
_BEFORE_A_DAY = ("on", "for", "due", "back", "to", "the")
"""Words that may stand between whoever borrows and the day."""


_PARTS = frozenset({"sleeve", "sleeves", "strip", "strips", "page", "pages"})
_BEFORE_PARTS = frozenset({"a", "the", "one", "two", "three", "both", "only", "just"})
"""Words that stand before parts of a roll as a number does."""


class LoanLine(NamedTuple):
    """Who borrows and until when, as typed: either may be left out, as "" and None.

    `quoted` when the name stood in quotes: then it is a guest's, whoever else is called so.
    """

    who: str
    until: date | None
    quoted: bool = False


def loan_line(line: str, today: date, days: SchoolDays) -> LoanLine:
    """Return what a line says of a loan: `Ms Novak 4 dec`, `to mara`, `“art office” 2 weeks`.

    Raises Refused for a day that is none or has passed.
    """
    words = line.split()
    if words and words[0].casefold() == "to":
        del words[0]
    if words and words[-1].casefold() == "yesterday":
        raise _past("yesterday", today)
    at = next((nth for nth, word in enumerate(words) if word.casefold() in _UNTIL), None)
    if at is not None and at < len(words) - 1:
        until: date | None = read_due(" ".join(words[at + 1 :]), today, days)
        words = words[:at]
    else:
        words, until = _without_day(words, today, days)
    who = " ".join(words)
    quoted = len(who) > 1 and who[0] in QUOTES
    return LoanLine(who.strip(QUOTES).strip() if quoted else who, until, quoted)


def _without_day(words: list[str], today: date, days: SchoolDays) -> tuple[list[str], date | None]:
    """Return words without the day or the length of time that they end in, and that day."""
    if not words or words[-1][-1] in QUOTES:
        return words, None  # a name in quotes is kept as it is
    length = ends_in_a_length(words, today, days)
    many = ends_in_a_day(words, today) if length is None else length.words
    if not many:
        return words, None
    left, day = words[:-many], " ".join(words[-many:])
    while left and left[-1].casefold() in _BEFORE_A_DAY:
        del left[-1]
    return left, read_due(day, today, days) if length is None else length.ends_on


def refuse_no_name(who: str) -> None:
    """Raise Refused for a guest's name that holds what is hardly part of one."""
    words = who.casefold().split()
    if speaks_of_time(who) or words[-1:] in (["for"], ["by"], ["on"]):
        raise Refused(
            f"“{who[:40]}” is taken for no guest, for its words of time are not understood: type"
            " them as 2 weeks, 5 school days or 4 dec, or the whole name in “quotes”"
        )
    if "to" in words:
        raise Refused(
            f"“{who[:40]}” is taken for no guest, for “to” stands in it: type first whose film it"
            " is or its number, then “lend to” and who borrows it, or the whole name in “quotes”"
        )


def begins_with_a_part(who: str) -> bool:
    """Tell whether what stands for whoever borrows begins with parts of a roll.

    >>> [begins_with_a_part(who) for who in ("sleeve 2 whetu", "2 strips noor", "Ida Page", "")]
    [True, True, False, False]
    """
    words = who.casefold().split()
    if len(words) > 1 and (words[0].isdecimal() or words[0] in _BEFORE_PARTS):
        del words[0]
    return bool(words) and words[0] in _PARTS


def refuse_a_part(who: str) -> None:
    """Raise Refused for a guest's name that begins with parts of a roll: none is lent by itself."""
    if begins_with_a_part(who):
        raise Refused(
            f"“{who[:40]}” is taken for no guest, for a roll is lent whole, with all its sleeves:"
            " type who borrows it, or the whole name in “quotes”"
        )


def read_due(text: str, today: date, days: SchoolDays) -> date:
    """Return the day until which something is lent, as typed; or how long.

    Raises Refused for what is no day, for one before today, and without its year for one that is
    just past or more than half a year away: it is hardly meant.
    """
    words = text.split()
    length = ends_in_a_length(words, today, days)
    if length is not None and length.words == len(words):
        return length.ends_on
    due = read_day(text, today)
    if due < today:
        raise _past(day_words(due, today), today)
    refuse_just_past(text, due, today)
    if due - today > _LONG and read_whole_day(text) is None:
        raise Refused(
            f"“{text[:40]}” would be {whole_day(due)}, more than half a year away: type a nearer"
            f" day, or its year with it, as {printed_day(due).lower()}"
        )
    return due


def _past(day: str, today: date) -> Refused:
    return Refused(
        f"{day} is before the day of lending: give a day from {day_words(today, today)} on"
    )


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
    due, today = roll.loan.due, room.timetable.local_date(now)
    return max(0, room.timetable.days.between(due, today))


def overdue(roll: Roll, room: Room, now: datetime) -> bool:
    """Tell whether a borrowed sleeve should have been back before today."""
    if roll.loan is None:
        return False
    return roll.loan.due < room.timetable.local_date(now)


def due_words(loan: Loan, room: Room, now: datetime, *, brief: bool = False) -> str:
    """Return when a loan is due: `due Fri 4 Dec`, `overdue since Fri 4 Dec, 3 school days`.

    With `brief` how many days late is left out.
    """
    due, today = loan.due, room.timetable.local_date(now)
    day = day_words(due, today)
    if due >= today:
        return f"due today, {day}" if due == today else f"due {day}"
    late = room.timetable.days.between(due, today)
    return f"overdue since {day}" + (
        f", {counted(late, 'school day')}" if late > 0 and not brief else ""
    )


def next_words(roll: Roll, room: Room, now: datetime) -> str:
    """Return the next step of a borrowed sleeve; empty when it is not borrowed."""
    if roll.loan is None:
        return ""
    due = day_words(roll.loan.due, room.timetable.local_date(now))
    if not overdue(roll, room, now):
        return f"due on {due}"
    late = school_days_late(roll, room, now)
    return f"ask for it: it was due on {due}" + (
        f", {counted(late, 'school day')} ago" if late else ""
    )


def loan_words(loan: Loan, borrower: str, room: Room, now: datetime) -> str:
    """Return a loan in words: `borrowed by Olu Adeyemi, due Fri 4 Dec`."""
    return f"borrowed by {borrower}, {due_words(loan, room, now)}"


def no_school(day: date, room: Room) -> str:
    """Return what is to be said of a day without school, as the end of a sentence."""
    return "" if room.timetable.days.is_school_day(day) else " (no school that day)"
