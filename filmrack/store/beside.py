"""What is beside a darkroom file: what SQLite keeps there while it is open, and drafts of it."""

from __future__ import annotations

import os
import re
import sqlite3
from contextlib import suppress
from pathlib import Path

_JOURNALS = ("-wal", "-journal")
_SHARED_MEMORY = "-shm"
_DRAFT = ".part"


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


def draft_of(path: Path) -> Path:
    """Return the name under which this process makes a file or folder until it is whole."""
    return path.with_name(f".{path.name}.{os.getpid()}{_DRAFT}")


def drafts_in(folder: Path, name: str | None = None) -> list[Path]:
    """Return the drafts in a folder and what is beside them, by name: of one file, or of any.

    Somebody makes them at this moment, or was killed while doing so.
    """
    of = ".+" if name is None else re.escape(name)
    draft = re.compile(rf"\.{of}\.[0-9]+{re.escape(_DRAFT)}(-.+)?")
    with suppress(OSError):
        return sorted(
            each for each in folder.iterdir() if draft.fullmatch(each.name) and each.is_file()
        )
    return []


def make_one_file(conn: sqlite3.Connection) -> None:
    """Let an open file have no journal beside it any more, so that it can be moved or copied."""
    conn.execute("PRAGMA journal_mode = DELETE")
