"""What a darkroom file says, apart from how one SQLite or one processor writes it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from pathlib import Path

from filmrack.domain.touch import unpack


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
        for table in _tables(conn):
            lines += rows_of(conn, table)
    conn.close()
    return lines


def rows_of(conn: sqlite3.Connection, table: str, where: str = "1") -> list[str]:
    """Return the rows of a table by its key, one a line."""
    columns = conn.execute(f"PRAGMA table_info({table})").fetchall()
    kept = ", ".join(name for _, name, kind, *_ in columns if kind not in ("BLOB", "REAL"))
    keys = [name for _, name, *_, key in sorted(columns, key=lambda c: c[5]) if key]
    rows = conn.execute(f"SELECT {kept} FROM {table} WHERE {where} ORDER BY {', '.join(keys)}")
    return [f"{table} {tuple(row)!r}" for row in rows.fetchall()]


def taught(path: Path) -> Iterator[float]:
    """Return all numbers of what the dryers have taught, in the order of their keys."""
    conn = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)
    for (logs,) in conn.execute("SELECT likelihood FROM lessons ORDER BY roll").fetchall():
        yield from unpack(logs)
    for logs, least in conn.execute("SELECT logs, least FROM learned ORDER BY dryer").fetchall():
        yield from unpack(logs)
        yield least
    conn.close()


_PRAGMAS = ("application_id", "user_version")


def _tables(conn: sqlite3.Connection) -> list[str]:
    rows = conn.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'"
        " ORDER BY name"
    )
    return [row[0] for row in rows.fetchall()]
