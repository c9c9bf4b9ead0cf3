"""What SQLite keeps beside a darkroom file while it is open, and one that has nothing beside it."""

from __future__ import annotations

import sqlite3
from contextlib import suppress
from pathlib import Path

_JOURNALS = ("-wal", "-journal")
_SHARED_MEMORY = "-shm"


def journals_of(path: Path) -> list[Path]:
    """Return where the journals of a file are, if it has any: they hold what is not in it yet."""
    return [path.with_name(path.name + ending) for ending in _JOURNALS]


def all_beside(path: Path) -> list[Path]:
    """Return where its journals are, and the memory that its connections share."""
    return [*journals_of(path), path.with_name(path.name + _SHARED_MEMORY)]


def remove(path: Path) -> None:
    """Remove a file and what is beside it, as far as that goes."""
    for each in (path, *all_beside(path)):
        with suppress(OSError):
            each.unlink()


def make_one_file(conn: sqlite3.Connection) -> None:
    """Let an open file have no journal beside it any more, so that it can be moved or copied."""
    conn.execute("PRAGMA journal_mode = DELETE")
