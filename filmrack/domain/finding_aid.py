"""A plain finding aid of a closed term: what an archivist needs to know of a group of records.

The elements are those that two content standards for archives both ask for at the least (both
from memory): ISAD(G), 2nd edition, names as essential the reference code (3.1.1), title (3.1.2),
dates (3.1.3), level of description (3.1.4), extent (3.1.5) and creator (3.2.1), and has scope and
content (3.3.1) and conditions governing access (3.4.1); DACS asks in its single-level minimum for
the reference code (2.1), title (2.3), date (2.4), extent (2.5), creator where known (2.6), scope
and content (3.1) and conditions governing access (4.1).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date
from typing import NamedTuple

from filmrack.domain.counted import counted, frames_words
from filmrack.domain.roll import ARCHIVED, Roll
from filmrack.domain.room import Room
from filmrack.domain.schooldays import Term

ELEMENTS = (
    "reference code",
    "title",
    "dates",
    "level of description",
    "extent",
    "creator",
    "scope and content",
    "conditions governing access",
)
"""The elements of the whole term and of each of its items, in the order of the standards."""

_KEPT = ARCHIVED | {"missing"}


class Described(NamedTuple):
    """The term, or a roll in it: the text of each of ELEMENTS, in their order."""

    reference_code: str
    title: str
    dates: str
    level: str
    extent: str
    creator: str
    scope: str
    access: str


def finding_aid(
    room: Room, term: Term, rolls: Iterable[Roll], initials: Mapping[int, str]
) -> list[Described]:
    """Describe a term, then each roll of it that was sleeved and not given away, by number.

    `initials` are the owners' by roll, for those that the room's rule lets be shown; no name is.
    """
    kept = [roll for roll in rolls if roll.sleeved_at is not None and roll.place.kind in _KEPT]
    days = [_day(roll, room) for roll in kept]
    # What was shelved without a history has no day of its own within the term.
    within = [day for day in days if term.starts <= day <= term.ends]
    dates = (min(within), max(within)) if within else (term.starts, term.ends)
    sheets = sum(len(roll.sheets) for roll in kept)
    head = Described(
        reference_code=term.code,
        title=f"{room.name}: negatives of term {term.code}",
        dates=_dates(*dates),
        level="series",
        extent=f"{counted(len(kept), 'roll')} of film in {counted(_sleeves(kept), 'sleeve')},"
        f" {counted(sheets, 'contact sheet')},"
        f" {counted(len({roll.binder for roll in kept if roll.binder is not None}), 'binder')}",
        creator=f"students of {room.name}",
        scope="Processed film of class assignments, cut and sleeved, in the order of its numbers:"
        f" {_films(kept)}.",
        access="Held by the school; ask the teacher of the darkroom. The photographs show and"
        " belong to students, so the school's rules on their records apply.",
    )
    return [head, *(_item(roll, room, initials.get(roll.id, "")) for roll in kept)]


def _item(roll: Roll, room: Room, initials: str) -> Described:
    binder = f"binder {roll.term}-{roll.binder:02d}" if roll.binder is not None else "no binder"
    now = "" if roll.place.kind == "binder" else f", {roll.place}"
    frames = "" if roll.frames is None else f", {counted(roll.frames, 'frame')}"
    chosen = f", frames {frames_words(roll.picks)} chosen" if roll.picks else ""
    sheets = counted(len(roll.sheets), "contact sheet") if roll.sheets else "no contact sheet"
    return Described(
        reference_code=roll.number,
        title=f"Roll {roll.number}",
        dates=str(_day(roll, room)),
        level="item",
        extent=f"{counted(max(1, len(roll.pages)), 'sleeve')}{frames}",
        creator=initials or "a student",
        scope=f"{roll.film} film, {sheets}{chosen}",
        access=f"{binder}{now}",
    )


def _day(roll: Roll, room: Room) -> date:
    return room.timetable.local_date(roll.hung_at or roll.first_at)


def _dates(first: date, last: date) -> str:
    """One day, or a span with a slash as ISO 8601 writes it."""
    return str(first) if first == last else f"{first}/{last}"


def _sleeves(rolls: Iterable[Roll]) -> int:
    return sum(max(1, len(roll.pages)) for roll in rolls)


def _films(rolls: Iterable[Roll]) -> str:
    kinds = Counter(roll.film for roll in rolls)
    return ", ".join(f"{number} of {film}" for film, number in sorted(kinds.items())) or "none"
