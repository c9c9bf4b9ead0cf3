"""All that a darkroom file holds, replaced in one transaction by what another one holds."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from filmrack.store import desks, settings
from filmrack.store.file import DarkroomFile
from filmrack.store.room import STAMP
from filmrack.store.trouble import trouble_with


@contextmanager
def attached(file: DarkroomFile, other: Path) -> Iterator[None]:
    """Hold another darkroom file of this version beside an open one, under the name `other`."""
    conn = file.conn
    with trouble_with(other):
        conn.execute("ATTACH ? AS other", (str(other),))
    # A table may refer to one that is filled later; the whole is checked before it is kept.
    conn.execute("PRAGMA foreign_keys = OFF")
    try:
        yield
    finally:
        conn.execute("PRAGMA foreign_keys = ON")
        conn.execute("DETACH other")


def replace_all(conn: sqlite3.Connection) -> None:
    """Make the file equal to the attached one; every desk is told that the room may differ.

    The caller holds a transaction. Raises sqlite3.Error where that cannot be done.
    """
    stamps = [_stamp(conn, "main"), _stamp(conn, "other")]
    alive = conn.execute("SELECT * FROM main.desks").fetchall()
    closed = settings.read(conn, desks.CLOSED)
    _drop_all(conn)
    for (sql,) in _schema(conn, "table"):
        conn.execute(sql)
    for (name,) in conn.execute(
        "SELECT name FROM other.sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'"
    ).fetchall():
        conn.execute(f'INSERT INTO main."{name}" SELECT * FROM other."{name}"')
    conn.execute("DELETE FROM main.sqlite_sequence")
    conn.execute("INSERT INTO main.sqlite_sequence SELECT * FROM other.sqlite_sequence")
    for kind in ("index", "view", "trigger"):
        for (sql,) in _schema(conn, kind):
            conn.execute(sql)
    settings.write(conn, STAMP, max(stamps) + 1)
    # Which desks are open is so whatever the file says: else the time since the backup was made
    # would look like a power cut.
    conn.execute("DELETE FROM main.desks")
    conn.executemany("INSERT INTO main.desks VALUES (?, ?, ?)", [tuple(row) for row in alive])
    if closed is not None:
        settings.write(conn, desks.CLOSED, closed)


def _drop_all(conn: sqlite3.Connection) -> None:
    rows = conn.execute(
        "SELECT type, name FROM main.sqlite_schema WHERE name NOT LIKE 'sqlite%'"
    ).fetchall()
    for kind in ("trigger", "view", "table"):  # an index goes with its table
        for found, name in rows:
            if found == kind:
                conn.execute(f'DROP {kind} main."{name}"')


def _schema(conn: sqlite3.Connection, kind: str) -> list[tuple[str]]:
    return [
        (row[0],)
        for row in conn.execute(
            "SELECT sql FROM other.sqlite_schema WHERE type = ? AND sql IS NOT NULL"
            " AND name NOT LIKE 'sqlite%' ORDER BY rowid",
            (kind,),
        ).fetchall()
    ]


def _stamp(conn: sqlite3.Connection, which: str) -> int:
    row = conn.execute(f"SELECT value FROM {which}.settings WHERE name = ?", (STAMP,)).fetchone()
    stamp = 0 if row is None else json.loads(row[0])
    return stamp if isinstance(stamp, int) else 0
