"""The lists of a room on the screen Room: their entries, and the questions for a new one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import partial

from filmrack.desk.day_off_words import ask_day_off
from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.row import RoomPlace, RoomRow
from filmrack.desk.room.value_row import asked_for, in_its_words, setting_row
from filmrack.desk.said import Said, capital
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room, period_named
from filmrack.domain.roomchange import (
    RoomEntry,
    entries_of,
    entry_named,
    problem_with,
    values_of,
    with_entry,
    with_field,
    without,
)
from filmrack.domain.roomfields import TABLES, Table
from filmrack.domain.roomtyped import shown, typed
from filmrack.domain.roomusual import usual

_FIXED = ("number", "code", "term")
"""Values by which other parts of the room, and codes on labels, know an entry."""


def list_rows(
    changing: Changing,
    section: str,
    key: str,
    *,
    titled: bool = True,
    adds_first: bool = False,
    also: Sequence[RoomRow] = (),
) -> Iterator[RoomRow]:
    """Return a row for each entry of a list, which Enter opens, and one that adds another.

    The latter comes first where a list grows all year; `also` are further ones that add some.
    """
    table = TABLES[key]
    one = changing.room.in_its_words(table.one)
    if titled:
        yield RoomRow(changing.room.in_its_words(_title(table)), heading=True)
    ask: Callable[[], Question] = partial(_ask, changing, table, {}, 0)
    if key == "days_off":
        ask = partial(ask_day_off, changing.session)
    adds = [RoomRow(f"add a {one} …", does=f"add a {one}", enter=ask), *also]
    entries = [
        _entry_row(changing, section, table, entry) for entry in entries_of(changing.values, key)
    ]
    yield from (*adds, *entries) if adds_first else (*entries, *adds)


def _entry_row(changing: Changing, section: str, table: Table, entry: RoomEntry) -> RoomRow:
    """Return the row of one entry."""
    name = table.name_of(entry)
    place = RoomPlace(section, (table.key, *name))
    return RoomRow(
        table.called(entry),
        _summary(changing, table, entry),
        "open it",
        lambda: place,
        remove=partial(_gone, changing, table, name),
    )


def entry_rows(changing: Changing, table: Table, name: tuple[str, ...]) -> Iterator[RoomRow]:
    """Return the rows of one entry's values. Raises Refused when it is there no more."""
    entry = entry_named(changing.values, table.key, name)
    called = table.called(entry)
    yield RoomRow(called, heading=True)
    remove = partial(_gone, changing, table, name)
    for field in table.fields:
        value = entry.get(field.key)
        if field.key in _FIXED:
            continue
        if field.kind == "period" and value is not None:
            found = changing.room.period_named(str(value))
            value = found.name if found else value
        put = partial(_put, table.key, name, field.key)
        yield setting_row(changing, field, value, put, whose=called, remove=remove)
    yield RoomRow(f"remove {called}"[:40], does="remove it", enter=remove, remove=remove)


def _put(table: str, name: tuple[str, ...], key: str, room: Room, value: object) -> Room:
    return with_field(room, table, name, key, value)


def _gone(changing: Changing, table: Table, name: tuple[str, ...]) -> Said:
    """Remove an entry of a list. Raises Refused where rolls would be stranded."""
    called = table.called(entry_named(changing.values, table.key, name))
    words = "removed"
    if table.key == "periods":
        words += ", with its box and its classes; its rods are for anyone"
    headline = capital(called)
    return changing.do(lambda room: without(room, table.key, name), headline, words)


def _summary(changing: Changing, table: Table, entry: RoomEntry) -> str:
    """Return what an entry says, in one line."""
    room = changing.room

    def said(key: str) -> str:
        return shown(table.field(key), entry.get(key))

    def whose() -> str:
        text = entry.get("period")
        found = period_named(str(text), room.periods, room.period_word) if text else None
        return found.name if found else "for anyone"

    match table.key:
        case "rods":
            dryer = f", dryer {entry['dryer']}" if len(room.dryers) > 1 else ""
            side = f"{entry['positions']} from the {entry['counted_from']}"
            return f"{whose()}, {side}, {said('spacing_mm')} apart{dryer}"
        case "dryers":
            height = said("clear_height_mm")
            return f"{entry['name']}, dial {said('dial_hours')}, {height} clear height"
        case "boxes" | "binders":
            return whose()
        case "terms":
            return f"{said('starts')} to {said('ends')}"
        case "days_off":
            first, last = said("first"), said("last")
            return first if first == last else f"{first} to {last}"
        case "one_offs":
            keeps = ", keeps its letter" if entry.get("keeps_letter") else ""
            return f"{said('day')}: {said('plan')}{keeps}"
        case "papers":
            return f"{entry['short_mm']} x {entry['long_mm']} mm"
        case _:
            return f"number {entry['number']}"


def _title(table: Table) -> str:
    plural = {
        "days_off": "days off",
        "one_offs": "one-off days",
        "boxes": "boxes",
        "papers": "papers of the room's own",
    }
    words = plural.get(table.key, f"{table.one}s")
    return capital(words)


def _ask(changing: Changing, table: Table, so_far: RoomEntry, nth: int) -> Question:
    """Ask for the next value of a new entry; with the last one it is added, and not before."""
    field = table.fields[nth]
    today = changing.today
    alone = usual(changing.room, table.key, so_far, field.key, today)

    def answer(text: str) -> Said | Question:
        entry = {**so_far, field.key: changing.read(field, text)}
        trial = {**_rest(changing, table, entry, nth + 1, today), **entry}
        advice = problem_with(changing.room, table.key, trial, field.key)
        if advice is not None:
            raise Refused(f"{advice}, or press Esc")
        if nth + 1 < len(table.fields):
            return _ask(changing, table, entry, nth + 1)
        called = table.called(entry)
        headline = capital(called)
        words = f"added: {_summary(changing, table, _values_like(changing, table, entry))}"
        return changing.do(lambda room: with_entry(room, table.key, entry), headline, words)

    words = field.ask
    if alone:
        words += f"{'; ' if words else ''}Enter alone: {alone}"
    return Question(
        alone or asked_for(in_its_words(field, changing.room)),
        answer,
        headline=changing.room.in_its_words(f"A new {table.one}: {field.name}?"),
        words=words,
        verbatim=True,
        usual=alone,
    )


def _values_like(changing: Changing, table: Table, entry: RoomEntry) -> RoomEntry:
    """Return a new entry as the room will have it, for words about it."""
    room = with_entry(changing.room, table.key, entry)
    return entry_named(values_of(room), table.key, table.name_of(entry))


def _rest(changing: Changing, table: Table, entry: RoomEntry, nth: int, today: date) -> RoomEntry:
    """Return what is usual for the values that are still to be asked for."""
    rest: RoomEntry = {}
    for field in table.fields[nth:]:
        alone = usual(changing.room, table.key, {**entry, **rest}, field.key, today)
        if alone and field.kind not in ("plan", "period"):
            rest[field.key] = typed(field, alone)
    return rest
