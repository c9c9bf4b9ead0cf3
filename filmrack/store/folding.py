"""Everything that the ledger says, folded anew: rolls, fan runs, sweeps, terms, lessons."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from datetime import datetime
from typing import NamedTuple

from filmrack.domain.journey import fold
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll, roll_number
from filmrack.domain.room import Room
from filmrack.store import fan, ledger, rolls, sweeps, teaching, terms

_LONG_AGO = "0001-01-01T00:00:00Z"
_AT_ONCE = 1000
"""How many rolls are read, folded and compared at once."""
_HIGHEST = 2**63


class Nonsense(NamedTuple):
    """A roll whose entries on the ledger cannot have happened in their order, and why."""

    roll: int
    why: str


def fold_anew(conn: sqlite3.Connection, room: Room) -> list[Nonsense]:
    """Write all state anew from the ledger; return the rolls for which that cannot be done.

    The caller holds a transaction, and takes it back when there are any. Raises sqlite3.Error
    where the ledger has two rolls at one place, or refers to what is not there.
    """
    nonsense: list[Nonsense] = []
    others: list[int] = []
    for first, last in _ranges(conn):
        entries, kept = ledger.of_rolls(conn, first, last), rolls.kept_rows(conn, first, last)
        for number in sorted(entries.keys() | kept.keys()):
            try:
                state = fold(ledger.understand(entries.get(number, ())))
            except (Refused, LookupError, TypeError, ValueError) as error:
                nonsense.append(Nonsense(number, str(error)))
                continue
            if not _is_kept(state, kept.get(number)):
                others.append(number)
    _write(conn, others)
    fan.fold_anew(conn)
    sweeps.fold_anew(conn)
    for (code,) in conn.execute("SELECT code FROM terms").fetchall():
        terms.refold(conn, code)
    teaching.fold_anew(conn, room, {each.roll for each in nonsense})
    return nonsense


def fold_over(conn: sqlite3.Connection, room: Room) -> list[Nonsense]:
    """Fold anew over a state that may be at fault: see `fold_anew`."""
    with suppress(sqlite3.IntegrityError):  # two rolls at one place are parted by the fold
        conn.execute("REINDEX")
    conn.execute("PRAGMA defer_foreign_keys = ON")
    return fold_anew(conn, room)


def _ranges(*conns: sqlite3.Connection) -> Iterator[tuple[int, int]]:
    """Yield ranges of roll numbers: so much of a file of any size is in memory at once."""
    first: int | None = -_HIGHEST
    while first is not None:
        nexts = [
            row[0]
            for conn in conns
            for row in conn.execute(
                "SELECT min(id) FROM rolls WHERE id >= ?"
                " UNION ALL SELECT min(roll) FROM ledger WHERE roll >= ?",
                (first, first),
            ).fetchall()
            if row[0] is not None
        ]
        first = min(nexts, default=None)
        if first is not None:
            last = min(first + _AT_ONCE - 1, _HIGHEST - 1)
            yield first, last
            first = last + 1


def _is_kept(state: Roll | None, kept: dict[str, list[tuple[object, ...]]] | None) -> bool:
    """Tell whether a roll is in the file as it was folded; None is one that is void."""
    if state is not None:
        return kept == rolls.rows_of(state)
    return kept is None or any(row[rolls.PLACE] == "void" for row in kept["rolls"])


def name_of(conn: sqlite3.Connection, roll: int) -> str:
    """Return the number of a roll as people read it, also of one that is not in the file."""
    row = conn.execute("SELECT term, serial FROM rolls WHERE id = ?", (roll,)).fetchone()
    return f"roll {roll}" if row is None else roll_number(row[0], row[1])


def _write(conn: sqlite3.Connection, numbers: list[int]) -> None:
    """Write rolls anew; those that change places with each other pass through nowhere."""
    rolls.lift(conn, numbers)
    for number in numbers:
        state = fold(ledger.of_roll(conn, number))
        if state is not None:
            rolls.save(conn, state)
            continue
        row = conn.execute("SELECT first_at FROM rolls WHERE id = ?", (number,)).fetchone()
        if row is not None:
            rolls.make_void(conn, number, _moment(row[0]))


def _moment(text: object) -> datetime:
    try:
        return datetime.fromisoformat(str(text))
    except ValueError:
        return datetime.fromisoformat(_LONG_AGO)


_OF_ROLLS = {
    "rolls": "id",
    "touch_checks": "roll, nth",
    "sleeves": "roll, page",
    "contact_sheets": "roll, nth",
    "loans": "roll",
    "lessons": "roll",
}
_OTHERS = {
    "fan_runs": "dryer, starts",
    "sweeps": "id",
    "sweep_counts": "sweep, rod",
    "terms": "code",
}
"""The tables that the ledger folds to, each with its key."""


class Difference(NamedTuple):
    """A row that is not what the ledger folds to: its key, and the columns that differ.

    Without columns the whole row is too many, or missing.
    """

    table: str
    key: tuple[object, ...]
    columns: tuple[str, ...]


def differences(kept: sqlite3.Connection, folded: sqlite3.Connection) -> Iterator[Difference]:
    """Compare the state in one file with the same file folded anew, row by row."""
    for first, last in _ranges(kept, folded):
        for table, key in _OF_ROLLS.items():
            number = key.partition(",")[0]
            where = f"WHERE {number} BETWEEN {first} AND {last}"
            yield from _table_differences(kept, folded, table, key, where)
    for table, key in _OTHERS.items():
        yield from _table_differences(kept, folded, table, key)
    for dryer in teaching.summed_up_otherwise(kept, folded):
        yield Difference("learned", (dryer,), ())


def _table_differences(
    kept: sqlite3.Connection, folded: sqlite3.Connection, table: str, key: str, where: str = ""
) -> Iterator[Difference]:
    columns = [row[1] for row in kept.execute(f"PRAGMA table_info({table})").fetchall()]
    # Evidence is dropped and worked out again as it counts: it says nothing of its own.
    compared = [name for name in columns if name != "evidence"]
    asked = f"SELECT {key}, {', '.join(compared)} FROM {table} {where} ORDER BY {key}"
    ours, theirs = (list(map(tuple, conn.execute(asked).fetchall())) for conn in (kept, folded))
    if ours == theirs:
        return
    size = key.count(",") + 1
    one, other = ({row[:size]: row[size:] for row in rows} for rows in (ours, theirs))
    for found in sorted({*one, *other}, key=repr):
        if found not in one or found not in other:
            yield Difference(table, found, ())
        elif one[found] != other[found]:
            pairs = zip(compared, one[found], other[found], strict=True)
            yield Difference(
                table, found, tuple(name for name, here, there in pairs if here != there)
            )
