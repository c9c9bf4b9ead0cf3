"""What printing keeps: labels that wait, where each stock's last sheet stopped, the printers."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from datetime import datetime
from typing import TypedDict, cast

from filmrack.store import settings
from filmrack.store.times import to_text


class Lengths(TypedDict):
    """What is done against a printer's shift (mm) and stretch."""

    right_mm: float
    down_mm: float
    stretch_x: float
    stretch_y: float


class PrinterRecord(TypedDict, total=False):
    """A printer: what is done against it, and what was done on its last test page."""

    used: Lengths
    tested: Lengths


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


def queued_of(conn: sqlite3.Connection, roll: int) -> int:
    """Return how many labels of a roll wait: none once it is not sleeved any more."""
    row = conn.execute(
        "SELECT count(*) AS many FROM label_queue q"
        " JOIN sleeves s ON s.roll = q.roll AND s.page = q.page WHERE q.roll = ?",
        (roll,),
    ).fetchone()
    return int(row["many"])


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


def printers(conn: sqlite3.Connection) -> dict[str, PrinterRecord]:
    """Return the printers that were measured or tested, by name; "" is the usual one."""
    kept = settings.read(conn, "printers")
    return cast("dict[str, PrinterRecord]", kept) if isinstance(kept, dict) else {}


def keep_printer(conn: sqlite3.Connection, name: str, record: PrinterRecord) -> None:
    """Keep what is known of a printer."""
    settings.write(conn, "printers", {**printers(conn), name: record})
