"""Days off as a teacher types them: `day off 24 dec`, `winter break 21 dec to 1 jan off`.

>>> today = date(2026, 11, 17)
>>> read_day_off("24 dec", today, today)
DayOff(name='No school', first=datetime.date(2026, 12, 24), last=datetime.date(2026, 12, 24))
>>> off = read_day_off("Winter break 21 dec - 1 jan", today, today)
>>> off.name, str(off.first), str(off.last)
('Winter break', '2026-12-21', '2027-01-01')
>>> str(read_day_off("24–26 dec", today, today).last)
'2026-12-26'
"""

from __future__ import annotations

import re
from datetime import date, timedelta

from filmrack.domain.days import MOST_WORDS, ends_in_a_day, read_day, refuse_just_past
from filmrack.domain.names import clean, folded
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import LONGEST_DAY_NAME, NO_SCHOOL, DayOff

_LONGEST_UNSAID = timedelta(days=182)
"""Between two days without their years: a last day half a year on is the one before the first."""

_ALONE = re.compile(r"(?:add (?:an? )?days? ?off|(?:an? )?day ?off)")
_BEGINS = re.compile(r"(?:add )?(?:an? )?days? ?off(?::| (?:on|for|from|is|are))? (?P<rest>.+)")
_BEGINS_PERHAPS = re.compile(
    r"(?:no school|no class(?:es)?|holidays?|vacation|(?:(?:the )?(?:school|darkroom|room) )?"
    r"(?:is )?closed)(?::| (?:on|for|from))? (?P<rest>.+)"
)
_ENDS_PERHAPS = re.compile(
    r"(?P<rest>.+?) (?:is |are )?(?:an? )?(?:days? off|off|no school|holidays?|closed)"
)
_TO = re.compile(r"\s+(?:to|till|until|through|thru|-)\s+|\s*(?:–|—|\.\.\.?|…)\s*")
_FIGURE = r"\d{1,2}(?:\.|st|nd|rd|th)?"
_WITHIN = re.compile(
    rf"(?P<a>{_FIGURE})\s*(?:-|–|to)\s*(?P<b>{_FIGURE})\s+(?P<month>[a-z]{{3,}}\.?(?: \d{{4}})?)"
    rf"|(?P<month2>[a-z]{{3,}}\.?)\s+(?P<a2>{_FIGURE})\s*(?:-|–|to)\s*(?P<b2>{_FIGURE})"
)
_PARTING = (",", ":")
_MOST_WORDS = 2 * MOST_WORDS + 1


def says_day_off(text: str, today: date) -> bool:
    """Tell whether a line says of a day, or asks to say, that there is no school on it.

    >>> today = date(2026, 11, 17)
    >>> [says_day_off(line, today) for line in ("day off", "friday off", "days off", "fan off")]
    [True, True, False, False]
    """
    line = folded(text)
    if _ALONE.fullmatch(line) or _BEGINS.fullmatch(line):
        return True
    found = _BEGINS_PERHAPS.fullmatch(line) or _ENDS_PERHAPS.fullmatch(line)
    if found is None:
        return False
    words = found["rest"].split()
    return any(_span(words[at:end], today, today) for at, end in _stretches(len(words)))


def what_is_off(text: str) -> str:
    """Return what a line that says so has of days and a name; empty where it only asks."""
    line = " ".join(text.split())
    if _ALONE.fullmatch(line.casefold()):
        return ""
    for known in (_BEGINS, _BEGINS_PERHAPS, _ENDS_PERHAPS):
        found = known.fullmatch(line.casefold())
        if found is not None and len(line) == len(line.casefold()):
            return line[found.start("rest") : found.end("rest")]
    return line


def read_day_off(text: str, today: date, since: date) -> DayOff:
    """Return the day or the days that were typed, with what stands beside them as their name.

    A day of a month without a year is the next one from `since` on, the first day of the term in
    force; a weekday is the next one after today. Raises Refused for what is no day.
    """
    words = re.sub(r"([,:])(?!\d)", r" \1 ", text).split()
    for at, end in _stretches(len(words)):
        span = _span(words[at:end], today, since)
        if span is None:
            continue
        if end - at == 1:  # “next friday” can be two days
            ends_in_a_day(words[:end], today)
        first, last = span
        said = " ".join(words[at:end])
        turned = last - first > _LONGEST_UNSAID and re.search(r"\d{4}", said) is None
        if last < first or turned:
            raise Refused(f"“{said[:40]}” ends before it begins: turn it round, or type the years")
        refuse_just_past(said, first, today)
        name = _name(words[:at], words[end:], today)
        return DayOff(name, first, last)
    for word in words:
        ends_in_a_day([word], today)
    raise Refused(
        f"“{text[:40]}” says no day: type “day off 24 dec”, or “day off 21 dec to 1 jan winter"
        " break”"
    )


def _stretches(many: int) -> list[tuple[int, int]]:
    """Return where a day may begin and end among so many words, the longer ones first."""
    return [(at, end) for at in range(many) for end in range(min(many, at + _MOST_WORDS), at, -1)]


def _span(words: list[str], today: date, since: date) -> tuple[date, date] | None:
    if words[0] in _PARTING or words[-1] in _PARTING:
        return None
    line = folded(" ".join(word for word in words if word not in _PARTING))
    within = _WITHIN.fullmatch(line)
    if within is not None:
        month = within["month"] or within["month2"]
        line = f"{within['a'] or within['a2']} {month} to {within['b'] or within['b2']} {month}"
    ends = _TO.split(line)
    if len(ends) > 2:
        return None
    try:
        first = _day(ends[0], today, since)
        return first, first if len(ends) == 1 else _day(ends[1], first, first)
    except Refused:
        return None


def _day(text: str, today: date, since: date) -> date:
    of_a_month = any(letter.isdecimal() for letter in text)
    return read_day(text, since if of_a_month else today)


def _name(before: list[str], behind: list[str], today: date) -> str:
    for words in (before, behind):
        if any(_span(words[at:end], today, today) for at, end in _stretches(len(words))):
            raise Refused(
                "that names more days than one: write the first and the last, as 24 dec to 26 dec,"
                " and a further day by itself"
            )
    while before and before[-1].casefold() in ("on", "from", "for", ":", "-", ","):
        before = before[:-1]
    while behind and behind[0].casefold() in ("for", "is", ":", "-", ",", "called"):
        behind = behind[1:]
    name = clean(" ".join((*before, *behind)).strip(" “”\"',:"), "the name")
    if len(name) > LONGEST_DAY_NAME:
        raise Refused(f"that name has {len(name)} letters: {LONGEST_DAY_NAME} are enough")
    return name[:1].upper() + name[1:] or NO_SCHOOL
