"""People and the periods they are in. Names live here and nowhere else."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable

from filmrack.domain.names import Person, tokens
from filmrack.domain.refusal import Refused
from filmrack.store.rows import beginning_with, in_parts, marks

_COLUMNS = "p.id, p.given, p.family, p.called, p.school_id"


def read_people(conn: sqlite3.Connection, numbers: Iterable[int]) -> dict[int, Person]:
    """Return people by their numbers; who is not there is left out."""
    wanted = sorted(set(numbers))
    found: dict[int, Person] = {}
    for some in in_parts(wanted):
        for row in conn.execute(
            f"SELECT {_COLUMNS} FROM people p WHERE p.id IN ({marks(some)})", some
        ).fetchall():
            found[row["id"]] = _person(row)
    return found


def person_meant(conn: sqlite3.Connection, number: int) -> Person:
    """Return the person of a number. Raises Refused where there is none."""
    found = read_people(conn, [number]).get(number)
    if found is None:
        raise Refused(f"there is no person {number}: look them up by name")
    return found


def by_school_id(conn: sqlite3.Connection, school_id: str) -> Person | None:
    """Return the person with a school's own number."""
    row = conn.execute(
        f"SELECT {_COLUMNS} FROM people p WHERE p.school_id = ?", (school_id,)
    ).fetchone()
    return None if row is None else _person(row)


def with_words(conn: sqlite3.Connection, words: list[str], *, limit: int = 500) -> list[Person]:
    """Return people who are still here, with a name beginning with each of some folded words."""
    if not words:
        return []
    having = " AND ".join(
        "EXISTS (SELECT 1 FROM name_tokens t WHERE t.person = p.id AND t.token >= ?"
        " AND t.token < ?)"
        for _ in words[1:]
    )
    sql = (
        f"SELECT DISTINCT {_COLUMNS} FROM name_tokens f JOIN people p ON p.id = f.person"
        " WHERE f.token >= ? AND f.token < ? AND p.left_at IS NULL AND p.wiped_at IS NULL"
        + (f" AND {having}" if having else "")
        + " ORDER BY p.family, p.given, p.id LIMIT ?"
    )
    bounds = [bound for word in words for bound in beginning_with(word)]
    return [_person(row) for row in conn.execute(sql, [*bounds, limit]).fetchall()]


def in_period(conn: sqlite3.Connection, term: str, period: int) -> list[Person]:
    """Return who is in a period, by family name."""
    rows = conn.execute(
        f"SELECT {_COLUMNS} FROM enrolments e JOIN people p ON p.id = e.person"
        " WHERE e.term = ? AND e.period = ? AND p.left_at IS NULL"
        " ORDER BY p.family, p.given, p.id",
        (term, period),
    ).fetchall()
    return [_person(row) for row in rows]


def period_of(conn: sqlite3.Connection, person: int, term: str) -> int | None:
    """Return the period of a person in a term, or None."""
    row = conn.execute(
        "SELECT period FROM enrolments WHERE person = ? AND term = ?", (person, term)
    ).fetchone()
    return None if row is None else row[0]


def add(conn: sqlite3.Connection, person: Person) -> int:
    """Add a person under the next free number, and return it; `person.number` is not used."""
    cursor = conn.execute(
        "INSERT INTO people (school_id, given, family, called) VALUES (?, ?, ?, ?)",
        (person.school_id, person.given, person.family, person.called),
    )
    assert cursor.lastrowid is not None
    _index(conn, cursor.lastrowid, person)
    return cursor.lastrowid


def rename(conn: sqlite3.Connection, person: Person) -> None:
    """Give a person the names they have now; the former ones are found no more."""
    conn.execute(
        "UPDATE people SET given = ?, family = ?, called = ?, school_id = ? WHERE id = ?",
        (person.given, person.family, person.called, person.school_id, person.number),
    )
    conn.execute("DELETE FROM name_tokens WHERE person = ?", (person.number,))
    _index(conn, person.number, person)


def enrol(conn: sqlite3.Connection, person: int, term: str, period: int) -> None:
    """Put a person in a period for a term."""
    conn.execute(
        "INSERT INTO enrolments (person, term, period) VALUES (?, ?, ?)"
        " ON CONFLICT (person, term) DO UPDATE SET period = excluded.period",
        (person, term, period),
    )


def add_note(conn: sqlite3.Connection, text: str) -> int:
    """Keep what someone typed, and return its number: the ledger holds no words."""
    cursor = conn.execute("INSERT INTO notes (text) VALUES (?)", (text,))
    assert cursor.lastrowid is not None
    return cursor.lastrowid


def read_note(conn: sqlite3.Connection, number: int) -> str:
    """Return one note; empty where it went with the name that it said."""
    return read_notes(conn, [number]).get(number, "")


def read_notes(conn: sqlite3.Connection, numbers: Iterable[int]) -> dict[int, str]:
    """Return notes by their numbers, those that are there still."""
    wanted = list(numbers)
    rows = conn.execute(
        f"SELECT id, text FROM notes WHERE id IN ({marks(wanted)})", wanted
    ).fetchall()
    return {row["id"]: row["text"] for row in rows}


def _index(conn: sqlite3.Connection, number: int, person: Person) -> None:
    words = set(tokens(f"{person.given} {person.family} {person.called or ''}"))
    conn.executemany(
        "INSERT INTO name_tokens (token, person, backward) VALUES (?, ?, ?)",
        [(word, number, word[::-1]) for word in sorted(words)],
    )


def _person(row: sqlite3.Row) -> Person:
    return Person(row["id"], row["given"], row["family"], row["called"], row["school_id"])
