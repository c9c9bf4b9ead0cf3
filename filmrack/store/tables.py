"""The tables of an open darkroom file by name, for what reads or writes them whole."""

from __future__ import annotations

import sqlite3
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlite_utils import Database
    from sqlite_utils.db import Table


def by_name(conn: sqlite3.Connection) -> Database:
    """Return the tables of a file by name, within the transaction that the caller holds.

    Imported when it is called: no act of the day and no lookup waits for it.
    """
    from sqlite_utils import Database

    # The connection stays as the file was opened, whatever else is installed.
    return Database(conn, recursive_triggers=False, execute_plugins=False)


def own_tables(conn: sqlite3.Connection) -> list[Table]:
    """Return the tables of a file in the order of their names, without SQLite's own."""
    named = {each.name: each for each in by_name(conn).tables}
    return [named[name] for name in sorted(named) if not name.startswith("sqlite_")]
