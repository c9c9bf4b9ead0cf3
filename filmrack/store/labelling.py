"""Labels that wait to be printed, and where the last sheet of each stock stopped."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from datetime import datetime

from filmrack.store.times import to_text


def queue_sleeves(conn: sqlite3.Connection, roll: int, pages: int, at: datetime) -> None:
    """Queue a label for each sleeve page of a roll."""
    conn.executemany(
        "INSERT OR REPLACE INTO label_queue (kind, roll, page, queued_at)"
        " VALUES ('sleeve', ?, ?, ?)",
        [(roll, page, to_text(at)) for page in range(1, pages + 1)],
    )


def queued_sleeves(conn: sqlite3.Connection) -> list[tuple[int, int]]:
    """Return (roll, page) of the labels that wait and whose roll is still sleeved, oldest first."""
    rows = conn.execute(
        "SELECT q.roll, q.page FROM label_queue q"
        " JOIN sleeves s ON s.roll = q.roll AND s.page = q.page ORDER BY q.queued_at, q.id"
    ).fetchall()
    return [(row["roll"], row["page"]) for row in rows]


def forget_queued(conn: sqlite3.Connection, printed: Iterable[tuple[int, int]]) -> None:
    """Take printed labels off the queue."""
    conn.executemany("DELETE FROM label_queue WHERE roll = ? AND page = ?", list(printed))


def next_label(conn: sqlite3.Connection, stock: str) -> int:
    """Return the first free label of the sheet in hand, counted from 1."""
    row = conn.execute(
        "SELECT next_label FROM sheet_positions WHERE stock = ?", (stock,)
    ).fetchone()
    return 1 if row is None else row[0]


def remember_next_label(conn: sqlite3.Connection, stock: str, number: int) -> None:
    """Keep where the last sheet of a stock stopped."""
    conn.execute(
        "INSERT INTO sheet_positions (stock, next_label) VALUES (?, ?)"
        " ON CONFLICT (stock) DO UPDATE SET next_label = excluded.next_label",
        (stock, number),
    )
