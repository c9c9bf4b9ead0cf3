"""The sections of the screen Room: what each is called, what else it may be called, its rows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from filmrack.desk.now import Now
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


class RoomSection(NamedTuple):
    """A section: `words` are what else it may be called when it is typed."""

    id: str
    title: str
    words: tuple[str, ...]
    rows: Callable[[RowsFor], Iterable[RoomRow]]
    only_tells: bool = False
    """Whether its rows say something, and do nothing."""


def _tells(
    id: str, title: str, *words: str, rows: Callable[[RowsFor], Iterable[RoomRow]]
) -> RoomSection:
    return RoomSection(id, title, words, rows, only_tells=True)


def _sets(
    id: str, title: str, *words: str, rows: Callable[[Changing], Iterator[RoomRow]]
) -> RoomSection:
    return RoomSection(id, title, words, lambda page: rows(page.changing))


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


SECTIONS = (
    _tells("today", "Today", rows=lambda page: _told(room_words.today(page.now))),
    _sets("naming", "This room", "name", "zone", "time zone", rows=settings.naming),
    _sets("timetable", "Timetable", "letters", "plans", "lunch", rows=timetable.rows),
    _sets("days", "Terms, days off", "terms", "days off", "days", rows=settings.days),
    _sets("periods", "Periods, boxes", "periods", rows=settings.periods),
    _sets("dryers", "Dryers, rods", "dryers", "rods", rows=settings.dryers),
    _sets("binders", "Binders", rows=settings.binders),
    _sets(
        "materials",
        "Film and paper",
        "film",
        "films",
        "pages",
        "papers",
        "materials",
        rows=settings.materials,
    ),
    _sets("rules", "Rules", rows=settings.rules),
    _sets("people", "People", "roster", "persons", rows=room_people.rows),
    _sets("clips", "Clips", "clip pairs", rows=room_clips.rows),
    _tells("drying", "Drying record", "drying", rows=_drying),
    _tells(
        "student",
        "Student desk",
        "students",
        rows=lambda page: _told(room_words.student_desk(page.changing.session)),
    ),
    _tells("file", "This file", rows=lambda page: _told(room_words.file(page.changing.session))),
)


def section_called(text: str, room: Room) -> int | None:
    """Return the place of the section that is called so in a room, or None."""
    said = folded(text)
    for nth, section in enumerate(SECTIONS):
        names = (section.title.casefold(), section.id, *section.words)
        if said in (*names, *map(room.in_its_words, names)):
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
