"""The figures of a term: rolls a week, left behind, days from dryer to sleeve, sweeps that agreed.

Everything is read from what the file keeps; nothing is counted anew from the ledger.
"""

from __future__ import annotations

import sqlite3
from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date, datetime, time, timedelta
from typing import NamedTuple

from filmrack.domain.room import Room
from filmrack.domain.schooldays import Term, monday_of
from filmrack.domain.sweep import RodCount, accuracy
from filmrack.domain.timetable import wall_to_utc
from filmrack.store.file import DarkroomFile
from filmrack.store.sweeps import rod_count
from filmrack.store.times import from_text, maybe, to_text


class Week(NamedTuple):
    """One week of a term, by its Monday.

    `rolls` were hung in it, `left_behind` of these hung on past the room's rule. `accuracy` is the
    record accuracy of its sweeps, from 0 to 1, or None when none was finished.
    """

    monday: date
    rolls: int
    left_behind: int
    accuracy: float | None


class Figures(NamedTuple):
    """The figures of a term: each week up to now, and how many rolls took how many days.

    `days_to_sleeve` counts rolls by the calendar days from leaving the dryer to being sleeved.
    """

    weeks: tuple[Week, ...]
    days_to_sleeve: Mapping[int, int]

    @property
    def rolls(self) -> int:
        """Return how many rolls of the term were hung."""
        return sum(week.rolls for week in self.weeks)

    @property
    def median_days(self) -> int | None:
        """Return the days within which half of the sleeved rolls were sleeved, or None."""
        half = sum(self.days_to_sleeve.values()) / 2
        seen = 0
        for days, rolls in sorted(self.days_to_sleeve.items()):
            seen += rolls
            if seen >= half:
                return days
        return None


def figures(file: DarkroomFile, term: Term, now: datetime) -> Figures:
    """Return the figures of a term up to a moment."""
    room, conn = file.room(), file.conn
    hung: Counter[date] = Counter()
    behind: Counter[date] = Counter()
    waited: Counter[int] = Counter()
    local = room.timetable.local_date
    for row in conn.execute(_HUNG, (term.code,)).fetchall():
        at = from_text(row["hung_at"])
        monday = monday_of(local(at))
        hung[monday] += 1
        down = maybe(row["down"])
        due = room.timetable.left_behind_from(at, row["period"] or 0, room.rules.left_behind)
        if due is not None and due < (down or now):
            behind[monday] += 1
        if down is not None and row["sleeved_at"] is not None:
            waited[max(0, (local(from_text(row["sleeved_at"])) - local(down)).days)] += 1
    swept = _swept(conn, room, term)
    last = max([min(term.ends, local(now)), *hung])
    weeks = _weeks(min([term.starts, *hung]), last)
    return Figures(
        tuple(
            Week(monday, hung[monday], behind[monday], accuracy(swept.get(monday, ())))
            for monday in weeks
        ),
        dict(sorted(waited.items())),
    )


# When a roll first came down for good: the end of its last stretch on a rod.
_HUNG = """
SELECT period, hung_at, sleeved_at, json_extract(stays, '$[#-1][2]') AS down
FROM rolls WHERE term = ? AND hung_at IS NOT NULL AND place <> 'void'
"""

_SWEPT = """
SELECT s.finished, c.* FROM sweeps s JOIN sweep_counts c ON c.sweep = s.id
WHERE s.finished >= ? AND s.finished < ? ORDER BY s.id, c.rod
"""


def _swept(conn: sqlite3.Connection, room: Room, term: Term) -> dict[date, list[RodCount]]:
    zone = room.timetable.zone
    starts = wall_to_utc(term.starts, time(), zone)
    ends = wall_to_utc(term.ends + timedelta(days=1), time(), zone)
    found: dict[date, list[RodCount]] = {}
    for row in conn.execute(_SWEPT, (to_text(starts), to_text(ends))).fetchall():
        monday = monday_of(room.timetable.local_date(from_text(row["finished"])))
        found.setdefault(monday, []).append(rod_count(row))
    return found


def _weeks(first: date, last: date) -> Iterable[date]:
    monday = monday_of(first)
    while monday <= last:
        yield monday
        monday += timedelta(days=7)
