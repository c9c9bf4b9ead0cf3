"""The ways back: a backup in the place of the file, and its state folded anew from the ledger."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from filmrack.domain.names import Person
from filmrack.domain.refusal import FileTrouble, NeedsBackup, Refused
from filmrack.store import checking, folding, people, replacing, wiping
from filmrack.store.backup import (
    DAMAGED,
    Backup,
    copy_of,
    damage,
    make_backups_folder,
    read_only,
    stamp_of,
    whole,
)
from filmrack.store.beside import all_beside, draft_of, journals_of, make_one_file, remove
from filmrack.store.clock import is_demo
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.keeping import keep, kept_of
from filmrack.store.trouble import damaged, trouble_with


@dataclass(frozen=True, slots=True)
class Restored:
    """Where what was replaced is kept, None where there was nothing; and the rolls there now.

    `wiped_known` tells whether the file that was there said which names had been wiped since.
    """

    kept: Path | None
    rolls: int
    wiped_known: bool


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """What was not as the ledger says, and the copy from before; None where nothing was wrong."""

    problems: tuple[str, ...]
    backup: Backup | None


def restore(path: Path, source: Path, now: datetime) -> Restored:
    """Put a backup in the place of the darkroom file, also while desks are open.

    What it replaces is kept in the folder `backups` beside it. The backup itself is not changed.
    Names that were wiped since stay wiped; where there is no whole file to ask for them, those
    stay wiped that are so in a backup beside it. Raises Refused for the file itself, FileTrouble
    for a backup that is not whole, and for a file of a newer version.
    """
    if source.exists() and path.exists() and source.samefile(path):
        raise Refused(f"{source} is the darkroom file itself: name a backup of it")
    if not source.is_file():
        raise FileTrouble(f"{source} is no file: name a backup, as in the folder “backups”")
    rolls = whole(source)
    with _draft(path, source) as draft:
        with suppress(NeedsBackup), open_file(path, write=True) as file:
            _stay_wiped(file, draft, now)
            return Restored(_through(file, draft, now), rolls, wiped_known=True)
        _stay_wiped_beside(path, draft, now)
        return Restored(_in_place(path, draft, now), rolls, wiped_known=False)


def rebuild(file: DarkroomFile, now: datetime) -> Rebuilt:
    """Write all state anew from the ledger and the tables that it refers to, if it differs.

    A backup is made first. What was folded is compared before it is kept: all of it is written, or
    nothing. Raises Refused where the ledger itself is at fault, so that only a backup helps.
    """
    with file.writing() as conn, closing(read_only(file.path)) as before:
        _refuse_damaged(file)
        problems = checking.problems(file, before)
        if not problems:
            return Rebuilt((), None)
        backup = None if is_demo(conn) else keep(file, "before-rebuild", now)
        try:
            nonsense = folding.fold_over(conn, file.room())
        except sqlite3.IntegrityError as error:
            raise Refused(
                f"the state stays as it is because the ledger cannot be folded ({error}): go back"
                " to a backup with “restore”"
            ) from error
        if nonsense:
            raise Refused(
                f"the state stays as it is because the ledger makes no sense ({nonsense[0].why}):"
                " go back to a backup with “restore”"
            )
        left = checking.problems(file, before)
        if left:
            raise Refused(
                f"the state stays as it is because folding it anew leaves this: {left[0]}; go back"
                " to a backup with “restore”"
            )
    return Rebuilt(tuple(problems), backup)


@contextmanager
def _draft(path: Path, source: Path) -> Iterator[Path]:
    """Copy a backup beside the file and bring the copy up to this version."""
    draft = draft_of(path.absolute())
    try:
        copy_of(source, draft)
        with open_file(draft, write=True, keep_earlier=False) as file:
            make_one_file(file.conn)  # it may be renamed into place
        yield draft
    finally:
        remove(draft)


def _through(file: DarkroomFile, draft: Path, now: datetime) -> Path:
    """Write the draft through the live file, so that open desks see it as any other change.

    The copy of what is replaced is made under the same lock: no act falls between the two.
    """
    with replacing.attached(file, draft), file.writing() as conn:
        _refuse_damaged(file)
        made = keep(file, "before-restore", now)
        replacing.replace_all(conn)
        _refuse_damaged(file)
    return made.file


def _refuse_damaged(file: DarkroomFile) -> None:
    """Nothing is written through a file that is not whole: what is sound of it would be lost."""
    if damage(file.conn) is not None:
        raise damaged(file.path)


def _in_place(path: Path, draft: Path, now: datetime) -> Path | None:
    """Move a file that cannot be used out of the way, whole, and the draft in its place."""
    kept = None
    with trouble_with(path):
        if path.exists():
            kept = make_backups_folder(path) / f"{path.stem}-{stamp_of(now)}{DAMAGED}"
            parts = zip((path, *journals_of(path)), (kept, *journals_of(kept)), strict=True)
            for part, copy in parts:
                if part.exists():
                    shutil.copy2(part, copy)
        for leftover in all_beside(path):
            leftover.unlink(missing_ok=True)
        draft.replace(path)
    return kept


def _stay_wiped(file: DarkroomFile, draft: Path, now: datetime) -> None:
    gone = wiping.wiped(file.conn)
    if gone:
        _wipe(draft, wiping.names_in_backup(draft, file, gone) or (), now)


def _stay_wiped_beside(path: Path, draft: Path, now: datetime) -> None:
    """Ask the kept backups, which wiping goes through as well, where the file cannot be asked."""
    gone: set[int] = set()
    with open_file(draft, write=False, keep_earlier=False) as restored:
        for each in kept_of(path).values():
            with suppress(FileTrouble):
                gone.update(wiping.wiped_in_backup(each, restored))
        named = people.read_people(restored.conn, sorted(gone)).values()
    _wipe(draft, named, now)


def _wipe(draft: Path, people_named: Iterable[Person], now: datetime) -> None:
    named = [each for each in people_named if each.given or each.family]
    if named:
        wiping.wipe_from_backup(draft, named, now)
