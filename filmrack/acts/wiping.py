"""Wiping a person: their names go from the file, its notes and its backups; the film stays."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from filmrack.domain.counted import counted
from filmrack.domain.names import Person
from filmrack.domain.refusal import FileTrouble
from filmrack.domain.wiping import kept_until, says_of
from filmrack.store import people, wiping
from filmrack.store.backup import drafts_kept, kept_backups, kept_damaged
from filmrack.store.file import DarkroomFile


class Wiped(NamedTuple):
    """Whose names are gone, how many notes went with them, and from which backups.

    `left` are backups that could not be changed, damaged files that a restore put aside, and drafts
    that could not be removed, each with what is wrong with it: a name may still be in them. `room`
    is what the room itself calls something by such a name.
    """

    people: tuple[int, ...]
    notes: int
    backups: tuple[Path, ...]
    left: tuple[tuple[Path, str], ...]
    room: tuple[str, ...] = ()


def wipe(file: DarkroomFile, numbers: Iterable[int], now: datetime) -> Wiped:
    """Remove people's names for good, also from the backups in the folder beside the file.

    Drafts that a killed restore or backup left go altogether. One that somebody makes at this
    moment goes as well, and is refused to them: it would bring the names back.
    Doing it again is harmless and cleans what was left. It cannot be taken back. Raises Refused
    for a person who is not there, FileTrouble when another program holds the file.
    """
    wanted = list(dict.fromkeys(numbers))
    names = [people.person_meant(file.conn, number) for number in wanted]
    copies: list[Path] = []
    left: list[tuple[Path, str]] = []
    for path in kept_backups(file.path):
        with _kept(left, path):
            former = wiping.names_in_backup(path, file, wanted)
            if former is not None:
                copies.append(path)
                names += former
    for path in kept_damaged(file.path):
        left.append((path, f"{path} is damaged and cannot be wiped: remove it when you can"))
    for path in drafts_kept(file.path):
        try:
            path.unlink(missing_ok=True)
        except OSError as error:
            why = f"{path} was never finished and cannot be removed ({error.strerror or error})"
            left.append((path, f"{why}: remove it when you can"))
    cleaned: list[Path] = []
    # The backups first: while one of them cannot be changed, the names to look for are known.
    for path in copies:
        with _kept(left, path):
            wiping.wipe_from_backup(path, names, now)
            cleaned.append(path)
    said = room_says(file, names)
    notes = wiping.wipe_from(file, names, now)
    return Wiped(tuple(wanted), notes, tuple(cleaned), tuple(left), tuple(said))


def room_says(file: DarkroomFile, wanted: Iterable[Person]) -> list[str]:
    """Return what the room itself calls something by a name of theirs: wiping leaves that."""
    room = file.room()
    return list(dict.fromkeys(text for person in wanted for text in says_of(room, person)))


def first_the_room(said: Iterable[str]) -> str:
    """Return what to do before wiping where the room itself says a name; empty for nothing."""
    quoted = ", ".join(f"“{text}”" for text in said)
    if not quoted:
        return ""
    return f"the room itself says {quoted}: if that is them, change it on the screen Room first"


def gone_words(done: Wiped) -> str:
    """Return what a wiping did, and what it cannot reach, as a sentence."""
    names = counted(len(done.people), "person", "people")
    notes = counted(done.notes, "note")
    copies = counted(len(done.backups), "backup")
    quoted = ", ".join(f"“{text}”" for text in done.room)
    still = quoted and f"; the room itself still says {quoted}, as it is yours to change"
    return (
        f"the names of {names} are gone from the file, with {notes}, and from {copies};"
        f" exports, prints and copies elsewhere are yours to remove{still}"
    )


def kept_too_long(file: DarkroomFile, now: datetime) -> list[Person]:
    """Return whose names are kept for longer than the room's rule says, by number."""
    room = file.room()
    today = room.timetable.local_date(now)
    years = room.rules.keep_names_years
    last_used = wiping.last_used(file.conn)
    old = [number for number, last in last_used.items() if kept_until(last, years) < today]
    known = people.read_people(file.conn, old)
    return [known[number] for number in old]


@contextmanager
def _kept(left: list[tuple[Path, str]], path: Path) -> Iterator[None]:
    try:
        yield
    except FileTrouble as trouble:
        left.append((path, str(trouble)))
