"""What a darkroom file says, apart from how one SQLite or one processor writes it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from filmrack.domain.touch import NAT, unpack
from filmrack.store.tables import by_name, own_tables


def dump(path: Path) -> list[str]:
    """Return the versions, the schema, and each table's rows by key, one a line.

    What is worked out in floating point (what a dryer has taught) is left to `taught`.
    """
    with sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True) as conn:
        lines = [f"{name} {conn.execute(f'PRAGMA {name}').fetchone()[0]}" for name in _PRAGMAS]
        for kind, name, sql in conn.execute(
            "SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type, name"
        ).fetchall():
            lines.append(f"{kind} {name}: {sql}")
        for table in own_tables(conn):
            lines += rows_of(conn, table.name)
    conn.close()
    return lines


def rows_of(conn: sqlite3.Connection, name: str, where: str | None = None) -> list[str]:
    """Return the rows of a table by its key, one a line."""
    table = by_name(conn).table(name)
    kept = ", ".join(each.name for each in table.columns if each.type not in ("BLOB", "REAL"))
    rows = table.rows_where(where, select=kept, order_by=", ".join(table.pks))
    return [f"{name} {row!r}" for row in rows]


def taught(path: Path) -> Iterator[float]:
    """Return all numbers of what the dryers have taught, in the order of their keys."""
    conn = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)
    counting = "SELECT evidence FROM lessons WHERE evidence <> x'' ORDER BY roll"
    for (said,) in conn.execute(counting).fetchall():
        yield from (each / NAT for each in unpack(said))
    rows = conn.execute("SELECT evidence, least FROM learned ORDER BY dryer").fetchall()
    for said, least in rows:
        yield from (each / NAT for each in unpack(said))
        yield least
    conn.close()


_PRAGMAS = ("application_id", "user_version")
