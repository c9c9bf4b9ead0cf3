"""How many rolls a class hung on its last days."""

from __future__ import annotations

import sqlite3
from collections import Counter
from datetime import datetime

from filmrack.domain.forecast import DAYS
from filmrack.domain.room import Room
from filmrack.domain.timetable import Meeting
from filmrack.store.times import from_text, to_text


def hung_by_class(conn: sqlite3.Connection, room: Room, period: int, before: datetime) -> list[int]:
    """Return how many rolls a period hung on each of the last days on which it met, oldest first.

    Days without a roll count as zero; only what its own class hung counts.
    """
    meetings: list[Meeting] = []
    moment = before
    while len(meetings) < DAYS:
        meeting = room.timetable.last_meeting_before(moment, period)
        if meeting is None:
            break
        meetings.append(meeting)
        moment = meeting.starts
    if not meetings:
        return []
    zone = room.timetable.zone
    rows = conn.execute(
        "SELECT hung_at FROM rolls WHERE period = ? AND hung_at >= ? AND hung_at < ?",
        (period, to_text(meetings[-1].starts), to_text(before)),
    ).fetchall()
    by_day = Counter(from_text(row[0]).astimezone(zone).date() for row in rows)
    return [by_day[meeting.starts.astimezone(zone).date()] for meeting in reversed(meetings)]
