"""The rows of people and clip pairs as a change of them finds and leaves them, to go back to."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Mapping

from filmrack.domain.names import Person
from filmrack.store import people

Row = dict[str, object]
Rows = dict[str, Row | None]
"""Rows by `person 12` or `clip 17`; None for one that is not there."""

_PERSON = "school_id, given, family, called, name_stands, left_at"


def key_of_person(number: int) -> str:
    """Return what a person's row is called among `Rows`."""
    return f"person {number}"


def key_of_clip(number: int) -> str:
    """Return what a clip pair's row is called among `Rows`."""
    return f"clip {number}"


def number_in(key: str) -> int:
    """Return the number of a person or a clip pair by what its row is called."""
    return int(key.rpartition(" ")[2])


def is_person(key: str) -> bool:
    """Tell whether a row is a person's, by what it is called."""
    return key.startswith("person ")


def read_rows(conn: sqlite3.Connection, keys: Iterable[str]) -> Rows:
    """Return the rows that are called so, as they are now."""
    return {
        key: _person(conn, number_in(key)) if is_person(key) else _clip(conn, number_in(key))
        for key in keys
    }


def put_rows(conn: sqlite3.Connection, rows: Mapping[str, Row | None]) -> None:
    """Make rows what they were; one that was not there goes, and nothing may refer to it."""
    for key, row in rows.items():
        if is_person(key):
            _put_person(conn, number_in(key), row)
        elif row is None:
            conn.execute("DELETE FROM clips WHERE number = ?", (number_in(key),))
        else:
            conn.execute(
                "UPDATE clips SET lost = ?, retired_at = ? WHERE number = ?",
                (row["lost"], row["retired_at"], number_in(key)),
            )


def told_of_since(conn: sqlite3.Connection, key: str, entry: int) -> bool:
    """Tell whether an entry behind another one says something of a person or a clip pair."""
    what = "person" if is_person(key) else "clip"
    row = conn.execute(
        f"SELECT 1 FROM ledger WHERE id > ? AND json_extract(detail, '$.{what}') = ? LIMIT 1",
        (entry, number_in(key)),
    ).fetchone()
    return row is not None


def _person(conn: sqlite3.Connection, number: int) -> Row | None:
    row = conn.execute(f"SELECT {_PERSON} FROM people WHERE id = ?", (number,)).fetchone()
    if row is None:
        return None
    periods = conn.execute(
        "SELECT term, period FROM enrolments WHERE person = ? ORDER BY term", (number,)
    ).fetchall()
    return {**dict(row), "periods": {one["term"]: one["period"] for one in periods}}


def _clip(conn: sqlite3.Connection, number: int) -> Row | None:
    row = conn.execute("SELECT lost, retired_at FROM clips WHERE number = ?", (number,)).fetchone()
    return None if row is None else dict(row)


def _put_person(conn: sqlite3.Connection, number: int, row: Row | None) -> None:
    conn.execute("DELETE FROM enrolments WHERE person = ?", (number,))
    if row is None:
        conn.execute("DELETE FROM name_tokens WHERE person = ?", (number,))
        conn.execute("DELETE FROM people WHERE id = ?", (number,))
        return
    people.rename(conn, person_in(number, row))
    conn.execute(
        "UPDATE people SET name_stands = ?, left_at = ? WHERE id = ?",
        (row["name_stands"], row["left_at"], number),
    )
    periods = row["periods"]
    assert isinstance(periods, dict)
    for term, period in periods.items():
        people.enrol(conn, number, term, period)


def person_in(number: int, row: Row) -> Person:
    """Return the person that a row is of."""
    called, school_id = row["called"], row["school_id"]
    return Person(
        number,
        str(row["given"]),
        str(row["family"]),
        None if called is None else str(called),
        None if school_id is None else str(school_id),
    )
