"""The ledger: everything that ever happened to a roll, appended and never changed."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import cast

from filmrack.domain.roll import Detail, Entry
from filmrack.store.rows import understood
from filmrack.store.times import from_text, to_text

_COLUMNS = "id, act_group, happened, entered, act, roll, detail, by, desk"
_NOT_UNDOING = (
    "NOT EXISTS (SELECT 1 FROM ledger v WHERE v.act_group = ledger.act_group AND v.act = 'undo')"
)
_STANDING = "act <> 'undo' AND NOT EXISTS (SELECT 1 FROM ledger u WHERE u.undoes = ledger.id)"


def append(
    conn: sqlite3.Connection,
    *,
    group: int,
    happened: datetime,
    entered: datetime,
    act: str,
    roll: int | None,
    detail: Detail,
    by: str,
    desk: str,
    undoes: int | None = None,
) -> int:
    """Append one entry and return its number."""
    cursor = conn.execute(
        "INSERT INTO ledger (act_group, happened, entered, act, roll, detail, by, desk, undoes)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            group,
            to_text(happened),
            to_text(entered),
            act,
            roll,
            json.dumps(detail, separators=(",", ":"), sort_keys=True),
            by,
            desk,
            undoes,
        ),
    )
    return cast(int, cursor.lastrowid)


def next_group(conn: sqlite3.Connection) -> int:
    """Return the number of the group that comes next."""
    return 1 + cast(
        int, conn.execute("SELECT coalesce(max(act_group), 0) FROM ledger").fetchone()[0]
    )


def latest_entered(conn: sqlite3.Connection) -> datetime | None:
    """Return when the last entry was told."""
    row = conn.execute("SELECT entered FROM ledger ORDER BY id DESC LIMIT 1").fetchone()
    return None if row is None else from_text(row[0])


def latest_happened(conn: sqlite3.Connection) -> datetime | None:
    """Return when the latest of all acts happened."""
    text = conn.execute("SELECT max(happened) FROM ledger").fetchone()[0]
    return None if text is None else from_text(text)


def of_roll(conn: sqlite3.Connection, roll: int, *, until: datetime | None = None) -> list[Entry]:
    """Return the standing entries of a roll, up to a moment, in the order they happened."""
    sql = f"SELECT {_COLUMNS} FROM ledger WHERE roll = ? AND {_STANDING}"
    values: list[object] = [roll]
    if until is not None:
        sql += " AND happened <= ?"
        values.append(to_text(until))
    return _entries(conn, sql + " ORDER BY happened, id", values)


def of_rolls(conn: sqlite3.Connection, first: int, last: int) -> dict[int, list[sqlite3.Row]]:
    """Return the standing entries of the rolls from one number to another, not yet understood."""
    found: dict[int, list[sqlite3.Row]] = {}
    for row in conn.execute(
        f"SELECT {_COLUMNS} FROM ledger WHERE roll BETWEEN ? AND ? AND {_STANDING}"
        " ORDER BY roll, happened, id",
        (first, last),
    ).fetchall():
        found.setdefault(row["roll"], []).append(row)
    return found


def understand(rows: Iterable[sqlite3.Row]) -> list[Entry]:
    """Return entries. Raises sqlite3.DatabaseError for what cannot be understood."""
    with understood("ledger entry"):
        return [_entry(row) for row in rows]


def whole_story(conn: sqlite3.Connection, roll: int) -> list[tuple[Entry, bool]]:
    """Return all that was written about a roll, each entry with whether it was undone."""
    rows = conn.execute(
        f"SELECT {_COLUMNS},"
        " EXISTS (SELECT 1 FROM ledger u WHERE u.undoes = ledger.id) AS undone"
        " FROM ledger WHERE roll = ? ORDER BY happened, id",
        (roll,),
    ).fetchall()
    with understood("ledger entry"):
        return [(_entry(row), bool(row["undone"])) for row in rows]


def of_group(conn: sqlite3.Connection, group: int) -> list[Entry]:
    """Return the entries of one key press."""
    return _entries(conn, f"SELECT {_COLUMNS} FROM ledger WHERE act_group = ? ORDER BY id", [group])


def last_standing_group(conn: sqlite3.Connection, desk: str) -> int | None:
    """Return the last group of a desk that is not undone and is not an undo itself."""
    row = conn.execute(
        f"SELECT act_group FROM ledger WHERE desk = ? AND {_STANDING} AND {_NOT_UNDOING}"
        " ORDER BY act_group DESC LIMIT 1",
        (desk,),
    ).fetchone()
    return None if row is None else cast(int, row[0])


def last_standing_group_of_roll(conn: sqlite3.Connection, roll: int) -> int | None:
    """Return the last group that is not undone and touched a roll."""
    row = conn.execute(
        f"SELECT act_group FROM ledger WHERE roll = ? AND {_STANDING}"
        " ORDER BY happened DESC, id DESC LIMIT 1",
        (roll,),
    ).fetchone()
    return None if row is None else cast(int, row[0])


def of_the_fan(conn: sqlite3.Connection, since: datetime) -> list[Entry]:
    """Return the standing settings of every dryer's dial from a moment on."""
    return _entries(
        conn,
        f"SELECT {_COLUMNS} FROM ledger WHERE act = 'fan' AND happened >= ? AND {_STANDING}"
        " ORDER BY happened, id",
        [to_text(since)],
    )


def of_the_terms(conn: sqlite3.Connection) -> list[Entry]:
    """Return the standing entries that closed or reopened any term, in the order they were told."""
    return _entries(
        conn,
        f"SELECT {_COLUMNS} FROM ledger WHERE roll IS NULL AND act IN ('close', 'reopen')"
        f" AND {_STANDING} ORDER BY id",
        [],
    )


def told_of_term_since(conn: sqlite3.Connection, term: str, entry: int) -> bool:
    """Tell whether anything was written about the rolls of a term after an entry."""
    row = conn.execute(
        "SELECT 1 FROM ledger WHERE id > ? AND roll IN (SELECT id FROM rolls WHERE term = ?)"
        " LIMIT 1",
        (entry, term),
    ).fetchone()
    return row is not None


def hangings(conn: sqlite3.Connection, since: datetime, until: datetime) -> list[Entry]:
    """Return the standing entries of what was hung in a stretch of time."""
    return _entries(
        conn,
        f"SELECT {_COLUMNS} FROM ledger WHERE happened BETWEEN ? AND ? AND act = 'hang'"
        f" AND {_STANDING} ORDER BY happened, id",
        [to_text(since), to_text(until)],
    )


def of_sweep(conn: sqlite3.Connection, sweep: int) -> list[Entry]:
    """Return the standing entries of a sweep in the order they were told."""
    return _entries(
        conn,
        f"SELECT {_COLUMNS} FROM ledger WHERE json_extract(detail, '$.sweep') = ? AND {_STANDING}"
        " ORDER BY id",
        [sweep],
    )


def refuse_nonsense(conn: sqlite3.Connection) -> None:
    """Read every entry there is, a thousand at a time.

    Raises sqlite3.DatabaseError at the first that cannot be understood.
    """
    last = 0
    while some := _entries(
        conn, f"SELECT {_COLUMNS} FROM ledger WHERE id > ? ORDER BY id LIMIT 1000", [last]
    ):
        last = some[-1].id


def beginnings_of_sweeps(conn: sqlite3.Connection) -> list[Entry]:
    """Return the standing entries that began a sweep, in the order they were told."""
    return _entries(
        conn,
        f"SELECT {_COLUMNS} FROM ledger WHERE act = 'sweep'"
        f" AND json_extract(detail, '$.finished') IS NULL AND {_STANDING} ORDER BY id",
        [],
    )


def _entries(conn: sqlite3.Connection, sql: str, values: Sequence[object]) -> list[Entry]:
    rows = conn.execute(sql, values).fetchall()
    with understood("ledger entry"):
        return [_entry(row) for row in rows]


def _entry(row: sqlite3.Row) -> Entry:
    # By place, since `check` reads every entry there is: see _COLUMNS.
    number, group, happened, entered, act, roll, detail, by, desk, *_ = row
    at = from_text(happened)
    return Entry(
        id=number,
        group=group,
        happened=at,
        entered=at if entered == happened else from_text(entered),
        act=act,
        roll=roll,
        detail=cast(Detail, json.loads(detail)),
        by=by,
        desk=desk,
    )
