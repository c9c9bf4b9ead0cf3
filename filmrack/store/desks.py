"""Which desks are open, and when each was last alive: a gap in all of them tells of a power cut."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime, timedelta

from filmrack.store.times import from_text, maybe, to_text

KEPT = timedelta(days=60)
"""Desks that were last alive before that are forgotten."""


@dataclass(frozen=True, slots=True)
class Open:
    """A desk from when it was opened to its latest heartbeat."""

    opened: datetime
    alive_at: datetime


def beat(conn: sqlite3.Connection, name: str, opened: datetime, now: datetime) -> None:
    """Keep that a desk is alive."""
    conn.execute(
        "INSERT INTO desks (name, opened, alive_at) VALUES (?, ?, ?)"
        " ON CONFLICT (name) DO UPDATE SET alive_at = excluded.alive_at",
        (f"{name} {to_text(opened)}", to_text(opened), to_text(now)),
    )
    conn.execute("DELETE FROM desks WHERE alive_at < ?", (to_text(now - KEPT),))


def last_beat(conn: sqlite3.Connection) -> datetime | None:
    """Return when a desk was last alive."""
    return maybe(conn.execute("SELECT max(alive_at) FROM desks").fetchone()[0])


def open_since(conn: sqlite3.Connection, since: datetime) -> list[Open]:
    """Return the desks that were alive after a moment, in the order in which they were opened."""
    rows = conn.execute(
        "SELECT opened, alive_at FROM desks WHERE alive_at >= ? ORDER BY opened", (to_text(since),)
    ).fetchall()
    return [Open(from_text(row["opened"]), from_text(row["alive_at"])) for row in rows]
