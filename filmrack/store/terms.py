"""Terms: when they are, whether they are closed, and who is enrolled in them."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from filmrack.domain.schooldays import Term
from filmrack.store.times import from_text


def closed(conn: sqlite3.Connection) -> dict[str, datetime]:
    """Return the terms that are closed, and since when."""
    rows = conn.execute("SELECT code, closed_at FROM terms WHERE closed_at IS NOT NULL").fetchall()
    return {row["code"]: from_text(row["closed_at"]) for row in rows}


def enrolled(conn: sqlite3.Connection, code: str) -> int:
    """Return how many people are enrolled in a term."""
    row = conn.execute("SELECT count(*) FROM enrolments WHERE term = ?", (code,)).fetchone()
    number: int = row[0]
    return number


def add(conn: sqlite3.Connection, term: Term) -> None:
    """Add a term."""
    conn.execute(
        "INSERT INTO terms (code, starts, ends) VALUES (?, ?, ?)",
        (term.code, term.starts.isoformat(), term.ends.isoformat()),
    )


def counts(conn: sqlite3.Connection) -> dict[str, int]:
    """Return how many rolls each term has, void numbers left out."""
    rows = conn.execute(
        "SELECT t.code, count(r.id) AS rolls FROM terms t"
        " LEFT JOIN rolls r ON r.term = t.code AND r.place <> 'void' GROUP BY t.code"
    ).fetchall()
    return {row["code"]: row["rolls"] for row in rows}
