"""How the room is changed at one desk: what is typed read as the room file writes it, and put in
place whole or not at all.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date
from typing import NamedTuple, cast

from filmrack.acts.refitting import change_room
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.domain.codes import read
from filmrack.domain.days import read_day, refuse_just_past
from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.roomchange import RoomValues, values_of
from filmrack.domain.roomfields import Field
from filmrack.domain.roomplans import Plan, plan_typed
from filmrack.domain.roomtyped import NOTHING, typed

_TIMES = re.compile(r"[0-9][:.][0-9]{2}\s*[-–]\s*[0-9]")
"""What a plan of classes has in it and nothing else: `8:00-8`."""


class Changing(NamedTuple):
    """Changes the room at one desk."""

    session: Session

    @property
    def room(self) -> Room:
        """Return the room as it is now."""
        return self.session.file.room()

    @property
    def today(self) -> date:
        """Return the day it is in the room."""
        return self.room.timetable.local_date(self.session.now)

    @property
    def values(self) -> RoomValues:
        """Return the room by the keys of its room file."""
        return values_of(self.room)

    def do(self, change: Callable[[Room], Room], headline: str, words: str) -> Said:
        """Change the room whole, or raise Refused and leave it as it is."""
        change_room(self.session.file, self.session.hand(), change)
        return Said(headline, f"{words}. {WRONG}", done=True)

    def read(self, field: Field, text: str, now: object = None) -> object:
        """Return what the room file writes for a typed value. Raises Refused as `typed` does, and
        for a code, which is scanned for something else.
        """
        refuse_code(text)
        if field.kind == "period":
            return _period_typed(self.room, field, text)
        if field.kind == "day" and text.strip().casefold() not in NOTHING:
            day = read_day(text, self.today)
            refuse_just_past(text, day, self.today)
            return day
        if field.kind != "plan":
            return typed(field, text)
        timetable = cast(RoomValues, self.values["timetable"])
        plans = cast(Mapping[str, Plan], timetable["plans"])
        said = folded(text)
        if field.key == "plan":
            called = next((name for name in plans if name.casefold() == said), None)
            if called is not None:
                return called
        return plan_typed(text, cast(Plan, now) if isinstance(now, list) else (), plans)


def is_value(changing: Changing, field: Field, text: str) -> bool:
    """Tell whether a line is surely meant as a value of a row: a number, a day, yes, a plan.

    A name could be anybody's, so it is asked for first.
    """
    if field.kind in ("text", "texts"):
        return False
    if field.kind == "plan":
        return _TIMES.search(text) is not None
    try:
        changing.read(field, text)
    except Refused:
        return False
    return True


def refuse_code(text: str) -> None:
    """Raise Refused for a scanned code: no setting is called like one."""
    if code := read(text):
        raise Refused(
            f"{code.text} is the code of something, not a setting: press Esc to leave what is"
            " asked, then scan it again"
        )


def _period_typed(room: Room, field: Field, text: str) -> str | int | None:
    said = " ".join(text.split())
    if field.missing and said.casefold() in (field.missing, *NOTHING):
        return None
    found = room.period_named(said)
    if found is None:
        names = ", ".join(one.name for one in room.periods)
        more = f", or {field.missing}" if field.missing else ""
        raise Refused(f"there is no {room.period_word} “{said[:30]}”: type one of {names}{more}")
    return found.name
