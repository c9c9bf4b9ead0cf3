"""The state of every roll, as the file keeps it: written from the fold, read back as a Roll."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Sequence
from datetime import datetime

from filmrack.domain.roll import (
    GONE,
    ContactSheet,
    Loan,
    Place,
    Roll,
    Stay,
    TouchCheck,
    roll_number,
)
from filmrack.store.rows import understood
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
_SAVE = (
    f"INSERT INTO rolls ({', '.join(_COLUMNS)}) VALUES ({', '.join('?' * len(_COLUMNS))})"
    " ON CONFLICT (id) DO UPDATE SET "
    + ", ".join(f"{name} = excluded.{name}" for name in _COLUMNS if name != "id")
)


def begin(conn: sqlite3.Connection, term: str, at: datetime) -> tuple[int, int]:
    """Give the next roll of a term its number; return (id, serial)."""
    serial = conn.execute(
        "SELECT coalesce(max(serial), 0) + 1 FROM rolls WHERE term = ?", (term,)
    ).fetchone()[0]
    text = to_text(at)
    cursor = conn.execute(
        "INSERT INTO rolls (term, serial, film, place, since, seen, seen_at, first_at)"
        " VALUES (?, ?, '', 'void', ?, 'void', ?, ?)",
        (term, serial, text, text, text),
    )
    assert cursor.lastrowid is not None
    return cursor.lastrowid, serial


def save(conn: sqlite3.Connection, roll: Roll) -> None:
    """Write the folded state of a roll."""
    place = roll.place
    conn.execute(
        _SAVE,
        (
            roll.id,
            roll.term,
            roll.serial,
            roll.person,
            roll.period,
            roll.film,
            roll.frames,
            roll.clue,
            place.kind,
            roll.clip,
            place.number if place.kind == "rod" else None,
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
        ),
    )
    _save_parts(conn, roll)


def _save_parts(conn: sqlite3.Connection, roll: Roll) -> None:
    for table in ("touch_checks", "sleeves", "contact_sheets", "loans"):
        conn.execute(f"DELETE FROM {table} WHERE roll = ?", (roll.id,))
    conn.executemany(
        "INSERT INTO touch_checks (roll, nth, at, dry, source) VALUES (?, ?, ?, ?, ?)",
        [
            (roll.id, nth, to_text(check.at), check.dry, check.source)
            for nth, check in enumerate(roll.checks)
        ],
    )
    conn.executemany(
        "INSERT INTO sleeves (roll, page, strips) VALUES (?, ?, ?)",
        [(roll.id, page, json.dumps(strips)) for page, strips in enumerate(roll.pages, 1)],
    )
    conn.executemany(
        "INSERT INTO contact_sheets (roll, nth, at, paper, picks) VALUES (?, ?, ?, ?, ?)",
        [
            (roll.id, nth, to_text(sheet.at), sheet.paper, json.dumps(sheet.picks))
            for nth, sheet in enumerate(roll.sheets)
        ],
    )
    if roll.loan is not None:
        loan = roll.loan
        conn.execute(
            "INSERT INTO loans (roll, at, until, person, note) VALUES (?, ?, ?, ?, ?)",
            (roll.id, to_text(loan.at), loan.until, loan.person, loan.note),
        )


def make_void(conn: sqlite3.Connection, roll: int, at: datetime) -> None:
    """Leave the number of a roll whose beginning was undone; it is not given again."""
    term, serial = conn.execute("SELECT term, serial FROM rolls WHERE id = ?", (roll,)).fetchone()
    void = Place("void")
    save(conn, Roll(roll, term, serial, "", void, at, at, void, at))


def read(conn: sqlite3.Connection, where: str, values: Sequence[object] = ()) -> list[Roll]:
    """Return the rolls that a condition on `rolls` names; the condition is ours, never typed."""
    rows = conn.execute(f"SELECT * FROM rolls WHERE {where}", values).fetchall()
    if not rows:
        return []
    parts = _Parts(conn, [row["id"] for row in rows])
    with understood("roll"):
        return [_roll(row, parts) for row in rows]


def numbered(conn: sqlite3.Connection, roll: int) -> tuple[str, str]:
    """Return a roll's term and its number as people read it, also of one that is just begun."""
    term, serial = conn.execute("SELECT term, serial FROM rolls WHERE id = ?", (roll,)).fetchone()
    return term, roll_number(term, serial)


def numbers_of_term(conn: sqlite3.Connection, term: str) -> list[int]:
    """Return the rolls of a term by serial, void ones among them."""
    rows = conn.execute("SELECT id FROM rolls WHERE term = ? ORDER BY serial", (term,)).fetchall()
    return [row[0] for row in rows]


def by_id(conn: sqlite3.Connection, roll: int) -> Roll:
    """Return one roll."""
    return read(conn, "id = ?", (roll,))[0]


def by_ids(conn: sqlite3.Connection, ids: Iterable[int]) -> list[Roll]:
    """Return rolls in the order of the numbers given."""
    wanted = list(ids)
    found = {roll.id: roll for roll in read(conn, f"id IN ({_marks(wanted)})", wanted)}
    return [found[number] for number in wanted if number in found]


def on_clip(conn: sqlite3.Connection, clip: int) -> Roll | None:
    """Return the live roll that a clip pair is on."""
    found = read(conn, "clip = ?", (clip,))
    return found[0] if found else None


def hanging(conn: sqlite3.Connection) -> list[Roll]:
    """Return all that hangs, rod by rod from its first position."""
    return read(conn, "rod IS NOT NULL ORDER BY rod, position")


def holder(conn: sqlite3.Connection, what: int | tuple[int | None, int | None]) -> int | None:
    """Return the roll that has a clip (17) or a position on a rod ((3, 4)) now."""
    if isinstance(what, int):
        row = conn.execute("SELECT id FROM rolls WHERE clip = ?", (what,)).fetchone()
    else:
        row = conn.execute("SELECT id FROM rolls WHERE rod = ? AND position = ?", what).fetchone()
    return None if row is None else row[0]


def on_their_way(conn: sqlite3.Connection, person: int) -> list[Roll]:
    """Return the rolls of a person that are not sleeved yet, oldest first."""
    return read(
        conn,
        "person = ? AND sleeved_at IS NULL AND gone_at IS NULL ORDER BY first_at, id",
        (person,),
    )


def lift(conn: sqlite3.Connection, numbers: Iterable[int]) -> None:
    """Take rolls off clips, rods and out of boxes until they are saved again."""
    conn.executemany(
        "UPDATE rolls SET place = 'void', clip = NULL, rod = NULL, position = NULL, box = NULL"
        " WHERE id = ?",
        [(number,) for number in numbers],
    )


def checked_since(conn: sqlite3.Connection, at: datetime) -> list[Roll]:
    """Return the rolls that were touched after a moment."""
    return read(conn, "id IN (SELECT roll FROM touch_checks WHERE at > ?)", (to_text(at),))


def loose_since(conn: sqlite3.Connection, at: datetime) -> list[int]:
    """Return the rolls that may have had a clip or a position at or after a moment."""
    text = to_text(at)
    rows = conn.execute(
        "SELECT id FROM rolls WHERE sleeved_at IS NULL AND gone_at IS NULL"
        " UNION SELECT id FROM rolls WHERE sleeved_at >= ?"
        " UNION SELECT id FROM rolls WHERE gone_at >= ? AND place <> 'void'",
        (text, text),
    ).fetchall()
    return [row[0] for row in rows]


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
        for first in range(0, len(ids), 500):
            some = ids[first : first + 500]
            for row in conn.execute(
                f"SELECT * FROM {table} WHERE roll IN ({_marks(some)}) ORDER BY roll, {order}",
                some,
            ).fetchall():
                found.setdefault(row["roll"], []).append(row)
        return found


def _roll(row: sqlite3.Row, parts: _Parts) -> Roll:
    number = {"rod": row["rod"], "box": row["box"], "binder": row["binder"]}.get(row["place"])
    number_of = row["id"]
    loans = parts.loans.get(number_of)
    return Roll(
        id=number_of,
        term=row["term"],
        serial=row["serial"],
        film=row["film"],
        place=Place(row["place"], number, row["position"]),
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
            for check in parts.checks.get(number_of, ())
        ),
        pages=tuple(tuple(json.loads(p["strips"])) for p in parts.pages.get(number_of, ())),
        page_name=row["page_name"],
        sleeved_at=maybe(row["sleeved_at"]),
        sheets=tuple(
            ContactSheet(from_text(s["at"]), s["paper"], tuple(json.loads(s["picks"])))
            for s in parts.sheets.get(number_of, ())
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


def _marks(values: Sequence[object]) -> str:
    return ", ".join("?" * len(values))
