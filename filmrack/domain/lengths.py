"""Lengths of time as people type them: `a week`, `for 10 days`, `3 school days`.

>>> from filmrack.domain.schooldays import SchoolDays
>>> ends_in_a_length("Ms Novak for two weeks".split(), date(2026, 11, 17), SchoolDays())
(3, datetime.date(2026, 12, 1))
"""

from __future__ import annotations

import re
from datetime import date, timedelta

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
_OTHERS = frozenset(
    {"until", "till", "today", "tomorrow", "tonight", "yesterday", "weekend", "term", "next"}
)
"""Words of time that no length ends in."""


def ends_in_a_length(words: list[str], today: date, days: SchoolDays) -> tuple[int, date] | None:
    """Return how many words at the end of a line are a length of time, and the day it ends on.

    Days and weeks are counted on the calendar, school days only where that is said. Raises Refused
    for a week that begins sometime, as in `next week`, and for a length that leads to no day.
    """
    said = [(part, nth) for nth, word in enumerate(words) for part in _apart(word)]
    of_school = len(said) > 2 and said[-2][0] == "school" and _unit(said[-1][0]) == "day"
    at = len(said) - 2 - of_school
    unit = _unit(said[-1][0]) if at >= 0 else ""
    if not unit or (at and said[at - 1][0] == "half"):
        return None
    before = said[at][0]
    if before in ("next", "this", "coming"):
        raise Refused(_next(f"{before} {said[-1][0]}", unit, today))
    number = _number(before)
    if number is None:
        return None
    until = _after(today, number, unit, days if of_school else None)
    if until is None:
        text = " ".join(words[said[at][1] :])
        raise Refused(f"{text[:40]!r} ends on no day that is known: type the day, as 4 dec")
    at -= bool(at) and said[at - 1][0] in ("for", "in")
    return len(words) - said[at][1], until


def speaks_of_time(text: str) -> bool:
    """Tell whether words of time stand in a text, understood or not: `a couple of weeks`."""
    parts = [part for word in text.split() for part in _apart(word)]
    return any(_unit(part) or part in _OTHERS for part in parts)


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
    if word.isascii() and word.isdecimal():
        return int(word[:4])
    return _NUMBERS.get(word)


def _after(today: date, number: int, unit: str, school: SchoolDays | None) -> date | None:
    if not 0 < number <= _MOST:
        return None
    if school is not None:
        return school.school_day_after(today, number)
    if unit != "month":
        return today + timedelta(days=number * _DAYS_IN[unit])
    year, month = divmod(today.year * _MONTHS + today.month - 1 + number, _MONTHS)
    following = divmod(year * _MONTHS + month + 1, _MONTHS)
    last = date(following[0], following[1] + 1, 1) - timedelta(days=1)
    return last.replace(day=min(today.day, last.day))


def _next(text: str, unit: str, today: date) -> str:
    exact = f"a {'week' if unit == 'wk' else unit}"
    until = day_words(_after(today, 1, unit, None) or today, today)
    return f"“{text}” can be several days: type “{exact}” for {until}, or the day itself, as friday"
