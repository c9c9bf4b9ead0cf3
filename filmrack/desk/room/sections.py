"""The sections of the screen Room, which the registry names, with their rows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from filmrack.desk.now import Now
from filmrack.desk.registry import SECTIONS_OF_ROOM
from filmrack.desk.room import clips as room_clips
from filmrack.desk.room import people as room_people
from filmrack.desk.room import settings, timetable
from filmrack.desk.room import words as room_words
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.drying_record import drying_record
from filmrack.desk.room.lists import entry_rows
from filmrack.desk.room.row import RoomPlace, RoomRow
from filmrack.desk.themes import Palette
from filmrack.domain.names import folded
from filmrack.domain.room import Room
from filmrack.domain.roomfields import TABLES

_PICTURE = 12
"""Rows of a drying record."""


class RowsFor(NamedTuple):
    """What the rows of a section are made for: this room, now, so wide, in these colours."""

    changing: Changing
    now: Now
    width: int
    palette: Palette


RowsOf = Callable[[RowsFor], Iterable[RoomRow]]


class RoomSection(NamedTuple):
    """A section as the registry names it, with its rows."""

    id: str
    title: str
    names: tuple[str, ...]
    rows: RowsOf
    only_tells: bool
    """Whether its rows say something, and do nothing."""


def _sets(rows: Callable[[Changing], Iterator[RoomRow]]) -> RowsOf:
    return lambda page: rows(page.changing)


def _told(pairs: Iterable[room_words.Told]) -> Iterator[RoomRow]:
    return (RoomRow(name, words) for name, words in pairs)


def _drying(page: RowsFor) -> Iterator[RoomRow]:
    """Return what each dryer has taught, in words and then as a picture."""
    session, room = page.changing.session, page.now.room
    yield from _told(room_words.taught(session, room))
    for learned, rolls in room_words.records(session, room):
        yield RoomRow("", " ")
        for line in drying_record(learned, rolls, page.width, _PICTURE, page.palette):
            yield RoomRow("", drawn=line)


_TOLD: Mapping[str, RowsOf] = {
    "today": lambda page: _told(room_words.today(page.now)),
    "drying": _drying,
    "student": lambda page: _told(room_words.student_desk(page.changing.session)),
    "file": lambda page: _told(room_words.file(page.changing.session)),
}
_SET: Mapping[str, RowsOf] = {
    "naming": _sets(settings.naming),
    "timetable": _sets(timetable.rows),
    "days": _sets(settings.days),
    "periods": _sets(settings.periods),
    "dryers": _sets(settings.dryers),
    "binders": _sets(settings.binders),
    "materials": _sets(settings.materials),
    "rules": _sets(settings.rules),
    "people": _sets(room_people.rows),
    "clips": _sets(room_clips.rows),
}

SECTIONS = tuple(
    RoomSection(
        each.id,
        each.title,
        (each.title.casefold(), each.id, *each.words, *each.on_room),
        {**_TOLD, **_SET}[each.id],
        each.id in _TOLD,
    )
    for each in SECTIONS_OF_ROOM
)


def section_called(text: str, room: Room) -> int | None:
    """Return the place of the section that is called so in a room, or None."""
    said = folded(text)
    for nth, section in enumerate(SECTIONS):
        if said in (*section.names, *map(room.in_its_words, section.names)):
            return nth
    return None


def rows_at(place: RoomPlace, page: RowsFor) -> list[RoomRow]:
    """Return the rows of a section, or of one entry in it.

    Raises Refused for an entry that is there no more.
    """
    changing = page.changing
    match place.entry:
        case ():
            section = next(one for one in SECTIONS if one.id == place.section)
            return list(section.rows(page))
        case ("person", number):
            return list(room_people.person_rows(changing, int(number)))
        case ("clip", number):
            return list(room_clips.clip_rows(changing, int(number)))
        case _:
            table, *name = place.entry
            return list(entry_rows(changing, TABLES[table], tuple(name)))
