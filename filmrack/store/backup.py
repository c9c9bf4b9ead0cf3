"""Copies of the darkroom file, made while desks write."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import NamedTuple, Protocol

from filmrack.domain.refusal import FileTrouble, NeedsBackup, Refused
from filmrack.store import rolls
from filmrack.store.beside import draft_of, drafts_in, make_one_file, remove
from filmrack.store.trouble import refuse_without_folder, trouble_with
from filmrack.store.version import APPLICATION_ID

DAMAGED = "-damaged.file"
"""How the name of a kept file ends that is damaged."""


STAMP = "%Y%m%dT%H%M%SZ"
"""How a moment in UTC stands in the name of a kept file."""


class Open(Protocol):
    """An open darkroom file."""

    @property
    def conn(self) -> sqlite3.Connection:
        """Return its connection, which holds no transaction that writes."""


class Backup(NamedTuple):
    """A copy that was read back and found whole."""

    file: Path
    rolls: int
    bytes: int


def stamp_of(moment: datetime) -> str:
    """Return an aware moment as it stands in the name of a kept file."""
    return f"{moment.astimezone(UTC):{STAMP}}"


def make_backups_folder(path: Path) -> Path:
    """Return the folder in which a file's kept backups are, made if need be."""
    folder = backups_folder(path)
    with trouble_with(folder):
        folder.mkdir(exist_ok=True)
    return folder


def kept_backups(path: Path) -> list[Path]:
    """Return the backups in the folder beside a file, by name."""
    return sorted(found for found in backups_folder(path).glob("*.db") if found.is_file())


def kept_damaged(path: Path) -> list[Path]:
    """Return the damaged files that were moved into the folder beside a file, by name."""
    return sorted(found for found in backups_folder(path).glob(f"*{DAMAGED}") if found.is_file())


def drafts_kept(path: Path) -> list[Path]:
    """Return the drafts of a file beside it, and all that are in its folder of backups.

    They hold what the file or a backup held, and nobody sees them.
    """
    folder = path.absolute().parent
    return [*drafts_in(folder, path.name), *drafts_in(backups_folder(path))]


def backups_folder(path: Path) -> Path:
    """Return the folder beside a file that its kept backups are in, there or not."""
    return path.absolute().parent / "backups"


def back_up(file: Open, target: Path) -> Backup:
    """Copy the file as it is at this moment, and read the copy back.

    Raises Refused over anything that exists, FileTrouble when the copy cannot be written or is not
    whole; nothing is left behind then.
    """
    if os.path.lexists(target):
        raise Refused(f"{target} exists already: name another file for the backup")
    refuse_without_folder(target)
    draft = draft_of(target)
    try:
        with trouble_with(target), closing(sqlite3.connect(draft)) as copy:
            file.conn.backup(copy)
            make_one_file(copy)
        read = whole(draft)
        with trouble_with(target):
            draft.rename(target)
            made = Backup(target, read, target.stat().st_size)
    except NeedsBackup as trouble:
        raise FileTrouble(
            f"the backup {target} was not made: {str(trouble).replace(str(draft), str(target))}"
        ) from trouble
    finally:
        remove(draft)
    return made


def copy_of(source: Path, target: Path) -> None:
    """Copy a backup as it is, to a file that is not there yet."""
    with (
        trouble_with(target),
        closing(read_only(source)) as backup,
        closing(sqlite3.connect(target)) as copy,
    ):
        backup.backup(copy)


def whole(path: Path) -> int:
    """Read a copy from its beginning to its end, changing nothing; return how many rolls it has.

    Raises NeedsBackup when it is not whole, FileTrouble when it cannot be read.
    """
    with trouble_with(path), closing(read_only(path)) as copy:
        if copy.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
            raise NeedsBackup(
                path, f"{path} is not a darkroom file: take another backup", other_way=True
            )
        found = damage(copy)
        if found is not None:
            raise NeedsBackup(
                path, f"{path} is not whole ({found}): take another backup", other_way=True
            )
        return rolls.count(copy)


def damage(conn: sqlite3.Connection) -> str | None:
    """Read a file to its end; return the first damage that is found, or None."""
    found: str = conn.execute("PRAGMA quick_check(1)").fetchone()[0]
    return None if found == "ok" else found


def read_only(path: Path) -> sqlite3.Connection:
    """Open a copy to be read as it is, of whatever version; nothing is changed."""
    return sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)
