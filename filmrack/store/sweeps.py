"""Sweeps: which one is going on, and what was counted and found rod by rod."""

import sqlite3
from datetime import datetime
from typing import NamedTuple

from filmrack.domain.roll import Detail, Entry
from filmrack.domain.sweep import RodCount
from filmrack.store import ledger
from filmrack.store.times import from_text, maybe, to_text

_STRAYED = ("move", "hang")
"""Acts of a sweep on what it found hanging where the record had it not: noted elsewhere, or
nowhere."""


class Sweep(NamedTuple):
    """One sweep; `period` is None for the whole dryer, `finished` while it goes on."""

    id: int
    started: datetime
    finished: datetime | None
    period: int | None


def going_on(conn: sqlite3.Connection) -> Sweep | None:
    """Return the sweep that was begun and not finished, at whichever desk."""
    row = conn.execute(
        "SELECT * FROM sweeps WHERE finished IS NULL ORDER BY id DESC LIMIT 1"
    ).fetchone()
    return None if row is None else _sweep(row)


def begin(conn: sqlite3.Connection, at: datetime, period: int | None) -> Sweep:
    """Begin a sweep."""
    cursor = conn.execute(
        "INSERT INTO sweeps (started, period) VALUES (?, ?)", (to_text(at), period)
    )
    assert cursor.lastrowid is not None
    return Sweep(cursor.lastrowid, at, None, period)


def counts(conn: sqlite3.Connection, sweep: int) -> dict[int, RodCount]:
    """Return what was counted and found so far, by rod."""
    rows = conn.execute(
        "SELECT * FROM sweep_counts WHERE sweep = ? ORDER BY rod", (sweep,)
    ).fetchall()
    told = ledger.of_sweep(conn, sweep)
    last = {e.detail["rod"]: e.detail for e in told if e.act == "count"}
    hanging, own = _seen(told), {entry.roll for entry in told if entry.act == "seen"}
    found = {}
    for row in rows:
        detail = last.get(row["rod"], Detail())
        left, agreed = detail.get("left", False), detail.get("agreed")
        seen = sum(at == row["rod"] and roll in own for roll, at in hanging.items())
        found[row["rod"]] = rod_count(row)._replace(left=left, agreed=agreed, seen=seen)
    return found


def seen(conn: sqlite3.Connection, sweep: int) -> frozenset[int]:
    """Return the rolls that a sweep saw hanging, on their own rods or another, and that hang on."""
    return frozenset(_seen(ledger.of_sweep(conn, sweep)))


def _seen(told: list[Entry]) -> dict[int, int]:
    """The rods on which rolls were seen, and not boxed or missed since, nor counted as gone."""
    rods: dict[int, int] = {}
    for entry in told:
        if entry.detail.get("empty"):
            rods = {roll: rod for roll, rod in rods.items() if rod != entry.detail["rod"]}
        if entry.roll is not None:
            rods.pop(entry.roll, None)
        if entry.act in ("seen", *_STRAYED) and entry.roll is not None:
            rods[entry.roll] = entry.detail["rod"]
    return rods


def rod_count(row: sqlite3.Row) -> RodCount:
    """Return what was counted and found on a rod, from a row of `sweep_counts`."""
    return RodCount(row["rod"], row["expected"], row["counted"], row["matched"], row["extra"])


def finished(conn: sqlite3.Connection, limit: int) -> list[tuple[Sweep, list[RodCount]]]:
    """Return the latest finished sweeps, newest first, with their rods."""
    rows = conn.execute(
        "SELECT * FROM sweeps WHERE finished IS NOT NULL ORDER BY id DESC LIMIT ?", (limit,)
    ).fetchall()
    return [(_sweep(row), list(counts(conn, row["id"]).values())) for row in rows]


def turns(conn: sqlite3.Connection, sweep: int) -> dict[int, datetime]:
    """Return when the turn of each rod came: when it was first counted or scanned, or when a later
    count found it empty.
    """
    came: dict[int, datetime] = {}
    for entry in ledger.of_sweep(conn, sweep):
        if entry.detail.get("empty"):
            came[entry.detail["rod"]] = entry.happened
        elif entry.act == "count":
            came.setdefault(entry.detail["rod"], entry.happened)
    return came


def fold_anew(conn: sqlite3.Connection) -> None:
    """Write all sweeps anew from the ledger."""
    told = {entry.detail["sweep"]: entry for entry in reversed(ledger.beginnings_of_sweeps(conn))}
    known = {row[0] for row in conn.execute("SELECT id FROM sweeps").fetchall()}
    for number, begun in sorted(told.items()):
        if number not in known:
            conn.execute("INSERT INTO sweeps (id, started) VALUES (?, ?)", (number, ""))
        conn.execute(
            "UPDATE sweeps SET started = ?, period = ? WHERE id = ?",
            (to_text(begun.happened), begun.detail.get("period"), number),
        )
    for number in sorted(known | told.keys()):
        refold(conn, number)


def refold(conn: sqlite3.Connection, sweep: int) -> None:
    """Write a sweep anew from its standing entries on the ledger."""
    told = ledger.of_sweep(conn, sweep)
    if not told:  # begun, and that was undone
        conn.execute("DELETE FROM sweep_counts WHERE sweep = ?", (sweep,))
        conn.execute("DELETE FROM sweeps WHERE id = ?", (sweep,))
        return
    ends = [entry.happened for entry in told if entry.detail.get("finished")]
    conn.execute(
        "UPDATE sweeps SET finished = ? WHERE id = ?",
        (to_text(ends[-1]) if ends else None, sweep),
    )
    conn.execute("DELETE FROM sweep_counts WHERE sweep = ?", (sweep,))
    conn.executemany(
        "INSERT INTO sweep_counts (sweep, rod, expected, counted, matched, extra)"
        " VALUES (?, ?, ?, ?, ?, ?)",
        [
            (sweep, rod.rod, rod.expected, rod.counted, rod.matched, rod.extra)
            for rod in _rods(told)
        ],
    )


def _rods(told: list[Entry]) -> list[RodCount]:
    """The first count of a rod says what was expected, the last one what was counted; a count that
    finds it empty says both.
    """
    rods: dict[int, RodCount] = {}
    came: set[tuple[int, int | None]] = set()  # what strayed to a rod, and was seen there first
    for entry in told:
        detail = entry.detail
        rod = detail.get("rod")
        if rod is None:
            continue
        known = rods.get(rod)
        if entry.act == "count":
            expected = detail["expected"] if known is None else known.expected
            matched, extra = (0, 0) if known is None else (known.matched, known.extra)
            if detail.get("empty"):
                expected = matched + detail["expected"]
            rods[rod] = RodCount(rod, expected, detail.get("counted"), matched, extra)
        elif (
            entry.act in ("box", *_STRAYED) and known is not None and (rod, entry.roll) not in came
        ):
            match = bool(detail.get("matched"))
            came |= {(rod, entry.roll)} if entry.act in _STRAYED else set()
            matched, extra = known.matched + match, known.extra + (not match)
            rods[rod] = known._replace(matched=matched, extra=extra)
    return list(rods.values())


def _sweep(row: sqlite3.Row) -> Sweep:
    return Sweep(row["id"], from_text(row["started"]), maybe(row["finished"]), row["period"])
