"""Everything that the ledger says, folded anew: rolls, fan runs, sweeps, terms, lessons."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from datetime import datetime
from typing import NamedTuple

from filmrack.domain.journey import fold
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll, roll_number
from filmrack.domain.room import Room
from filmrack.store import fan, ledger, rolls, sweeps, teaching, terms

_LONG_AGO = "0001-01-01T00:00:00Z"


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
    folded: dict[int, Roll | None] = {}
    known = {row[0] for row in conn.execute("SELECT id FROM rolls").fetchall()}
    for number in sorted(known | set(ledger.rolls_in(conn))):
        try:
            folded[number] = fold(ledger.of_roll(conn, number))
        except (Refused, LookupError, TypeError, ValueError) as error:
            nonsense.append(Nonsense(number, str(error)))
    _write(conn, folded)
    fan.fold_anew(conn)
    sweeps.fold_anew(conn)
    for (code,) in conn.execute("SELECT code FROM terms").fetchall():
        terms.refold(conn, code)
    teaching.fold_anew(conn, room, [roll for roll in folded.values() if roll is not None])
    return nonsense


def names(conn: sqlite3.Connection) -> dict[int, str]:
    """Return the number of every roll as people read it."""
    rows = conn.execute("SELECT id, term, serial FROM rolls").fetchall()
    return {row[0]: roll_number(row[1], row[2]) for row in rows}


def _write(conn: sqlite3.Connection, folded: dict[int, Roll | None]) -> None:
    """Rolls that change places with each other pass through nowhere."""
    states = [roll for roll in folded.values() if roll is not None]
    never = [number for number, roll in folded.items() if roll is None]
    for number in never:
        row = conn.execute("SELECT place, first_at FROM rolls WHERE id = ?", (number,)).fetchone()
        if row is not None and row[0] != "void":
            rolls.make_void(conn, number, _moment(row[1]))
    rolls.lift(conn, [roll.id for roll in states])
    for roll in states:
        rolls.save(conn, roll)


def _moment(text: object) -> datetime:
    try:
        return datetime.fromisoformat(str(text))
    except ValueError:
        return datetime.fromisoformat(_LONG_AGO)


_KEYS = {
    "rolls": "id",
    "touch_checks": "roll, nth",
    "sleeves": "roll, page",
    "contact_sheets": "roll, nth",
    "loans": "roll",
    "lessons": "roll",
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
    for table, key in _KEYS.items():
        size = key.count(",") + 1
        columns = [row[1] for row in kept.execute(f"PRAGMA table_info({table})").fetchall()]
        # Evidence is dropped and worked out again as it counts: it says nothing of its own.
        compared = [name for name in columns if name != "evidence"]
        asked = f"SELECT {key}, {', '.join(compared)} FROM {table}"
        one = {tuple(row[:size]): tuple(row[size:]) for row in kept.execute(asked)}
        other = {tuple(row[:size]): tuple(row[size:]) for row in folded.execute(asked)}
        for found in sorted({*one, *other}, key=repr):
            if found not in one or found not in other:
                yield Difference(table, found, ())
            elif one[found] != other[found]:
                pairs = zip(compared, one[found], other[found], strict=True)
                yield Difference(
                    table, found, tuple(name for name, here, there in pairs if here != there)
                )
    for dryer in teaching.summed_up_otherwise(kept, folded):
        yield Difference("learned", (dryer,), ())
