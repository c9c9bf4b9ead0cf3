"""Which desks are open, and when each was last alive: a gap in all of them tells of a power cut."""

from __future__ import annotations

import sqlite3
from datetime import datetime, timedelta

from filmrack.store import settings
from filmrack.store.times import from_text, maybe, to_text

KEPT = timedelta(days=60)
"""Desks that were last alive before that are forgotten."""
_SILENCE = timedelta(minutes=3)
"""A desk beats each minute: one that has not for so long was not alive."""

CLOSED = "desk_closed"
"""The setting that says when a desk was last closed by a hand."""


def beat(conn: sqlite3.Connection, name: str, opened: datetime, now: datetime) -> None:
    """Keep that a desk is alive."""
    conn.execute(
        "INSERT INTO desks (name, opened, alive_at) VALUES (?, ?, ?)"
        " ON CONFLICT (name) DO UPDATE SET alive_at = excluded.alive_at",
        (f"{name} {to_text(opened)}", to_text(opened), to_text(now)),
    )
    conn.execute("DELETE FROM desks WHERE alive_at < ?", (to_text(now - KEPT),))


def close(conn: sqlite3.Connection, name: str, opened: datetime, now: datetime) -> None:
    """Keep that a desk was closed by a hand."""
    conn.execute("DELETE FROM desks WHERE name = ?", (f"{name} {to_text(opened)}",))
    settings.write(conn, CLOSED, to_text(now))


def last_beat(conn: sqlite3.Connection) -> datetime | None:
    """Return when a desk was last alive."""
    alive = [_left_open(conn), _closed(conn)]
    return max((each for each in alive if each is not None), default=None)


def silent_since(conn: sqlite3.Connection, now: datetime) -> datetime | None:
    """Return since when no desk has been alive, though none of the last ones was closed.

    None while one is alive, and when the last one was closed by a hand.
    """
    alive, closed = _left_open(conn), _closed(conn)
    if alive is None or now - alive < _SILENCE:
        return None
    if closed is not None and closed - alive >= _SILENCE:  # what ended that desk was no power cut
        return None
    return alive if closed is None else max(alive, closed)


def _left_open(conn: sqlite3.Connection) -> datetime | None:
    return maybe(conn.execute("SELECT max(alive_at) FROM desks").fetchone()[0])


def _closed(conn: sqlite3.Connection) -> datetime | None:
    text = settings.read(conn, CLOSED)
    return from_text(text) if isinstance(text, str) else None
