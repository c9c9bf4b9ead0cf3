"""Copies of the darkroom file, made while desks write."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path

from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.store.file import DarkroomFile, open_file, trouble_with


@dataclass(frozen=True, slots=True)
class Backup:
    """A copy that was read back and found whole."""

    file: Path
    rolls: int
    bytes: int


def backups_beside(path: Path) -> Path:
    """Return the folder in which a file's kept backups are, made if need be."""
    folder = _folder(path)
    with trouble_with(folder):
        folder.mkdir(exist_ok=True)
    return folder


def kept_backups(path: Path) -> list[Path]:
    """Return the backups in the folder beside a file, by name."""
    return sorted(found for found in _folder(path).glob("*.db") if found.is_file())


def _folder(path: Path) -> Path:
    return path.absolute().parent / "backups"


def back_up(file: DarkroomFile, target: Path) -> Backup:
    """Copy the file as it is at this moment, and read the copy back.

    Raises Refused over anything that exists, FileTrouble when the copy cannot be written or is not
    whole; nothing is left behind then.
    """
    if os.path.lexists(target):
        raise Refused(f"{target} exists already: name another file for the backup")
    if not target.parent.is_dir():
        raise FileTrouble(f"there is no folder {target.parent}: make it first")
    draft = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        with trouble_with(target), closing(sqlite3.connect(draft)) as copy:
            file.conn.backup(copy)
            # A backup is one file: no journal beside it that could be left behind.
            copy.execute("PRAGMA journal_mode = DELETE")
        rolls = _verified(draft)
        draft.rename(target)
    finally:
        with suppress(OSError):
            draft.unlink()
    return Backup(target, rolls, target.stat().st_size)


def _verified(path: Path) -> int:
    with open_file(path, write=False) as copy, trouble_with(path):
        found = copy.conn.execute("PRAGMA quick_check(1)").fetchone()[0]
        if found != "ok":
            raise FileTrouble(f"the backup {path} is not whole ({found}): try another disk")
        rolls: int = copy.conn.execute("SELECT count(*) FROM rolls").fetchone()[0]
    return rolls
