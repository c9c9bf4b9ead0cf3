"""What is another in a room than it was, each in words: for whoever took a change of it back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import cast

from filmrack.domain.clock import span_words, whole_day
from filmrack.domain.room import Room
from filmrack.domain.roomchange import (
    KeyPath,
    RoomEntry,
    RoomValues,
    entries_of,
    value_at,
    values_of,
)
from filmrack.domain.roomfields import (
    FIRST_LETTER,
    FIRST_WEEK,
    INITIALS,
    LETTERS,
    MATERIALS,
    NAME,
    PERIOD_WORD,
    RULE_FIELDS,
    TABLES,
    WEEKDAYS_TAUGHT,
    WEEKS,
    ZONE,
    Field,
    Table,
)
from filmrack.domain.roomtyped import shown

_SINGLE: tuple[tuple[Field, KeyPath], ...] = (
    *((field, (field.key,)) for field in (NAME, ZONE, PERIOD_WORD)),
    *(
        (field, ("timetable", field.key))
        for field in (WEEKDAYS_TAUGHT, LETTERS, FIRST_LETTER, WEEKS, FIRST_WEEK)
    ),
    *((field, ("materials", field.key)) for field in MATERIALS),
    *((field, ("rules", field.key)) for field in RULE_FIELDS),
    (INITIALS, ("labels", INITIALS.key)),
)


def told_again(room: Room, was: Room) -> list[str]:
    """Return what a room has again that it `was` without: `a loan: 5 days again, it was 7`.

    An entry that came or went is told as a whole: `rod 7 is gone again`.
    """
    now, before = values_of(room), values_of(was)
    # By the names of now: a renamed period is told once, and not at each rod, box and class of it.
    then = values_of(_in_words_of(room, was))
    told = []
    for field, path in _SINGLE:
        told += _one(
            room.in_its_words(field.name), field, value_at(now, path), value_at(before, path)
        )
    for key, table in TABLES.items():
        known = before if key == "periods" else then
        for words in _of_a_list(table, entries_of(now, key), entries_of(known, key)):
            told.append(room.in_its_words(words))
    told += _plans(now, then)
    return told


def _in_words_of(room: Room, was: Room) -> Room:
    names = {period.number: period.name for period in room.periods}
    periods = (each._replace(name=names.get(each.number, each.name)) for each in was.periods)
    return was._replace(periods=tuple(periods), period_word=room.period_word)


def _one(called: str, field: Field, value: object, was: object) -> list[str]:
    if value == was:
        return []
    return [f"{called}: {shown(field, value)} again, it was {shown(field, was)}"]


def _of_a_list(table: Table, now: Sequence[RoomEntry], was: Sequence[RoomEntry]) -> Iterator[str]:
    after = {table.name_of(entry): entry for entry in now}
    before = {table.name_of(entry): entry for entry in was}
    gone = [before[name] for name in before if name not in after]
    back = [after[name] for name in after if name not in before]
    if len(gone) == len(back) == 1:  # its days or its name are other ones: it is the same entry
        yield from _of_an_entry(table, back.pop(), gone.pop())
    yield from (f"{_called(table, entry)} is gone again" for entry in gone)
    yield from (f"{_called(table, entry)} is there again" for entry in back)
    for name, entry in after.items():
        if name in before:
            yield from _of_an_entry(table, entry, before[name])


def _called(table: Table, entry: RoomEntry) -> str:
    """Return an entry as people call it; days by their date too, for many have one name."""
    called = table.called(entry)
    match table.key:
        case "days_off":
            first, last = cast(date, entry["first"]), cast(date, entry["last"])
            return f"the day off {span_words(first, last)} ({called})"
        case "one_offs":
            return f"the one-off day {whole_day(cast(date, entry['day']))} ({called})"
        case _:
            return called


def _of_an_entry(table: Table, entry: RoomEntry, was: RoomEntry) -> Iterator[str]:
    for field in table.fields:
        called = f"{table.called(entry)}, {field.name}"
        yield from _one(called, field, entry.get(field.key), was.get(field.key))


def _plans(now: RoomValues, then: RoomValues) -> Iterator[str]:
    path = ("timetable", "plans")
    plans, before = cast(RoomValues, value_at(now, path)), cast(RoomValues, value_at(then, path))
    field = Field("", "", "plan")
    for name in dict.fromkeys((*plans, *before)):
        yield from _one(f"plan {name}", field, plans.get(name), before.get(name))
