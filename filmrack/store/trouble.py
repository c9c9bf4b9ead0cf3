"""What SQLite and the disk say of a file, as one sentence for a person."""

from __future__ import annotations

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from os import PathLike
from typing import TYPE_CHECKING

from filmrack.domain.refusal import FileTrouble, NeedsBackup, Refused

if TYPE_CHECKING:
    from pathlib import Path


@contextmanager
def trouble_with(path: str | PathLike[str]) -> Iterator[None]:
    """Turn what SQLite and the disk say of a file into one sentence for a person.

    Raises FileTrouble for a disk's error, else as `damage_in` does.
    """
    try:
        with damage_in(path):
            yield
    except OSError as error:
        raise _trouble_of_disk(path, error) from error


@contextmanager
def damage_in(path: str | PathLike[str]) -> Iterator[None]:
    """Turn what SQLite says of a file into one sentence for a person.

    Raises NeedsBackup for what a backup helps against, FileTrouble for what hinders only now. An
    IntegrityError is let through: it tells of what an act wrote, and not of the file.
    """
    try:
        yield
    except sqlite3.IntegrityError:
        raise
    except sqlite3.DatabaseError as error:
        raise _trouble(path, str(error)) from error
    except UnicodeDecodeError as error:  # SQLite quotes damaged bytes in what it complains of
        raise _trouble(path, "malformed") from error


def refuse_over(path: Path) -> None:
    """Refuse to write over anything that exists."""
    if path.exists() or path.is_symlink():
        raise already_there(path)


def already_there(path: str | PathLike[str]) -> Refused:
    """Return the refusal to write over what exists: it may be the only one of its kind."""
    return Refused(f"{path} exists already: name another file, or move this one away first")


def refuse_without_folder(path: Path) -> None:
    """Raise FileTrouble where the folder that something is to be made in is not there."""
    if not path.absolute().parent.is_dir():
        raise FileTrouble(f"there is no folder {path.parent}: make it first")


def against_a_rule(path: str | PathLike[str], error: sqlite3.IntegrityError) -> FileTrouble:
    """Return what is said where the file's own rules forbid what an act wrote."""
    return FileTrouble(
        f"{path} refused that ({error}), which should not be: see what is wrong with"
        " “filmrack check”; nothing was changed"
    )


def damaged(path: str | PathLike[str]) -> NeedsBackup:
    """Return what is said of a file that is not whole."""
    return NeedsBackup(
        path, f"{path} is damaged: leave it as it is and go back to the newest backup"
    )


def _trouble_of_disk(path: str | PathLike[str], error: OSError) -> FileTrouble:
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return _full(path)
    helps = "check that its folder is there and its disk whole"
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        helps = "allow reading and writing it and its folder"
    return FileTrouble(f"{path} cannot be used ({error.strerror or error}): {helps}")


def _full(path: str | PathLike[str]) -> FileTrouble:
    return FileTrouble(
        f"the disk with {path} is full: make room and try again; nothing was changed"
    )


def _trouble(path: str | PathLike[str], message: str) -> FileTrouble:
    if "readonly" in message:
        return FileTrouble(
            f"{path} cannot be written: allow writing to it and its folder; nothing was changed"
        )
    if "full" in message:
        return _full(path)
    if "locked" in message or "busy" in message:
        return FileTrouble(
            f"{path} is held by another program: try again when it is done; nothing was changed"
        )
    if "unable to open" in message:
        return FileTrouble(
            f"{path} cannot be opened: check that you may read it and write to its folder"
        )
    if "not a database" in message:
        words = "is not a darkroom file, or its beginning is damaged: go back to the newest backup"
    elif any(word in message for word in ("malformed", "corrupt", "decode")):
        return damaged(path)
    elif "no such table" in message or "no such column" in message:
        words = "lacks tables that a darkroom file has: go back to the newest backup"
    elif "disk I/O" in message:
        words = (
            "cannot be read or written to its end: make sure that the disk is whole and has"
            " room; else go back to the newest backup"
        )
    else:
        words = f"cannot be used ({message}): if this stays, go back to the newest backup"
    return NeedsBackup(path, f"{path} {words}")
