"""The binders of a term, which are made as they fill."""

from __future__ import annotations

import sqlite3

from filmrack.domain.room import Binder
from filmrack.store.room import bump_stamp


def binders_of(conn: sqlite3.Connection, term: str) -> list[Binder]:
    """Return the binders of a term, those made since the room was last read among them."""
    rows = conn.execute(
        "SELECT number, period FROM binders WHERE term = ? ORDER BY number", (term,)
    ).fetchall()
    return [Binder(term, row["number"], row["period"]) for row in rows]


def binder_period(conn: sqlite3.Connection, term: str, number: int) -> int | None:
    """Return the period for which a binder was begun; None also where it is not there."""
    return next((each.period for each in binders_of(conn, term) if each.number == number), None)


def know_binder(conn: sqlite3.Connection, binder: Binder) -> None:
    """Make a binder known, at every desk; one that is known stays as it is."""
    made = conn.execute(
        "INSERT OR IGNORE INTO binders (term, number, period) VALUES (?, ?, ?)",
        (binder.term, binder.number, binder.period),
    )
    if made.rowcount:
        bump_stamp(conn)


def forget_binder(conn: sqlite3.Connection, binder: Binder) -> None:
    """Forget a binder that no roll was ever filed in, as was asked before."""
    conn.execute("DELETE FROM binders WHERE term = ? AND number = ?", binder[:2])
