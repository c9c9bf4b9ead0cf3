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


def usual_binder(conn: sqlite3.Connection, term: str, period: int | None) -> int:
    """Return the binder that a period's rolls are filed in: the last one begun for it, else the
    first number that no binder of the term has yet.
    """
    known = binders_of(conn, term)
    own = [each.number for each in known if each.period == period]
    taken = {each.number for each in known}
    return own[-1] if own else next(nth for nth in range(1, len(taken) + 2) if nth not in taken)


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
