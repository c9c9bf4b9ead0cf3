"""The backups kept in the folder beside a darkroom file: one a day, and one before each change
that could go wrong."""

from __future__ import annotations

import re
import shutil
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

from filmrack.domain.keeping import DAILY, Kept, age, outlived
from filmrack.domain.refusal import FileTrouble, NeedsBackup
from filmrack.store.backup import (
    STAMP,
    Backup,
    back_up,
    backups_folder,
    drafts_kept,
    make_backups_folder,
    read_only,
    stamp_of,
    whole,
)
from filmrack.store.clock import is_demo
from filmrack.store.file import DarkroomFile

_DEAD_DRAFT = timedelta(days=1)


def keep_daily(file: DarkroomFile, now: datetime) -> Backup | None:
    """Make the backup of this day unless it is there; a demo has none.

    Raises FileTrouble when it cannot be made.
    """
    if is_demo(file.conn) or kept_today(file, now):
        return None
    return keep(file, DAILY, now)


def kept_today(file: DarkroomFile, now: datetime) -> bool:
    """Tell whether the backup of this day of the room is there."""
    zone = file.room().timetable.zone
    today = now.astimezone(zone).date()
    return any(
        each.what == DAILY and each.made.astimezone(zone).date() == today
        for each in kept_of(file.path)
    )


def keep(file: DarkroomFile, what: str, now: datetime) -> Backup:
    """Make a backup in the folder beside the file, then let those go that have had their time.

    `what` says what for, in letters, digits and hyphens. Inside `writing` it is a copy of what was
    there before, and nothing can come between. Raises FileTrouble when it cannot be made.
    """
    folder = make_backups_folder(file.path)
    _refuse_without_room(file, folder)
    target = _free(folder, f"{file.path.stem}-{stamp_of(now)}-{what}")
    # SQLite copies nothing from a connection that is writing: another one sees what was there.
    with DarkroomFile(file.path, read_only(file.path)) as before:
        made = back_up(before, target)
    _prune(file, now)
    return made


def kept_of(path: Path) -> dict[Kept, Path]:
    """Return the backups kept of a file; what else lies in the folder is none of ours."""
    name = re.compile(re.escape(path.stem) + r"-([0-9]{8}T[0-9]{6}Z)-([A-Za-z0-9-]+)\.db")
    found = {}
    with suppress(OSError):
        for each in backups_folder(path).iterdir():
            named = name.fullmatch(each.name)
            if named:
                with suppress(ValueError):
                    made = datetime.strptime(named[1], STAMP).replace(tzinfo=UTC)
                    found[Kept(made, named[2])] = each
    return found


def with_the_way_back(trouble: FileTrouble, now: datetime) -> str:
    """Return what is wrong with a file, with the newest good backup and its age as the way back."""
    if not isinstance(trouble, NeedsBackup):
        return str(trouble)
    kept = kept_of(trouble.path)
    # Where no file is, most often there never was one: the sentence speaks of no backup by itself.
    way = ", or go back to the newest backup" if trouble.other_way else ""
    for each in sorted(kept, reverse=True):
        with suppress(FileTrouble):
            whole(kept[each])
            return (
                f"{trouble}{way}, which is {kept[each]}, {age(each.made, now)} and read to its end:"
                " “filmrack restore” with its name puts it in place"
            )
    if not trouble.path.is_file():
        return str(trouble)
    return f"{trouble}; none that is whole lies in {backups_folder(trouble.path)}"


def _free(folder: Path, name: str) -> Path:
    target = folder / f"{name}.db"
    nth = count(2)
    while target.exists():
        target = folder / f"{name}-{next(nth)}.db"
    return target


def _refuse_without_room(file: DarkroomFile, folder: Path) -> None:
    """A copy that cannot fit is not begun: it would take long, and take what room is left."""
    pages, size = (
        file.conn.execute(f"PRAGMA {name}").fetchone()[0] for name in ("page_count", "page_size")
    )
    with suppress(OSError):
        if shutil.disk_usage(folder).free < pages * size:
            raise FileTrouble(
                f"the disk with {folder} has no room for a backup of {pages * size:,} bytes: make"
                " room, or move old files away"
            )


def _prune(file: DarkroomFile, now: datetime) -> None:
    """The newest was read back a moment ago, so at least one good backup always stays."""
    kept = kept_of(file.path)
    for each in outlived(kept, now, file.room().timetable.zone):
        with suppress(OSError):
            kept[each].unlink()
    dead = (now - _DEAD_DRAFT).timestamp()
    for draft in drafts_kept(file.path):
        with suppress(OSError):
            if draft.stat().st_mtime < dead:
                draft.unlink()
