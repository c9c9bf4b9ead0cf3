"""What has hung where on the rods, and of what format it was."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from filmrack.domain.places import Hanging
from filmrack.store import ledger, rolls


def hanging_now(conn: sqlite3.Connection, rod: int | None = None) -> list[Hanging]:
    """Return what hangs now, on one rod or everywhere."""
    where, values = ("rod IS NOT NULL", ()) if rod is None else ("rod = ?", (rod,))
    rows = conn.execute(f"SELECT rod, position, film FROM rolls WHERE {where}", values).fetchall()
    return [Hanging(*row) for row in rows]


def hanging_since(conn: sqlite3.Connection, at: datetime, until: datetime | None) -> list[Hanging]:
    """Return all that hung from a moment on, at any time up to another one."""
    from filmrack.domain.holdings import holdings  # what hangs now asks for no history

    found: list[Hanging] = []
    for number in rolls.loose_since(conn, at):
        entries = ledger.of_roll(conn, number)
        for holding in holdings(entries):
            if (
                isinstance(holding.what, tuple)
                and (holding.until is None or holding.until > at)
                and (until is None or holding.since < until)
            ):
                rod, position = holding.what
                film = next(entry.detail["film"] for entry in entries if "film" in entry.detail)
                if rod is not None and position is not None:
                    found.append(Hanging(rod, position, film))
    return found
