"""Whether the file is whole, and its state is what the ledger says."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from filmrack.domain.journey import fold
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll, roll_number
from filmrack.store import ledger, rolls, terms
from filmrack.store.file import DarkroomFile


def problems(file: DarkroomFile) -> list[str]:
    """Return what is wrong with a file, in sentences; nothing is changed."""
    conn = file.conn
    return [*_integrity(conn), *_references(conn), *_gaps(conn), *_terms(conn), *_states(conn)]


def folded(conn: sqlite3.Connection, number: int) -> Roll | None:
    """Return the state of a roll as the ledger has it. Raises OutOfPlace when it makes no sense."""
    return fold(ledger.of_roll(conn, number))


def _integrity(conn: sqlite3.Connection) -> Iterator[str]:
    for row in conn.execute("PRAGMA integrity_check(20)").fetchall():
        if row[0] != "ok":
            yield f"the file itself: {row[0]}"


def _references(conn: sqlite3.Connection) -> Iterator[str]:
    for row in conn.execute("PRAGMA foreign_key_check").fetchall():
        yield f"table {row[0]}, row {row[1]}: refers to something in {row[2]} that is not there"


def _gaps(conn: sqlite3.Connection) -> Iterator[str]:
    entries, last = conn.execute("SELECT count(*), coalesce(max(id), 0) FROM ledger").fetchone()
    if entries != last:
        yield f"the ledger has {last - entries} gaps: entries were removed from outside"
    for row in conn.execute(
        "SELECT term, count(*) AS rolls, max(serial) AS last FROM rolls GROUP BY term"
    ).fetchall():
        if row["rolls"] != row["last"]:
            yield f"term {row['term']} has {row['last']} roll numbers for {row['rolls']} rolls"


def _terms(conn: sqlite3.Connection) -> Iterator[str]:
    closed = terms.closed(conn)
    for row in conn.execute("SELECT code FROM terms ORDER BY code").fetchall():
        code = row["code"]
        if closed.get(code) != terms.closed_by_the_ledger(conn, code):
            yield f"term {code} is {'closed' if code in closed else 'open'}, but not by the ledger"


def _states(conn: sqlite3.Connection) -> Iterator[str]:
    known = {roll.id: roll for roll in rolls.read(conn, "1 ORDER BY id")}
    for number in ledger.rolls_in(conn):
        if number not in known:
            yield f"the ledger knows a roll {number} that is not in the file"
    for number, state in known.items():
        name = roll_number(state.term, state.serial)
        try:
            told = folded(conn, number)
        except (Refused, KeyError) as error:
            yield f"{name}: its ledger makes no sense ({error})"
            continue
        if told is None:
            if state.place.kind != "void":
                yield f"{name} is {state.place} but nothing on the ledger says so"
        elif told != state:
            yield f"{name} is {state.place} in the file, and {told.place} by the ledger folded"
