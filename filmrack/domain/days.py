"""Days as people type them: `friday`, `4 dec`, `Fri 4 Dec 2026`, `2026-12-04`.

>>> today = date(2026, 11, 17)
>>> str(read_day("dec 4", today)), str(read_day("friday", today))
('2026-12-04', '2026-11-20')
"""

from __future__ import annotations

import re
from datetime import date, timedelta

from filmrack.domain.clock import printed_day, whole_day
from filmrack.domain.refusal import Refused

MOST_WORDS = 4
"""A date is typed in no more words than `Fri 4 Dec 2026` has."""

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
_LEAST_LETTERS = 3
_DAY_AND_MONTH = 2
_JUST_PAST = timedelta(weeks=13)
_LEAP_CYCLE = 8
"""Years within which every day of the calendar comes (Gregorian: 1896 to 1904)."""


def read_day(text: str, today: date) -> date:
    """Return the day that was typed; without a year the next such day, today included.

    A weekday's name is the next one after today. Raises Refused for what is no day, and for
    figures alone that can be two days.
    """
    words = text.casefold().replace(",", " ").split()
    found = _one_word(words[0], today) if len(words) == 1 else None
    if 1 < len(words) <= MOST_WORDS:
        found = _of_a_month(words, today)
    if found is None:
        raise Refused(
            f"“{text[:40]}” is no day that is known: write it as 4 dec, friday or 2026-12-04"
        )
    return found


def refuse_just_past(text: str, day: date, today: date) -> None:
    """Raise Refused for a day that was typed without its year and read as the next such one, where
    the last one is only weeks past: whoever types it hardly means next year's.
    """
    if re.search(r"\b[12]\d{3}\b", text) is not None:
        return
    last = _date(day.year - 1, day.month, day.day)
    if last is not None and last < today <= last + _JUST_PAST:
        raise Refused(
            f"“{text[:40]}” is past, for it was {whole_day(last)}: type another day, or its year"
            f" with it, as {printed_day(day).lower()}, for the next one"
        )


def read_whole_day(text: str) -> date | None:
    """Return the day that was typed with its year, `2026-12-04` or `Fri 4 Dec 2026`, or None."""
    words = text.casefold().replace(",", " ").split()
    if len(words) == 1:
        return _iso(words[0])
    parts = _parts_of_a_month(words) if 1 < len(words) <= MOST_WORDS else None
    if parts is None or parts[-1] is None or _other_weekday(words, date.min):
        return None
    return _coming(*parts, date.min)


def ends_in_a_day(words: list[str], today: date) -> int:
    """Return how many words at the end of a line are a day; 0 for none.

    Raises Refused for what is written as a day but is none, such as `30 feb` or `4/12`.
    """
    for many in range(min(MOST_WORDS, len(words)), 0, -1):
        tail = words[-many:]
        if many == 1 and not _looks_like_a_day(tail[0]):
            continue
        if many > 1 and (_parts_of_a_month(tail) is None or _other_weekday(tail, today)):
            continue  # in “Sun 4 dec” Sun may be whoever borrows
        if many == 1 and len(words) > 1 and _weekday(tail[0]) is not None:
            _refuse_next(words[-2], tail[0])
        read_day(" ".join(tail), today)
        return many
    return 0


def _refuse_next(before: str, weekday: str) -> None:
    if before.casefold() in ("next", "this"):
        raise Refused(
            f"“{before} {weekday}” can be two days: write {weekday} for the coming one, or its date"
        )


def _looks_like_a_day(word: str) -> bool:
    figures = re.fullmatch(r"\d{1,4}([-/.]\d{1,4}){1,2}\.?", word) is not None
    return figures or word.casefold() in ("today", "tomorrow") or _weekday(word) is not None


def _one_word(word: str, today: date) -> date | None:
    weekday = _weekday(word)
    if weekday is not None:
        return today + timedelta(days=(weekday - today.weekday() - 1) % 7 + 1)
    if word in ("today", "tomorrow"):
        return today + timedelta(days=word == "tomorrow")
    return _iso(word)


def _iso(word: str) -> date | None:
    try:
        return date.fromisoformat(word)
    except ValueError:
        return None


def _of_a_month(words: list[str], today: date) -> date | None:
    parts = _parts_of_a_month(words)
    if parts is None or _other_weekday(words, today):
        return None
    return _coming(*parts, today)


def _coming(number: int, month: int, year: int | None, today: date) -> date | None:
    if year is not None:
        return _date(year, month, number)
    coming = (_date(today.year + later, month, number) for later in range(_LEAP_CYCLE + 1))
    return next((day for day in coming if day is not None and day >= today), None)


def _other_weekday(words: list[str], today: date) -> bool:
    """Tell whether a weekday stands before a day of a month that is another one."""
    weekday, parts = _weekday(words[0]), _parts_of_a_month(words)
    day = None if weekday is None or parts is None else _coming(*parts, today)
    return day is not None and day.weekday() != weekday


def _parts_of_a_month(words: list[str]) -> tuple[int, int, int | None] | None:
    """Return (day, month, year) of `4 dec` or `dec 4`, perhaps with a year behind it and its
    weekday before.
    """
    year = None
    if len(words) > _DAY_AND_MONTH and _weekday(words[0]) is not None:
        words = words[1:]
    if len(words) == _DAY_AND_MONTH + 1:
        if re.fullmatch(r"[12]\d{3}", words[-1]) is None:
            return None
        year = int(words[-1])
    elif len(words) != _DAY_AND_MONTH:
        return None
    for number, name in (words[:2], words[1::-1]):
        day = re.fullmatch(r"(\d{1,2})(\.|st|nd|rd|th)?,?", number.casefold())
        month = _among(_MONTHS, name)
        if day is not None and month is not None:
            return int(day[1]), month + 1, year
    return None


def _weekday(word: str) -> int | None:
    return _among(_WEEKDAYS, word)


def _among(names: tuple[str, ...], word: str) -> int | None:
    """Return which name a word of three letters or more begins, or None."""
    plain = word.casefold().rstrip(".,")
    if len(plain) < _LEAST_LETTERS:
        return None
    return next((nth for nth, name in enumerate(names) if name.startswith(plain)), None)


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
