"""Rows of the screen Room, and the changes that they lead to."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple, cast

from rich.text import Text

from filmrack.acts.refitting import change_room
from filmrack.desk.question import Question
from filmrack.desk.registry import called_alike
from filmrack.desk.said import WRONG, Said, capital
from filmrack.desk.session import Session
from filmrack.domain.codes import read
from filmrack.domain.days import read_day, refuse_just_past
from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.roomchange import RoomValues, values_of
from filmrack.domain.roomfields import Field
from filmrack.domain.roomplans import Plan, plan_typed
from filmrack.domain.roomtyped import NOTHING, shown, to_edit, typed
from filmrack.domain.yes_or_no import yes_or_no


class RoomPlace(NamedTuple):
    """Where on the screen Room somebody looks: a section, or one entry of a list in it.

    `entry` is the list and what tells the entry apart in it, else empty.
    """

    section: str
    entry: tuple[str, ...] = ()


_TIMES = re.compile(r"[0-9][:.][0-9]{2}\s*[-–]\s*[0-9]")

_HEADLINE = 60
"""Letters that a headline holds."""

Reply = Said | Question | RoomPlace


@dataclass(frozen=True, slots=True)
class RoomRow:
    """One row: a name and what is said of it, and what Enter and typing do to it.

    A row without a name is a sentence; a `heading` parts the rows; a `drawn` row is a picture's.
    """

    name: str
    words: str = ""
    does: str = ""
    """What Enter does, as the footer says it."""
    enter: Callable[[], Reply] | None = None
    field: Field | None = None
    """What a value typed straight is read as."""
    take: Callable[[str], Said | Question] | None = None
    """Takes a value typed straight: asks whether it is meant, for a number could be a clip's."""
    remove: Callable[[], Said] | None = None
    heading: bool = False
    drawn: Text | None = None
    note: str = ""
    """What it is, said where there is room for it."""


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
            return _period(self.room, field, text)
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

    def row(
        self,
        field: Field,
        value: object,
        put: Callable[[Room, object], Room],
        headline: str = "",
        remove: Callable[[], Said] | None = None,
    ) -> RoomRow:
        """Return the row of one value, which Enter asks for and typing changes."""
        if field.kind == "period":
            field = field._replace(name=self.room.in_its_words(field.name))
        title = f"{headline}{', ' if headline else ''}{field.name}"
        title = capital(title)

        def take(text: str) -> Said:
            new = self.read(field, text, value)
            was, is_now = shown(field, value), shown(field, new)
            if new == value:
                return Said(title, f"{is_now}, as it was")
            return self.do(lambda room: put(room, new), f"{title}: {is_now}", f"it was {was}")

        def trial(text: str) -> object:
            new = self.read(field, text, value)
            put(self.room, new)
            return new

        return value_row(field, value, take, title, remove=remove, trial=trial)


_OF_A_PERSON = ("called", "given", "family")
"""Names of a person: asked about before they are changed, like those of all else."""


def value_row(
    field: Field,
    value: object,
    take: Callable[[str], Said],
    title: str,
    *,
    remove: Callable[[], Said] | None = None,
    trial: Callable[[str], object] | None = None,
) -> RoomRow:
    """Return the row of a value that `take` changes.

    `trial` reads a value that is typed straight, and raises Refused for one that cannot be;
    without it none is.
    """
    now = shown(field, value)

    def propose(text: str) -> Said | Question:
        new = shown(field, trial(text)) if trial else ""
        if new == now:
            return Said(title, f"{now}, as it was")

        def answer(meant: str) -> Said:
            if meant and not yes_or_no(meant, f"Enter changes it to {new}, Esc leaves it at {now}"):
                return Said(title, f"{now}, as it was")
            return take(text)

        short = f"{title}: {now} → {new}?"
        is_short = len(short) <= _HEADLINE
        return Question(
            f"Enter: change it; Esc: leave it at {now}",
            answer,
            headline=short if is_short else f"{title}: {new}?",
            words=("Nothing is changed yet" if is_short else f"It is {now}; nothing is changed yet")
            + _alike(field, new),
            does="change it",
        )

    def ask() -> Question:
        return Question(
            asked_for(field),
            propose if trial and (is_name(field) or field.key in _OF_A_PERSON) else take,
            headline=f"{title}?",
            words=f"now {now}; {field.ask}".rstrip("; "),
            verbatim=True,
            given=to_edit(field, value),
        )

    straight = propose if trial else None
    return RoomRow(field.name, now, "change it", ask, field, straight, remove, note=field.ask)


def _alike(field: Field, name: str) -> str:
    opens = called_alike(name) if is_name(field) else ""
    return f". “{name}” typed alone opens {opens}" if opens else ""


def refuse_code(text: str) -> None:
    """Raise Refused for a scanned code: no setting is called like one."""
    if code := read(text):
        raise Refused(
            f"{code.text} is the code of something, not a setting: press Esc to leave what is"
            " asked, then scan it again"
        )


def asked_for(field: Field) -> str:
    """Return what the line says to a value that it asks for."""
    match field.kind:
        case "flag":
            return "yes or no"
        case "choice":
            return " or ".join(words for words, _ in field.choices)
        case "day":
            return "a day, as 26 nov or 2026-11-26"
        case "whole" | "number":
            return f"a number, in {field.unit}" if field.unit else "a number"
        case "period":
            return f"a period{f', or {field.missing}' if field.missing else ''}"
        case "plan":
            return "1 8:00-8:50, 2 8:56-9:46, free 11:30-12:10 · 2 3 1 · a plan's name · none"
        case _:
            return field.ask or f"a {field.name}"


def is_name(field: Field | None) -> bool:
    """Tell whether a value is what something is called: it is asked about before it is changed."""
    return field is not None and field.kind == "text" and field.key == "name"


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


def _period(room: Room, field: Field, text: str) -> str | int | None:
    said = " ".join(text.split())
    if field.missing and said.casefold() in (field.missing, *NOTHING):
        return None
    found = room.period_named(said)
    if found is None:
        names = ", ".join(one.name for one in room.periods)
        more = f", or {field.missing}" if field.missing else ""
        raise Refused(f"there is no {room.period_word} {said[:30]!r}: type one of {names}{more}")
    return found.name
