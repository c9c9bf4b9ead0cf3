"""Clip pairs, as the file keeps them."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from datetime import datetime

from filmrack.domain.busiest import LOOKED_BACK, Busiest, Stretch, busiest_day
from filmrack.domain.clip import Clip, lost_named
from filmrack.domain.holdings import holdings
from filmrack.domain.timetable import Timetable
from filmrack.store import ledger, rolls
from filmrack.store.times import to_text


def read_clip(conn: sqlite3.Connection, number: int) -> Clip | None:
    """Return a clip pair, or None when it was never used."""
    row = conn.execute("SELECT * FROM clips WHERE number = ?", (number,)).fetchone()
    return None if row is None else _clip(row)


def all_clips(conn: sqlite3.Connection) -> list[Clip]:
    """Return every clip pair that was ever used, by number."""
    return [_clip(row) for row in conn.execute("SELECT * FROM clips ORDER BY number").fetchall()]


def in_use(conn: sqlite3.Connection) -> set[int]:
    """Return the clip pairs that are on a roll now."""
    rows = conn.execute("SELECT clip FROM rolls WHERE clip IS NOT NULL").fetchall()
    return {row[0] for row in rows}


def free(conn: sqlite3.Connection) -> list[int]:
    """Return the known clip pairs that are whole and on no roll, lowest first."""
    used = in_use(conn)
    known = all_clips(conn)
    return [c.number for c in known if not (c.retired or c.lost or c.number in used)]


def know_clips(conn: sqlite3.Connection, numbers: Iterable[int]) -> None:
    """Make clip pairs known that are used or have their tags; the known ones stay as they are."""
    conn.executemany(
        "INSERT OR IGNORE INTO clips (number) VALUES (?)", [(number,) for number in numbers]
    )


def busiest(conn: sqlite3.Connection, timetable: Timetable, now: datetime) -> Busiest | None:
    """Return the busiest day of the last weeks, or None when no clip pair was on a roll."""
    since = now - LOOKED_BACK
    return busiest_day(_on_rolls_since(conn, since), timetable, since, now)


def _on_rolls_since(conn: sqlite3.Connection, since: datetime) -> list[Stretch]:
    """Return when each clip pair was on a roll, from the rolls that had one after a moment."""
    return [
        (holding.since, holding.until)
        for number in rolls.loose_since(conn, since)
        for holding in holdings(ledger.of_roll(conn, number))
        if holding.kind == "clip" and (holding.until is None or holding.until > since)
    ]


def save_clip(conn: sqlite3.Connection, clip: Clip, at: datetime) -> None:
    """Keep a clip pair; one that is newly retired is so from a moment on."""
    conn.execute(
        "INSERT INTO clips (number, lost, retired_at) VALUES (?, ?, ?)"
        " ON CONFLICT (number) DO UPDATE SET lost = excluded.lost, retired_at ="
        " CASE WHEN excluded.retired_at IS NULL THEN NULL"
        " ELSE coalesce(retired_at, excluded.retired_at) END",
        (clip.number, ",".join(map(str, clip.lost)), to_text(at) if clip.retired else None),
    )


def _clip(row: sqlite3.Row) -> Clip:
    lost = tuple(lost_named(one) for one in row["lost"].split(",") if one)
    return Clip(row["number"], lost, row["retired_at"] is not None)
