"""Everyone the file knows, as a roster is compared with them."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from filmrack.domain.enrolling import Known
from filmrack.domain.names import Person
from filmrack.store.times import to_text


def everyone(conn: sqlite3.Connection, term: str) -> list[Known]:
    """Return all people whose names are kept, with their period in a term."""
    rows = conn.execute(
        "SELECT p.*, e.period FROM people p"
        " LEFT JOIN enrolments e ON e.person = p.id AND e.term = ?"
        " WHERE p.wiped_at IS NULL ORDER BY p.id",
        (term,),
    ).fetchall()
    return [
        Known(
            Person(row["id"], row["given"], row["family"], row["called"], row["school_id"]),
            row["period"],
            row["left_at"] is not None,
            bool(row["name_stands"]),
        )
        for row in rows
    ]


def has_left(conn: sqlite3.Connection, person: int) -> bool:
    """Tell whether a person has left."""
    row = conn.execute("SELECT left_at FROM people WHERE id = ?", (person,)).fetchone()
    return row is not None and row[0] is not None


def mark_left(conn: sqlite3.Connection, person: int, at: datetime | None) -> None:
    """Keep since when a person has left, or that they are back."""
    text = None if at is None else to_text(at)
    conn.execute("UPDATE people SET left_at = ? WHERE id = ?", (text, person))


def let_name_stand(conn: sqlite3.Connection, person: int) -> None:
    """Keep that a person has asked for their name, so that no roster changes it back."""
    conn.execute("UPDATE people SET name_stands = 1 WHERE id = ?", (person,))


def highest(conn: sqlite3.Connection) -> int:
    """Return the highest number that a person has, or 0."""
    number: int = conn.execute("SELECT coalesce(max(id), 0) FROM people").fetchone()[0]
    return number
