"""A hang sheet as somebody types it in afterwards: rows of text, and the times in them.

>>> read_sheet(["clip;who;hung", "17;MO;10:05"])
[SheetRow(line=2, hung='10:05', clip='17', who='MO', flipped='', taken='')]
>>> read_sheet(["1005, 17, Mara"])
[SheetRow(line=1, hung='1005', clip='17', who='Mara', flipped='', taken='')]
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Mapping
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from filmrack.domain.refusal import Refused
from filmrack.domain.timetable import Timetable, wall_to_utc

COLUMNS = ("hung", "clip", "who", "flipped", "taken")
"""The columns of a sheet without headings, in their order."""

MOST_IN_ROW = 1000
"""Characters of a row that are read; no row on paper holds more."""

_HEADINGS = {
    "time": "hung",
    "initials": "who",
    "name": "who",
    **{column: column for column in COLUMNS},
}
_TIME = re.compile(r"(\d{1,2})[:.h]?(\d\d)\s*([ap])?\.?m?\.?", re.ASCII | re.IGNORECASE)
_EARLY = timedelta(hours=2)
"""So long before the first class of a day a time is hardly meant."""


class SheetRow(NamedTuple):
    """One row as it was typed; `hung` is its time, and whatever is not known is empty."""

    line: int
    hung: str
    clip: str
    who: str = ""
    flipped: str = ""
    taken: str = ""


def read_sheet(lines: Iterable[str]) -> list[SheetRow]:
    """Return the rows of a sheet typed with commas, semicolons or tabs; empty ones are left out.

    With headings the columns may stand in any order, and ones that are not known (loaded) are
    left out; without, they are COLUMNS. A row without a separator is one cell.
    """
    order: Mapping[str, int] = {column: place for place, column in enumerate(COLUMNS)}
    rows: list[SheetRow] = []
    for number, line in enumerate(lines, 1):
        tidy = line[:MOST_IN_ROW].lstrip("\ufeff").replace("\r", " ").replace("\n", " ")
        separator = max(";\t,", key=tidy.count)
        cells = [cell.strip() for cell in next(csv.reader([tidy], delimiter=separator), [])]
        words = [_HEADINGS.get(cell.casefold()) for cell in cells]
        if not rows and "clip" in words:
            order = {word: place for place, word in enumerate(words) if word is not None}
        elif any(cells):
            told = {
                column: cells[place] if place < len(cells) else ""
                for column, place in order.items()
            }
            rows.append(SheetRow(number, told.pop("hung", ""), told.pop("clip", ""), **told))
    return rows


def time_on(text: str, day: date, timetable: Timetable) -> datetime | None:
    """Return a time of a sheet's day in UTC: `10:05`, `1005`, `1:40 pm`; None where none stands.

    Raises Refused for what is no time, and for one in the night that can be meant for the
    afternoon: a clock on the wall may show twelve hours.
    """
    if not text.strip():
        return None
    match = _TIME.fullmatch(text.strip())
    hour, minute = (int(match[1]), int(match[2])) if match else (99, 99)
    half = match[3].casefold() if match and match[3] else ""
    if half:
        hour = hour % 12 + 12 * (half == "p") if 1 <= hour <= 12 else 99
    if hour > 23 or minute > 59:
        raise Refused(f"“{text[:20]}” is no time: write it as 10:05")
    moment = wall_to_utc(day, time(hour, minute), timetable.zone)
    meetings = timetable.meetings_on(day)
    if not half and hour < 12 and meetings and moment < meetings[0].starts - _EARLY:
        raise Refused(
            f"{text[:20]} is long before the first class: write {hour + 12}:{minute:02d} for the"
            f" afternoon, or {hour}:{minute:02d} am"
        )
    return moment
