"""Changing one thing of a room: through the room file's values and its check, or not at all."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from datetime import date
from typing import cast

from filmrack.domain.dayplan import DayPlan
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Period, Room
from filmrack.domain.roomfields import TABLES
from filmrack.domain.roomfile import examine_values
from filmrack.domain.roomproblems import Problem
from filmrack.domain.roomtext import room_text
from filmrack.domain.schooldays import WEEKDAYS
from filmrack.domain.timetable import Timetable, of_weekday

RoomValues = dict[str, object]
"""A room as its room file has it: values by their keys."""

RoomEntry = dict[str, object]
"""An entry of one of its lists, such as a rod."""

KeyPath = tuple[str, ...]
"""The keys that lead to a value outside the lists: `("rules", "process_minutes")`."""


def values_of(room: Room) -> RoomValues:
    """Return a room by the keys of its room file, every one of them given."""
    return tomllib.loads(room_text(room))


def value_at(values: RoomValues, path: KeyPath) -> object:
    """Return what stands at some keys, or None."""
    found: object = values
    for key in path:
        found = found.get(key) if isinstance(found, dict) else None
    return found


def entries_of(values: RoomValues, table: str) -> list[RoomEntry]:
    """Return the entries of a list."""
    return cast(list[RoomEntry], values.get(table, []))


def entry_named(values: RoomValues, table: str, name: Sequence[str]) -> RoomEntry:
    """Return the entry that is told apart by a name. Raises Refused when it is there no more."""
    for entry in entries_of(values, table):
        if TABLES[table].name_of(entry) == tuple(name):
            return entry
    raise Refused(f"that {TABLES[table].one} is there no more: look at the list again")


def with_value(room: Room, path: KeyPath, value: object) -> Room:
    """Return a room with another value at some keys; None leaves it out.

    Raises Refused for a room that does not hold together, as the room file's check does.
    """
    if path == ("period_word",):
        # Classes are written by their short names, which hang on this word.
        return _checked(values_of(room._replace(period_word=str(value))))
    values = values_of(room)
    _put(cast(RoomEntry, value_at(values, path[:-1])), path[-1], value)
    return _checked(values)


def with_letters(room: Room, letters: Sequence[str], first: date | None) -> Room:
    """Return a room with day letters in turn, the first one on a day; none where none are given.

    A letter without a plan has the classes of the first plan that has some. Raises Refused as
    `with_value` does.
    """
    values = values_of(room)
    timetable = cast(RoomValues, values["timetable"])
    _put(timetable, "letters", list(letters) or None)
    _put(timetable, "first_letter_on", first if letters else None)
    plans = cast(dict[str, object], timetable["plans"])
    usual = next((plan for plan in plans.values() if plan), [])
    for letter in letters:
        plans.setdefault(letter, usual)
    return _checked(values)


def with_weeks(room: Room, weeks: Sequence[str], first: date | None) -> Room:
    """Return a room with weeks of several kinds in turn, a day being in the first one; or of one.

    Each kind has the classes of every weekday as they are; with none given again, the first
    kind's are every week's. Raises Refused as `with_value` does.
    """
    values = values_of(room)
    timetable = cast(RoomValues, values["timetable"])
    plans = cast(dict[str, object], timetable["plans"])
    had = cast(list[str], timetable.get("weeks", []))
    _put(timetable, "weeks", list(weeks) or None)
    _put(timetable, "first_week_on", first if weeks else None)
    for day in WEEKDAYS:
        theirs = {week: plans.pop(f"{day} {week}") for week in had if f"{day} {week}" in plans}
        usual = plans.pop(day, next(iter(theirs.values()), None))
        if usual is None:
            continue
        if not weeks:
            plans[day] = usual
        for week in weeks:
            plans[f"{day} {week}"] = theirs.get(week, usual)
    return _checked(values)


def with_field(room: Room, table: str, name: Sequence[str], key: str, value: object) -> Room:
    """Return a room with another value in an entry of a list; None leaves it out.

    Raises Refused as `entry_named` and `with_value` do.
    """
    values = values_of(room)
    entry = entry_named(values, table, name)
    if table == "periods" and key == "name":
        # Rods, boxes and plans name their period: they follow the one that is called otherwise.
        renamed = tuple(
            Period(one.number, str(value)) if one.number == entry["number"] else one
            for one in room.periods
        )
        return _checked(values_of(room._replace(periods=renamed)))
    _put(entry, key, value)
    return _checked(values)


def with_entry(room: Room, table: str, entry: RoomEntry) -> Room:
    """Return a room with one entry more in a list. Raises Refused as `with_value` does."""
    values = values_of(room)
    values[table] = [*entries_of(values, table), _given(entry)]
    return _checked(values)


def problem_with(room: Room, table: str, entry: RoomEntry, key: str) -> str | None:
    """Return what to do about one value of an entry that is about to be added, or None."""
    values = values_of(room)
    values[table] = [*entries_of(values, table), _given(entry)]
    place = f"{table}[{len(entries_of(values, table))}].{key}"
    for problem in examine_values(values).problems:
        if problem.key == place or problem.key.startswith(f"{place}["):
            return problem.advice
    return None


def without(room: Room, table: str, name: Sequence[str]) -> Room:
    """Return a room without an entry of a list.

    With a period go its box and its classes, and its rods are anyone's; with a term its binders.
    Raises Refused as `entry_named` and `with_value` do.
    """
    values = values_of(room)
    entry = entry_named(values, table, name)
    values[table] = [one for one in entries_of(values, table) if one is not entry]
    if table == "periods":
        return _without_period(room, cast(int, entry["number"]))
    if table == "terms":
        values["binders"] = [
            one for one in entries_of(values, "binders") if one["term"] != entry["code"]
        ]
    return _checked(values)


def with_plan(room: Room, name: str, plan: list[str] | None) -> Room:
    """Return a room with another plan of a name; None takes the plan away.

    Raises Refused as `with_value` does.
    """
    return with_value(room, ("timetable", "plans", name), plan)


def is_used(room: Room, plan: str) -> bool:
    """Tell whether a day of the ordinary week, or of the rotation, runs a plan."""
    days = room.timetable.days
    if days.rotation is not None:
        return plan in days.rotation.letters
    weeks = days.weeks.letters if days.weeks else ()
    return any(plan in of_weekday(day, weeks) for day in days.weekdays)


def in_words(problem: Problem, values: RoomValues) -> str:
    """Return a mistake in the trade's words: `rod 3, positions: give a whole number …`."""
    found = re.fullmatch(r"([a-z_]+)\[([0-9]+)\]\.?([a-z_]*)(.*)", problem.key)
    key = problem.key
    if found is not None and found[1] in TABLES:
        table, nth = TABLES[found[1]], int(found[2])
        entries = entries_of(values, table.key)
        if nth <= len(entries):
            name = next((one.name for one in table.fields if one.key == found[3]), found[3])
            key = f"{table.called(entries[nth - 1])}, {name}{found[4]}"
    return str(problem._replace(key=key))


def _without_period(room: Room, number: int) -> Room:
    def left(plan: DayPlan) -> DayPlan:
        return tuple(slot for slot in plan if slot.period != number)

    timetable = room.timetable
    one_offs = tuple(
        one if isinstance(one.plan, str) else one._replace(plan=left(one.plan))
        for one in timetable.days.one_offs
    )
    smaller = room._replace(
        periods=tuple(one for one in room.periods if one.number != number),
        rods=tuple(one._replace(period=None) if one.period == number else one for one in room.rods),
        boxes=tuple(one for one in room.boxes if one.period != number),
        binders=tuple(
            one._replace(period=None) if one.period == number else one for one in room.binders
        ),
        timetable=Timetable(
            timetable.zone,
            {name: left(plan) for name, plan in timetable.plans.items()},
            timetable.days._replace(one_offs=one_offs),
        ),
    )
    return _checked(values_of(smaller))


def _put(table: RoomEntry, key: str, value: object) -> None:
    if value is None:
        table.pop(key, None)
    else:
        table[key] = value


def _given(entry: RoomEntry) -> RoomEntry:
    return {key: value for key, value in entry.items() if value is not None}


def _checked(values: RoomValues) -> Room:
    reading = examine_values(values)
    if reading.room is not None:
        return reading.room
    first, *others = reading.problems
    more = f" ({len(others)} more)" if others else ""
    raise Refused(f"the room stays as it is because of {in_words(first, values)}{more}")
