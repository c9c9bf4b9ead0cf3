"""Lengths of time as people type them: `a week`, `for 10 days`, `3 school days`.

>>> from filmrack.domain.schooldays import SchoolDays
>>> ends_in_a_length("Ms Novak for two weeks".split(), date(2026, 11, 17), SchoolDays())
Length(words=3, ends_on=datetime.date(2026, 12, 1))
"""

from __future__ import annotations

import re
from datetime import date, timedelta
from typing import NamedTuple

from filmrack.domain.clock import day_words
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import SchoolDays

_NUMBERS = {
    word: number
    for number, words in enumerate(
        ("a an one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), 1
    )
    for word in words.split()
}
_DAYS_IN = {"day": 1, "week": 7, "wk": 7, "fortnight": 14}
_MOST = 366
"""No length is longer, in whatever it counts: such a number is a typing error."""
_MONTHS = 12
_FIGURES_AND_UNIT = re.compile(r"(\d{1,4})-?([a-z]+)")
_SCHOOL_AND_UNIT = re.compile(r"(school)-?([a-z]+)")
_SOMETIME = ("next", "this", "coming")
"""Words before a week or a month that begins on some day of its own, and so has no length here."""
_OTHERS = frozenset(
    {"until", "till", "today", "tomorrow", "tonight", "yesterday", "weekend", "term", "next"}
)
"""Words of time that no length ends in."""


class Length(NamedTuple):
    """A length of time at the end of a line: how many words say it, and the day it ends on."""

    words: int
    ends_on: date


class _Piece(NamedTuple):
    """A word of a line, or one of the two that were typed as one: `2wks`; `nth` is that word."""

    text: str
    nth: int


def ends_in_a_length(words: list[str], today: date, days: SchoolDays) -> Length | None:
    """Return the length of time that a line ends in; None where it ends in none.

    Days and weeks are counted on the calendar, school days only where that is said. Raises Refused
    for a week that begins sometime, as in `next week`, and for a length that leads to no day.
    """
    pieces = [_Piece(text, nth) for nth, word in enumerate(words) for text in _apart(word)]
    if len(pieces) < 2:
        return None
    counted = pieces.pop().text
    unit = _unit(counted)
    of_school = unit == "day" and len(pieces) > 1 and pieces[-1].text == "school"
    if of_school:
        pieces.pop()
    first = pieces.pop()
    before = pieces[-1] if pieces else _Piece("", 0)
    if not unit or before.text == "half":
        return None
    if first.text in _SOMETIME:
        raise Refused(_begins_sometime(f"{first.text} {counted}", unit, today))
    number = _number(first.text)
    if number is None:
        return None
    ends_on = None
    if 0 < number <= _MOST:
        ends_on = days.school_day_after(today, number) if of_school else _later(today, number, unit)
    if ends_on is None:
        text = " ".join(words[first.nth :])
        raise Refused(f"“{text[:40]}” ends on no day that is known: type the day, as 4 dec")
    begins = before if before.text in ("for", "in") else first
    return Length(len(words) - begins.nth, ends_on)


def speaks_of_time(text: str) -> bool:
    """Tell whether words of time stand in a text, understood or not: `a couple of weeks`."""
    pieces = [piece for word in text.split() for piece in _apart(word)]
    return any(_unit(piece) or piece in _OTHERS for piece in pieces)


def _apart(word: str) -> list[str]:
    """Cut `2wks` and `schooldays` in two."""
    plain = word.casefold().rstrip(".,")
    both = _FIGURES_AND_UNIT.fullmatch(plain) or _SCHOOL_AND_UNIT.fullmatch(plain)
    return [both[1], both[2]] if both and _unit(both[2]) else [plain]


def _unit(word: str) -> str:
    """Return what a word counts, `day`, `week`, `wk`, `fortnight` or `month`; empty for none."""
    one = word.removesuffix("s")
    return one if one in _DAYS_IN or one == "month" else ""


def _number(word: str) -> int | None:
    """Return a number in figures or in words; of very many figures the first, which are too many
    as well.
    """
    if word.isascii() and word.isdecimal():
        return int(word[:4])
    return _NUMBERS.get(word)


def _later(today: date, number: int, unit: str) -> date:
    """Return the day so many days, weeks or months later: of a shorter month its last day."""
    if unit != "month":
        return today + timedelta(days=number * _DAYS_IN[unit])
    same_day = _first_of_month(today, number) + timedelta(days=today.day - 1)
    last_day = _first_of_month(today, number + 1) - timedelta(days=1)
    return min(same_day, last_day)


def _first_of_month(today: date, later: int) -> date:
    """Return the first day of the month that comes so many months after today's."""
    year, month = divmod(today.year * _MONTHS + today.month - 1 + later, _MONTHS)
    return date(year, month + 1, 1)


def _begins_sometime(text: str, unit: str, today: date) -> str:
    """Return why `next week` is refused, and what to type for it."""
    exact = f"a {'week' if unit == 'wk' else unit}"
    until = day_words(_later(today, 1, unit), today)
    return f"“{text}” can be several days: type “{exact}” for {until}, or the day itself, as friday"
