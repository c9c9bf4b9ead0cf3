"""Small facts of the file, by name; each value is JSON."""

from __future__ import annotations

import json
import sqlite3
from typing import cast

PASSPHRASE = "passphrase"
"""The name of what store.passphrase keeps: each desk asks at its start whether there is one."""


def read(conn: sqlite3.Connection, name: str) -> object:
    """Return a setting, or None where it was never set."""
    row = conn.execute("SELECT value FROM settings WHERE name = ?", (name,)).fetchone()
    return None if row is None else cast(object, json.loads(row[0]))


def write(conn: sqlite3.Connection, name: str, value: object) -> None:
    """Set a setting."""
    conn.execute(
        "INSERT INTO settings (name, value) VALUES (?, ?)"
        " ON CONFLICT (name) DO UPDATE SET value = excluded.value",
        (name, json.dumps(value, ensure_ascii=False, sort_keys=True)),
    )


def forget(conn: sqlite3.Connection, name: str) -> None:
    """Remove a setting."""
    conn.execute("DELETE FROM settings WHERE name = ?", (name,))
