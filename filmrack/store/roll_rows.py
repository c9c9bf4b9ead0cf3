"""A roll as rows of the file: written from its state, read back as one.

Only `store.rolls` and whoever folds the ledger come here.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence

from filmrack.domain.roll import GONE, ContactSheet, Loan, Place, Roll, Stay, TouchCheck
from filmrack.store.rows import in_parts, marks, understood
from filmrack.store.times import from_text, maybe, maybe_text, to_text

_COLUMNS = (
    "id",
    "term",
    "serial",
    "person",
    "period",
    "film",
    "frames",
    "clue",
    "place",
    "clip",
    "rod",
    "position",
    "box",
    "binder",
    "since",
    "seen",
    "seen_at",
    "first_at",
    "sent",
    "hung_at",
    "stays",
    "page_name",
    "sleeved_at",
    "filed_at",
    "gone_at",
    "assumed",
)
PLACE = _COLUMNS.index("place")
"""Where its place stands in the row of a roll."""
_PARTS = {
    "touch_checks": ("roll", "nth", "at", "dry", "source"),
    "sleeves": ("roll", "page", "strips"),
    "contact_sheets": ("roll", "nth", "at", "paper", "picks"),
    "loans": ("roll", "at", "until", "person", "note"),
}
"""The tables that hold what a roll has several of, or not always; each with its columns."""


def save(conn: sqlite3.Connection, roll: Roll) -> None:
    """Write the folded state of a roll, as far as it differs from what is kept of it.

    Each column that is set costs the work on its indexes and the rows it refers to.
    """
    kept = kept_rows(conn, roll.id, roll.id).get(roll.id, {})
    for table, rows in rows_of(roll).items():
        before = kept.get(table, [])
        if rows == before:
            continue
        if table == "rolls" and before:
            _change(conn, before[0], rows[0])
            continue
        columns = _PARTS.get(table, _COLUMNS)
        if before:
            conn.execute(f"DELETE FROM {table} WHERE roll = ?", (roll.id,))
        conn.executemany(
            f"INSERT INTO {table} ({', '.join(columns)}) VALUES ({marks(columns)})", rows
        )


def _change(
    conn: sqlite3.Connection, before: tuple[object, ...], after: tuple[object, ...]
) -> None:
    changed = {
        name: new for name, old, new in zip(_COLUMNS, before, after, strict=True) if new != old
    }
    told = ", ".join(f"{name} = ?" for name in changed)
    conn.execute(f"UPDATE rolls SET {told} WHERE id = ?", (*changed.values(), after[0]))


def rows_of(roll: Roll) -> dict[str, list[tuple[object, ...]]]:
    """Return the rows that hold a roll, by table."""
    place, number = roll.place, roll.id
    row = (
        number,
        roll.term,
        roll.serial,
        roll.person,
        roll.period,
        roll.film,
        roll.frames,
        roll.clue,
        place.kind,
        roll.clip,
        place.rod,
        place.position,
        place.number if place.kind == "box" else None,
        roll.binder,
        to_text(roll.since),
        _place_text(roll.seen),
        to_text(roll.seen_at),
        to_text(roll.first_at),
        roll.sent,
        maybe_text(roll.hung_at),
        _stays_text(roll.stays),
        roll.page_name,
        maybe_text(roll.sleeved_at),
        maybe_text(roll.filed_at),
        to_text(roll.since) if place.kind in GONE else None,
        json.dumps(sorted(roll.assumed)),
    )
    loan = roll.loan
    return {
        "rolls": [row],
        "touch_checks": [
            (number, nth, to_text(check.at), check.dry, check.source)
            for nth, check in enumerate(roll.checks)
        ],
        "sleeves": [
            (number, page, json.dumps(strips)) for page, strips in enumerate(roll.pages, 1)
        ],
        "contact_sheets": [
            (number, nth, to_text(sheet.at), sheet.paper, json.dumps(sheet.picks))
            for nth, sheet in enumerate(roll.sheets)
        ],
        "loans": [(number, to_text(loan.at), loan.until, loan.person, loan.note)] if loan else [],
    }


def kept_rows(
    conn: sqlite3.Connection, first: int, last: int
) -> dict[int, dict[str, list[tuple[object, ...]]]]:
    """Return the rows that hold the rolls from one number to another as they are kept."""
    found: dict[int, dict[str, list[tuple[object, ...]]]] = {}
    for table, columns in {"rolls": _COLUMNS, **_PARTS}.items():
        for row in conn.execute(
            f"SELECT {', '.join(columns)} FROM {table} WHERE {columns[0]} BETWEEN ? AND ?"
            f" ORDER BY {', '.join(columns[:2])}",
            (first, last),
        ).fetchall():
            of_roll = found.setdefault(row[0], {name: [] for name in ("rolls", *_PARTS)})
            of_roll[table].append(tuple(row))
    return found


def read(conn: sqlite3.Connection, where: str, values: Sequence[object] = ()) -> list[Roll]:
    """Return the rolls that a condition on `rolls` names; the condition is ours, never typed."""
    rows = conn.execute(f"SELECT * FROM rolls WHERE {where}", values).fetchall()
    if not rows:
        return []
    parts = _Parts(conn, [row["id"] for row in rows])
    with understood("roll"):
        return [_roll(row, parts) for row in rows]


class _Parts:
    """Touch checks, pages, contact sheets and loans of some rolls, read in one go each."""

    def __init__(self, conn: sqlite3.Connection, ids: list[int]) -> None:
        self.checks = self._of(conn, "touch_checks", ids, "nth")
        self.pages = self._of(conn, "sleeves", ids, "page")
        self.sheets = self._of(conn, "contact_sheets", ids, "nth")
        self.loans = self._of(conn, "loans", ids, "at")

    @staticmethod
    def _of(
        conn: sqlite3.Connection, table: str, ids: list[int], order: str
    ) -> dict[int, list[sqlite3.Row]]:
        found: dict[int, list[sqlite3.Row]] = {}
        for some in in_parts(ids):
            for row in conn.execute(
                f"SELECT * FROM {table} WHERE roll IN ({marks(some)}) ORDER BY roll, {order}",
                some,
            ).fetchall():
                found.setdefault(row["roll"], []).append(row)
        return found


def _roll(row: sqlite3.Row, parts: _Parts) -> Roll:
    place_number = {"rod": row["rod"], "box": row["box"], "binder": row["binder"]}.get(row["place"])
    roll_id = row["id"]
    loans = parts.loans.get(roll_id)
    term = row["term"]
    if not (term.isascii() and term.isalnum()):
        raise ValueError(f"{term!r} is no term")
    return Roll(
        id=roll_id,
        term=term,
        serial=row["serial"],
        film=row["film"],
        place=Place(row["place"], place_number, row["position"]),
        since=from_text(row["since"]),
        first_at=from_text(row["first_at"]),
        seen=_place(row["seen"]),
        seen_at=from_text(row["seen_at"]),
        person=row["person"],
        period=row["period"],
        frames=row["frames"],
        clip=row["clip"],
        clue=row["clue"],
        sent=bool(row["sent"]),
        hung_at=maybe(row["hung_at"]),
        stays=_stays(row["stays"]),
        checks=tuple(
            TouchCheck(from_text(check["at"]), bool(check["dry"]), check["source"])
            for check in parts.checks.get(roll_id, ())
        ),
        pages=tuple(tuple(json.loads(p["strips"])) for p in parts.pages.get(roll_id, ())),
        page_name=row["page_name"],
        sleeved_at=maybe(row["sleeved_at"]),
        sheets=tuple(
            ContactSheet(from_text(s["at"]), s["paper"], tuple(json.loads(s["picks"])))
            for s in parts.sheets.get(roll_id, ())
        ),
        filed_at=maybe(row["filed_at"]),
        binder=row["binder"],
        loan=_loan(loans[0]) if loans else None,
        assumed=frozenset(json.loads(row["assumed"])),
    )


def _loan(row: sqlite3.Row) -> Loan:
    return Loan(from_text(row["at"]), row["until"], row["person"], row["note"])


def _place_text(place: Place) -> str:
    numbers = [str(n) for n in (place.number, place.position) if n is not None]
    return " ".join([place.kind, *numbers])


def _place(text: str) -> Place:
    kind, *numbers = text.split()
    return Place(kind, *map(int, numbers))


def _stays_text(stays: tuple[Stay, ...]) -> str:
    return json.dumps(
        [[s.rod, to_text(s.hung), maybe_text(s.until), int(s.flipped)] for s in stays]
    )


def _stays(text: str) -> tuple[Stay, ...]:
    return tuple(
        Stay(rod, from_text(hung), maybe(until), bool(flipped))
        for rod, hung, until, flipped in json.loads(text)
    )
