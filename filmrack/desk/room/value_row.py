"""The row of one value on the screen Room: Enter asks for it, and a value typed straight is asked
about before it is changed.
"""

from __future__ import annotations

from collections.abc import Callable

from filmrack.desk.question import Question
from filmrack.desk.registry import called_alike
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.row import RoomRow
from filmrack.desk.said import Said, capital
from filmrack.domain.room import Room
from filmrack.domain.roomchange import KeyPath, value_at, with_value
from filmrack.domain.roomfields import Field
from filmrack.domain.roomtyped import shown, to_edit
from filmrack.domain.yes_or_no import yes_or_no

_HEADLINE = 60
"""Letters that a headline holds."""

_OF_A_PERSON = ("called", "given", "family")
"""Names of a person: asked about before they are changed, like those of all else."""


def kept_row(changing: Changing, field: Field, path: KeyPath) -> RoomRow:
    """Return the row of what the room file keeps at a path of its keys."""

    def put(room: Room, value: object) -> Room:
        return with_value(room, path, value)

    return setting_row(changing, field, value_at(changing.values, path), put)


def setting_row(
    changing: Changing,
    field: Field,
    value: object,
    put: Callable[[Room, object], Room],
    *,
    whose: str = "",
    remove: Callable[[], Said] | None = None,
) -> RoomRow:
    """Return the row of one value of the room; `put` returns a room with another one in its place.

    `whose` is what it is a value of, where it is one of a list.
    """
    field = in_its_words(field, changing.room)
    title = capital(f"{whose}, {field.name}" if whose else field.name)

    def take(text: str) -> Said:
        new = changing.read(field, text, value)
        was, is_now = shown(field, value), shown(field, new)
        if new == value:
            return Said(title, f"{is_now}, as it was")
        return changing.do(lambda room: put(room, new), f"{title}: {is_now}", f"it was {was}")

    def trial(text: str) -> object:
        new = changing.read(field, text, value)
        put(changing.room, new)
        return new

    return value_row(field, value, take, trial, title=title, remove=remove)


def value_row(
    field: Field,
    value: object,
    take: Callable[[str], Said],
    trial: Callable[[str], object],
    *,
    title: str,
    remove: Callable[[], Said] | None = None,
) -> RoomRow:
    """Return the row of a value that `take` changes to what is typed.

    `trial` only reads that, to be asked about before, and raises Refused for what cannot be.
    """
    now = shown(field, value)

    def propose(text: str) -> Said | Question:
        new = shown(field, trial(text))
        if new == now:
            return Said(title, f"{now}, as it was")

        def answer(meant: str) -> Said:
            if meant and not yes_or_no(meant, f"Enter changes it to {new}, Esc leaves it at {now}"):
                return Said(title, f"{now}, as it was")
            return take(text)

        headline, words = f"{title}: {now} → {new}?", "Nothing is changed yet"
        if len(headline) > _HEADLINE:
            headline, words = f"{title}: {new}?", f"It is {now}; nothing is changed yet"
        return Question(
            f"Enter: change it; Esc: leave it at {now}",
            answer,
            headline=headline,
            words=words + _alike(field, new),
            does="change it",
        )

    def ask() -> Question:
        return Question(
            asked_for(field),
            propose if is_name(field) or field.key in _OF_A_PERSON else take,
            headline=f"{title}?",
            words=f"now {now}; {field.ask}".rstrip("; "),
            verbatim=True,
            given=to_edit(field, value),
        )

    return RoomRow(field.name, now, "change it", ask, field, propose, remove, note=field.ask)


def _alike(field: Field, name: str) -> str:
    """Return what else a new name means where it is typed alone; empty for nothing."""
    opens = called_alike(name) if is_name(field) else ""
    return f". “{name}” typed alone opens {opens}" if opens else ""


def in_its_words(field: Field, room: Room) -> Field:
    """Return a field that is a period called as the room calls one."""
    return field._replace(name=room.in_its_words(field.name)) if field.kind == "period" else field


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
            return f"a {field.name}{f', or {field.missing}' if field.missing else ''}"
        case "plan":
            return "1 8:00-8:50, 2 8:56-9:46, free 11:30-12:10 · 2 3 1 · a plan's name · none"
        case _:
            return field.ask or f"a {field.name}"


def is_name(field: Field | None) -> bool:
    """Tell whether a value is what something is called: it is asked about before it is changed."""
    return field is not None and field.kind == "text" and field.key == "name"
