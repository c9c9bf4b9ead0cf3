"""The room file: a room as TOML (version 1.0.0 of its specification), read whole.

Whatever the bytes, the outcome is a room or the mistakes in it, each by its dotted key; entries
of a list are counted from 1.
"""

from __future__ import annotations

import re
import tomllib
from typing import NamedTuple

from filmrack.domain import roomparts
from filmrack.domain.refusal import Refused
from filmrack.domain.room import LONGEST_PERIOD_WORD, Room
from filmrack.domain.roomdays import school_days, timetable
from filmrack.domain.roomkeys import Section
from filmrack.domain.roomproblems import Problem, room_problems
from filmrack.domain.roomtext import room_text
from filmrack.domain.timetable import Timetable, zone_named

MOST_BYTES = 500_000


class RoomRead(NamedTuple):
    """What a room file says: a room, or the mistakes for which there is none."""

    room: Room | None
    problems: tuple[Problem, ...]


def examine(data: bytes) -> RoomRead:
    """Return the room of a room file, or every mistake in it. Raises nothing."""
    try:
        values = _parsed(data)
    except _Unreadable as error:
        return RoomRead(None, (error.problem,))
    return examine_values(values)


def examine_values(values: dict[str, object]) -> RoomRead:
    """Return the room of a room file's values by their keys, or every mistake in them."""
    problems: list[Problem] = []
    room = _room(Section(values, "", problems))
    if room is not None and not problems:
        problems.extend(room_problems(room))
    if room is None or problems:
        return RoomRead(None, tuple(problems))
    return RoomRead(in_order(room), ())


def read_room_file(data: bytes) -> tuple[Room, str]:
    """Return the room of a room file, and its text.

    Raises Refused for one with mistakes, naming the first.
    """
    reading = examine(data)
    if reading.room is None:
        first, *others = reading.problems
        more = f" ({len(others)} more: “filmrack room check” names them)" if others else ""
        raise Refused(f"the room file is wrong at {first}{more}")
    return reading.room, data.decode("utf-8-sig")


def refuse_problems(room: Room) -> None:
    """Raise Refused for a room that does not hold together or could not stand in a room file."""
    problems = room_problems(room) or examine(room_text(room).encode()).problems
    if problems:
        raise Refused(f"that is no room because of {problems[0]}")


def in_order(room: Room) -> Room:
    """Return a room with its lists in the order in which the darkroom file gives them back."""
    days = room.timetable.days
    return room._replace(
        periods=tuple(sorted(room.periods, key=lambda one: one.number)),
        dryers=tuple(sorted(room.dryers, key=lambda one: one.number)),
        rods=tuple(sorted(room.rods, key=lambda one: (one.dryer, one.number))),
        boxes=tuple(sorted(room.boxes, key=lambda one: one.number)),
        binders=tuple(sorted(room.binders, key=lambda one: (one.term, one.number))),
        timetable=Timetable(
            room.timetable.zone,
            room.timetable.plans,
            days._replace(
                terms=tuple(sorted(days.terms, key=lambda one: (one.starts, one.code))),
                days_off=tuple(sorted(days.days_off, key=lambda one: (one.first, one.last))),
                one_offs=tuple(sorted(days.one_offs, key=lambda one: one.day)),
            ),
        ),
    )


class _Unreadable(Exception):
    def __init__(self, where: str, advice: str) -> None:
        super().__init__(where)
        self.problem = Problem(where, advice)


def _parsed(data: bytes) -> dict[str, object]:
    if len(data) > MOST_BYTES:
        most = MOST_BYTES // 1000
        raise _Unreadable("its size", f"choose a room file, which has at most {most} kB")
    try:
        return tomllib.loads(data.decode("utf-8-sig"))
    except UnicodeDecodeError:
        raise _Unreadable("its text", "save it as UTF-8") from None
    except RecursionError:
        raise _Unreadable("its text", "write fewer brackets within brackets") from None
    except ValueError as error:
        # The parser's own words: before Python 3.14 its error has the line in no other way.
        words = "".join(letter if letter.isprintable() else "?" for letter in str(error))
        place = re.search(r"\(at line ([0-9]+), column ([0-9]+)\)", words)
        where = f"line {place[1]}" if place else "its text"
        what = words[: place.start()] if place else words
        raise _Unreadable(where, f"write it as TOML has it, not so: {what[:200].strip()}") from None


def _room(top: Section) -> Room | None:
    name = top.text("name", roomparts.LONGEST_NAME, "Darkroom")
    word = top.text("period_word", LONGEST_PERIOD_WORD, "period")
    zone = top.text("zone", 80)
    try:
        found_zone = zone_named(zone)
    except Refused:
        if zone:
            top.wrong("zone", "a time zone such as America/Chicago or Europe/Berlin")
        found_zone = zone_named("UTC")
    periods = roomparts.periods(top)
    dryers = roomparts.dryers(top)
    rods = roomparts.rods(top, periods, word)
    boxes = roomparts.boxes(top, periods, word)
    binders = roomparts.binders(top, periods, word)
    materials = roomparts.materials(top)
    rules = roomparts.rules(top)
    initials = roomparts.initials_on_sleeves(top)
    section = top.section("timetable")
    days = school_days(top, section, periods, word)
    plans = None
    if days is not None:
        plans = timetable(section, found_zone, days, periods, word)
    else:
        section.raw("plans")  # they fit no days that clash, but are no unknown key
    section.close(roomparts.TOP_KEYS)
    top.close()
    if plans is None:
        return None
    return Room(
        name=name,
        zone=zone,
        timetable=plans,
        periods=periods,
        dryers=dryers,
        rods=rods,
        boxes=boxes,
        period_word=word,
        rules=rules,
        materials=materials,
        binders=binders,
        initials_on_sleeves=initials,
    )
