"""Whether the file is whole, and its state is what the ledger says."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing

from filmrack.domain.clock_doubt import SLACK
from filmrack.domain.counted import counted
from filmrack.domain.roll import Place
from filmrack.domain.room import Room
from filmrack.store import folding, terms
from filmrack.store.file import DarkroomFile
from filmrack.store.times import from_text

NAMED = 20
"""Odd times that are named before the rest is counted."""


def problems(file: DarkroomFile, before: sqlite3.Connection | None = None) -> list[str]:
    """Return what is wrong with a file, in sentences; nothing is changed.

    While the file is being written, `before` is another connection, which sees the ledger before.
    """
    conn = file.conn
    found: list[str] = []
    for look in (_integrity, _references, _gaps, _terms):
        found += _as_far_as_it_can_be_read(look, conn)
    try:
        room = file.room()
    except sqlite3.DatabaseError as error:
        return [*found, f"the room cannot be read ({error})"]
    return [
        *found,
        *_as_far_as_it_can_be_read(lambda conn: _states(conn, room, before or conn), conn),
    ]


def odd_times(file: DarkroomFile) -> list[str]:
    """Return where the clocks that the ledger was written by cannot have agreed, in sentences.

    The order of acts is that of their times, so each act stands after its cause all the same.
    """
    rows = file.conn.execute(
        "SELECT id, entered, before FROM (SELECT id, entered, max(entered) OVER"
        " (ORDER BY id ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS before FROM ledger)"
        " WHERE entered < before ORDER BY id"
    ).fetchall()
    found = []
    for row in rows:
        behind = from_text(row["before"]) - from_text(row["entered"])
        if behind > SLACK:
            minutes = counted(round(behind.total_seconds() / 60), "minute")
            found.append(
                f"entry {row['id']} was told at {row['entered']}, {minutes} before an"
                " earlier one: a clock was set back, or two clocks differ"
            )
    more = len(found) - NAMED
    return [*found[:NAMED], f"and {more} more such entries"] if more > 0 else found


def _as_far_as_it_can_be_read(
    look: Callable[[sqlite3.Connection], Iterator[str]], conn: sqlite3.Connection
) -> Iterator[str]:
    try:
        yield from look(conn)
    except (sqlite3.DatabaseError, ValueError, LookupError, TypeError) as error:
        yield f"not all of it can be read ({error})"


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
    written = conn.execute("SELECT seq FROM sqlite_sequence WHERE name = 'ledger'").fetchone()
    if written is not None and written[0] > last:
        yield f"the ledger ends with entry {last}, but {written[0]} were written: its end is cut"
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


def _states(conn: sqlite3.Connection, room: Room, ledgers: sqlite3.Connection) -> Iterator[str]:
    """Yield what of the state is not the ledger folded, by folding a scratch copy anew."""
    # A database without a name is SQLite's own scratch file, which goes by itself.
    with closing(sqlite3.connect("", isolation_level=None)) as scratch:
        scratch.row_factory = sqlite3.Row
        ledgers.backup(scratch)
        scratch.execute("BEGIN")
        missing = [
            row[0]
            for row in conn.execute(
                "SELECT DISTINCT roll FROM ledger WHERE roll IS NOT NULL"
                " AND roll NOT IN (SELECT id FROM rolls)"
            ).fetchall()
        ]
        for number in missing:
            yield f"the ledger knows a roll {number} that is not in the file"
        try:
            nonsense = folding.fold_anew(scratch, room)
        except sqlite3.IntegrityError as error:
            yield f"the ledger cannot be folded: it has two rolls at one place ({error})"
            return
        senseless = {each.roll for each in nonsense}
        for each in nonsense:
            yield f"{folding.name_of(conn, each.roll)}: its ledger makes no sense ({each.why})"
        yield from _in_words(conn, scratch, {*senseless, *missing})


def _in_words(
    kept: sqlite3.Connection,
    folded: sqlite3.Connection,
    told: set[int],
) -> Iterator[str]:
    of_rolls: dict[int, list[str]] = {}
    for each in folding.differences(kept, folded):
        if each.table in _PARTS:
            roll = each.key[0]
            assert isinstance(roll, int)
            if roll not in told:
                of_rolls.setdefault(roll, []).extend(each.columns or [_PARTS[each.table]])
        elif each.table != "terms":  # named by themselves
            key = " ".join(map(str, each.key))
            yield f"{_TABLES[each.table]} {key}: not what the ledger says"
    for roll, what in sorted(of_rolls.items()):
        words = ", ".join(dict.fromkeys(what))
        where = [_place(conn, roll) for conn in (kept, folded)]
        yield (
            f"{folding.name_of(kept, roll)} is {where[0]} in the file, and {where[1]} by the"
            f" ledger folded; what differs: {words}"
        )


_PARTS = {
    "rolls": "the roll",
    "touch_checks": "touch checks",
    "sleeves": "sleeves",
    "contact_sheets": "contact sheets",
    "loans": "loan",
    "lessons": "what it taught",
}
_TABLES = {
    "fan_runs": "the fan run of dryer",
    "sweeps": "sweep",
    "sweep_counts": "the count of sweep and rod",
    "learned": "what was learned of dryer",
}


def _place(conn: sqlite3.Connection, roll: int) -> str:
    row = conn.execute(
        "SELECT place, coalesce(rod, box, binder) AS number, position FROM rolls WHERE id = ?",
        (roll,),
    ).fetchone()
    try:
        return str(Place(row["place"], row["number"], row["position"]))
    except (KeyError, TypeError):
        return "nowhere"
