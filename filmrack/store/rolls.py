"""Rolls in the file: which there are, where they are, and the numbers they get."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from datetime import datetime

from filmrack.domain.roll import Place, Roll, roll_number
from filmrack.store.roll_rows import PLACE, kept_rows, read, rows_of, save
from filmrack.store.rows import in_parts, marks
from filmrack.store.times import to_text

# Reading by a condition and saving a folded state are asked for here, like all else about rolls.
__all__ = ["PLACE", "kept_rows", "read", "rows_of", "save"]


LIVE = "sleeved_at IS NULL AND gone_at IS NULL"
# Told apart, so that SQLite begins with these few and not with all the rolls of a name or term.
IS_LIVE = f"id IN (SELECT id FROM rolls INDEXED BY rolls_to_sleeve WHERE {LIVE})"


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


def make_void(conn: sqlite3.Connection, roll: int, at: datetime) -> None:
    """Leave the number of a roll whose beginning was undone; it is not given again."""
    term, serial = _term_and_serial(conn, roll)
    void = Place("void")
    save(conn, Roll(roll, term, serial, "", void, at, at, void, at))


def numbered(conn: sqlite3.Connection, roll: int) -> tuple[str, str]:
    """Return a roll's term and its number as people read it, also of one that is just begun."""
    term, serial = _term_and_serial(conn, roll)
    return term, roll_number(term, serial)


def _term_and_serial(conn: sqlite3.Connection, roll: int) -> tuple[str, int]:
    term, serial = conn.execute("SELECT term, serial FROM rolls WHERE id = ?", (roll,)).fetchone()
    return term, serial


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
    found = {
        roll.id: roll
        for some in in_parts(wanted)
        for roll in read(conn, f"id IN ({marks(some)})", some)
    }
    return [found[number] for number in wanted if number in found]


def on_clip(conn: sqlite3.Connection, clip: int) -> Roll | None:
    """Return the live roll that a clip pair is on."""
    found = read(conn, "clip = ?", (clip,))
    return found[0] if found else None


def on_rod(conn: sqlite3.Connection, rod: int) -> list[Roll]:
    """Return what hangs on a rod, from its first position."""
    return read(conn, "rod = ? ORDER BY position", (rod,))


def in_box(conn: sqlite3.Connection, box: int) -> list[Roll]:
    """Return what is in a box, longest there first."""
    return read(conn, "box = ? ORDER BY since, id", (box,))


def in_tank(conn: sqlite3.Connection) -> list[Roll]:
    """Return what is loaded and does not hang yet, in the order in which it was."""
    # Nothing in a tank is gone: that is asked too, so that an index has them all.
    return read(conn, f"place = 'tank' AND {LIVE} ORDER BY first_at, id")


def in_places(conn: sqlite3.Connection, *kinds: str) -> list[Roll]:
    """Return the rolls that are in some kinds of place."""
    return read(conn, f"place IN ({marks(kinds)}) ORDER BY id", kinds)


def count_missing(conn: sqlite3.Connection, term: str) -> int:
    """Return how many rolls of a term are missing now."""
    # The first words are an index's own: without them all rolls of the term are read.
    where = "place IN ('sleeve', 'out', 'missing') AND place = 'missing' AND term = ?"
    row = conn.execute(f"SELECT count(*) FROM rolls WHERE {where}", (term,)).fetchone()
    return int(row[0])


def of_binder(conn: sqlite3.Connection, term: str, binder: int) -> list[Roll]:
    """Return what was filed in a binder of a term and belongs there, by serial."""
    return read(
        conn,
        "term = ? AND binder = ? AND place IN ('binder', 'out', 'missing') ORDER BY serial",
        (term, binder),
    )


def ever_of_binder(conn: sqlite3.Connection, term: str, binder: int) -> list[Roll]:
    """Return what was filed in a binder of a term last, wherever it is now, by serial."""
    return read(conn, "term = ? AND binder = ? ORDER BY serial", (term, binder))


def count_in_binder(conn: sqlite3.Connection, term: str, binder: int) -> int:
    """Return how many rolls stand in a binder of a term now."""
    where = "term = ? AND binder = ? AND place = 'binder'"
    row = conn.execute(f"SELECT count(*) FROM rolls WHERE {where}", (term, binder)).fetchone()
    return int(row[0])


def of_term(conn: sqlite3.Connection, term: str, *, void: bool = False) -> list[Roll]:
    """Return the rolls of a term by serial; with `void` those of which only the number is left."""
    where = "term = ?" if void else "term = ? AND place <> 'void'"
    return read(conn, f"{where} ORDER BY serial", (term,))


def to_sleeve_of(conn: sqlite3.Connection, period: int) -> list[Roll]:
    """Return the rolls of a period that are not sleeved yet."""
    return read(
        conn,
        f"period = ? AND {LIVE} AND place <> 'void' ORDER BY id",
        (period,),
    )


def all_there(conn: sqlite3.Connection) -> list[Roll]:
    """Return every roll that there ever was; void numbers are none."""
    return read(conn, "place <> 'void'")


def count(conn: sqlite3.Connection) -> int:
    """Return how many rolls there ever were; void numbers are none."""
    number: int = conn.execute("SELECT count(*) FROM rolls WHERE place <> 'void'").fetchone()[0]
    return number


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


def all_on_their_way(conn: sqlite3.Connection) -> list[Roll]:
    """Return everybody's rolls that are not sleeved yet."""
    return read(conn, f"{IS_LIVE} AND place <> 'void' ORDER BY id")


def on_their_way(conn: sqlite3.Connection, person: int) -> list[Roll]:
    """Return the rolls of a person that are not sleeved yet, oldest first."""
    return read(
        conn,
        f"person = ? AND {LIVE} ORDER BY first_at, id",
        (person,),
    )


def of_person(conn: sqlite3.Connection, person: int) -> list[Roll]:
    """Return all rolls of a person, the newest first."""
    return read(conn, "person = ? AND place <> 'void' ORDER BY id DESC", (person,))


def sleeved_or_gone(conn: sqlite3.Connection, person: int, term: str) -> dict[Place, int]:
    """Return where the rolls of a person in a term are that are not on their way any more, and how
    many are in each place.
    """
    found = conn.execute(
        "SELECT place, binder, count(*) FROM rolls WHERE person = ? AND term = ?"
        " AND place <> 'void' AND (sleeved_at IS NOT NULL OR gone_at IS NOT NULL)"
        " GROUP BY place, iif(place = 'binder', binder, NULL) ORDER BY 3 DESC, min(id)",
        (person, term),
    )
    return {Place(kind, binder if kind == "binder" else None): many for kind, binder, many in found}


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
        f"SELECT id FROM rolls WHERE {LIVE}"
        " UNION SELECT id FROM rolls WHERE sleeved_at >= ?"
        " UNION SELECT id FROM rolls WHERE gone_at >= ? AND place <> 'void'",
        (text, text),
    ).fetchall()
    return [row[0] for row in rows]
