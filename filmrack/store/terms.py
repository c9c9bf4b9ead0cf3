"""Terms: when they are, whether they are closed, and who is enrolled in them."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Entry, Roll
from filmrack.store import ledger, people, rolls
from filmrack.store.times import from_text, to_text


def closed(conn: sqlite3.Connection) -> dict[str, datetime]:
    """Return the terms that are closed, and since when."""
    rows = conn.execute("SELECT code, closed_at FROM terms WHERE closed_at IS NOT NULL").fetchall()
    return {row["code"]: from_text(row["closed_at"]) for row in rows}


def refuse_closed(conn: sqlite3.Connection, code: str) -> None:
    """Raise Refused for a term that is closed: nothing new begins in it."""
    if code in closed(conn):
        raise Refused(f"term {code} is closed: reopen it, or open the next one")


def enrolled(conn: sqlite3.Connection, code: str) -> int:
    """Return how many people are enrolled in a term."""
    row = conn.execute("SELECT count(*) FROM enrolments WHERE term = ?", (code,)).fetchone()
    number: int = row[0]
    return number


def counts(conn: sqlite3.Connection) -> dict[str, int]:
    """Return how many rolls each term has, void numbers left out."""
    rows = conn.execute(
        "SELECT t.code, count(r.id) AS rolls FROM terms t"
        " LEFT JOIN rolls r ON r.term = t.code AND r.place <> 'void' GROUP BY t.code"
    ).fetchall()
    return {row["code"]: row["rolls"] for row in rows}


def by_place(conn: sqlite3.Connection, code: str) -> dict[str, int]:
    """Return how many rolls of a term are in each kind of place where there are any."""
    rows = conn.execute(
        "SELECT place, count(*) AS rolls FROM rolls WHERE term = ? AND place <> 'void'"
        " GROUP BY place",
        (code,),
    ).fetchall()
    return {row["place"]: row["rolls"] for row in rows}


def closings(conn: sqlite3.Connection, code: str) -> list[Entry]:
    """Return the standing entries that closed or reopened a term, in the order they were told."""
    return [entry for entry in ledger.of_the_terms(conn) if entry.detail.get("term") == code]


def closed_by_the_ledger(conn: sqlite3.Connection, code: str) -> datetime | None:
    """Return since when a term is closed by what stands on the ledger, or None."""
    told = closings(conn, code)
    return told[-1].happened if told and told[-1].act == "close" else None


def why_closed(conn: sqlite3.Connection, code: str) -> str:
    """Return the reason for which a term was closed with rolls left; empty for none."""
    told = closings(conn, code)
    note = told[-1].detail.get("note") if told and told[-1].act == "close" else None
    return "" if note is None else people.read_note(conn, note)


def refold(conn: sqlite3.Connection, code: str) -> None:
    """Write anew whether a term is closed, from its standing entries on the ledger."""
    since = closed_by_the_ledger(conn, code)
    conn.execute(
        "UPDATE terms SET closed_at = ? WHERE code = ?",
        (None if since is None else to_text(since), code),
    )


def settled(conn: sqlite3.Connection, code: str) -> dict[str, int]:
    """Return how many rolls of a term owe nothing to anybody, by their kind of place."""
    rows = conn.execute(
        f"SELECT place, count(*) AS rolls FROM rolls WHERE term = ? AND {_SETTLED} GROUP BY place",
        (code,),
    ).fetchall()
    return {row["place"]: row["rolls"] for row in rows}


def owing(conn: sqlite3.Connection, code: str) -> list[Roll]:
    """Return the rolls of a term for which something is owed, by serial."""
    return rolls.read(
        conn, f"term = ? AND place <> 'void' AND NOT ({_SETTLED}) ORDER BY serial", (code,)
    )


# Gone for good, or in its binder with an owner and a contact sheet.
_SETTLED = (
    "(place IN ('handed_back', 'discarded') OR place = 'binder' AND person IS NOT NULL"
    " AND EXISTS (SELECT 1 FROM contact_sheets c WHERE c.roll = rolls.id))"
)
