"""Taking everything out of a darkroom file as tables, and into a new one."""

from __future__ import annotations

import shutil
import sqlite3
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from filmrack.acts.founding import made_whole
from filmrack.domain.counted import listed
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.store import checking, exporting, ledger, rolls
from filmrack.store.beside import draft_of
from filmrack.store.file import DarkroomFile, create_file, open_file
from filmrack.store.standings import in_need, see
from filmrack.store.trouble import refuse_without_folder
from filmrack.store.version import VERSION


class Taken(NamedTuple):
    """The files that were written or read, and how many rolls they hold."""

    files: tuple[str, ...]
    rolls: int


def export(file: DarkroomFile, folder: Path) -> Taken:
    """Write everything to a new folder, whole or not at all: CSV and JSON, with its meaning.

    Raises Refused over anything that exists but an empty folder, FileTrouble when it cannot be
    written.
    """
    _refuse_unless_free(folder)
    draft = draft_of(folder)
    try:
        draft.mkdir()
        with file.reading() as conn:
            files = exporting.write_all(conn, draft)
            number = rolls.count(conn)
        if folder.is_dir():
            folder.rmdir()
        draft.rename(folder)
    except OSError as error:
        raise FileTrouble(
            f"{folder} cannot be written: {error.strerror or error}; nothing was exported"
        ) from error
    finally:
        shutil.rmtree(draft, ignore_errors=True)
    return Taken(tuple(files), number)


def take_in(path: Path, folder: Path, now: datetime) -> Taken:
    """Make a new darkroom file from an export, whole or not at all, equal to the exported one.

    Raises Refused over anything that exists, for a folder that is no export or was changed so
    that it makes no sense, FileTrouble when the file cannot be written.
    """
    version = exporting.version_of(folder)
    if version > VERSION:
        raise Refused(
            f"{folder} was exported by a newer Filmrack (version {version} of the file, this one"
            f" knows {VERSION}): update Filmrack first"
        )
    with made_whole(path) as draft:
        with create_file(draft, version) as file:
            files = exporting.fill(file, folder)
        # Opened anew, an earlier version is brought up to this one.
        with open_file(draft, write=True, keep_earlier=False) as file:
            number = _refuse_nonsense(file, folder, now)
    return Taken(tuple(files), number)


def _refuse_nonsense(file: DarkroomFile, folder: Path, now: datetime) -> int:
    """Read everything as a desk would: what cannot be understood must not become a file."""
    try:
        ledger.refuse_nonsense(file.conn)
        problems = checking.problems(file)
        there = rolls.all_there(file.conn)
        see(file, there, now)
        in_need(file, now)
    except (
        FileTrouble,
        Refused,
        sqlite3.DatabaseError,
        ArithmeticError,
        AttributeError,
        LookupError,
        TypeError,
        ValueError,
    ) as error:
        raise Refused(
            f"{folder} was not taken in because it cannot be understood ({error}): export again, or"
            " undo what was changed in it"
        ) from error
    if problems:
        raise Refused(
            f"{folder} was not taken in because {listed(problems, 1)}: export again, or undo what"
            " was changed in it"
        )
    return len(there)


def _refuse_unless_free(folder: Path) -> None:
    if not folder.name:
        raise Refused(f"{folder} is no folder to export to: name a new one")
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise Refused(f"{folder} exists already and is no folder: name a new one")
    if folder.is_dir() and any(folder.iterdir()):
        raise Refused(f"{folder} is not empty: name a new folder, nothing is written over")
    refuse_without_folder(folder)
