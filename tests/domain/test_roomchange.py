"""Changing one thing of a room is changing it in the room file."""

from __future__ import annotations

import tomllib
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filmrack.domain.default_room import default_room
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.roomchange import (
    entries_of,
    problem_with,
    values_of,
    with_entry,
    with_field,
    with_letters,
    with_value,
    with_weeks,
    without,
)
from filmrack.domain.roomfields import MATERIALS, RULE_FIELDS, TABLES
from filmrack.domain.roomfile import examine, in_order
from filmrack.domain.roomtext import RULES, room_text
from filmrack.domain.roomtyped import shown, typed
from filmrack.domain.roomusual import usual
from tests.domain.rooms import rooms

TODAY = date(2026, 11, 17)
ROOM = default_room("America/Chicago", TODAY, periods=6)


def read(text: str) -> Room | None:
    return examine(text.encode()).room


@given(rooms(), st.integers(0, 400))
def test_a_number_changed_is_the_same_number_in_the_room_file(room: Room, days: int):
    now = f"box_school_days = {room.rules.box_school_days} "
    text = room_text(room)
    assert now in text
    changed = with_value(room, ("rules", "box_school_days"), days)
    assert changed == read(text.replace(now, f"box_school_days = {days} "))


@given(rooms(), st.data())
def test_every_value_typed_as_it_is_shown_leaves_the_room_as_it_is(room: Room, data: st.DataObject):
    values = values_of(room)
    table = TABLES[data.draw(st.sampled_from([key for key in TABLES if values.get(key)]))]
    entry = data.draw(st.sampled_from(entries_of(values, table.key)))
    field = data.draw(st.sampled_from(table.fields))
    value = entry.get(field.key)
    if field.kind not in ("plan", "period"):
        value = typed(field, shown(field, value))
    assert with_field(room, table.key, table.name_of(entry), field.key, value) == in_order(room)


@given(rooms(), st.data())
def test_what_is_removed_and_added_again_is_as_it_was(room: Room, data: st.DataObject):
    keys = ("days_off", "one_offs", "papers")
    filled = [key for key in keys if values_of(room).get(key)]
    if not filled:
        return
    key = data.draw(st.sampled_from(filled))
    entry = data.draw(st.sampled_from(entries_of(values_of(room), key)))
    less = without(room, key, TABLES[key].name_of(entry))
    assert less != in_order(room)
    again = with_entry(less, key, entry)
    if key == "papers":  # their order is the order in which they were added
        assert set(again.materials.more_papers) == set(room.materials.more_papers)
    else:
        assert again == in_order(room)


@given(rooms(), st.data())
def test_a_period_takes_its_box_and_classes_with_it(room: Room, data: st.DataObject):
    if len(room.periods) == 1:
        return
    going = data.draw(st.sampled_from(room.periods))
    left = without(room, "periods", (str(going.number),))
    assert going.number not in {one.number for one in left.periods}
    assert len(left.rods) == len(room.rods)
    assert all(box.period != going.number for box in left.boxes)
    plans: list[Any] = [*left.timetable.plans.values()]
    assert all(slot.period != going.number for plan in plans for slot in plan)


def test_every_rule_and_material_of_the_room_file_has_a_name_at_the_desk():
    values: dict[str, Any] = tomllib.loads(room_text(ROOM))
    assert {field.key for field in RULE_FIELDS} == set(RULES) == set(values["rules"])
    assert {field.key for field in MATERIALS} == set(values["materials"])
    lists = {key for key, value in values.items() if isinstance(value, list)}
    assert lists == set(TABLES)
    for key in lists:
        for entry in values[key]:
            assert set(entry) <= {field.key for field in TABLES[key].fields}


def test_what_is_usual_for_a_new_rod_is_a_rod():
    entry: dict[str, object] = {}
    for field in TABLES["rods"].fields:
        alone = usual(ROOM, "rods", entry, field.key, TODAY)
        entry[field.key] = None if alone == "anyone" else typed(field, alone)
        assert problem_with(ROOM, "rods", entry, field.key) is None
    assert with_entry(ROOM, "rods", entry).rods[-1] == ROOM.rods[-1]._replace(number=7, period=None)


def test_what_is_usual_for_a_term_is_the_next_half_year():
    assert usual(ROOM, "terms", {}, "code", TODAY) == "27S"
    assert usual(ROOM, "terms", {"code": "27S"}, "starts", TODAY) == "2027-01-01"
    assert usual(ROOM, "terms", {"code": "27W"}, "starts", TODAY) == ""


def test_a_mistake_in_a_list_is_named_by_what_people_call_the_entry():
    with pytest.raises(Refused, match="rod 3, positions: give a whole number from 1 to 99"):
        with_field(ROOM, "rods", ("3",), "positions", 100)
    with pytest.raises(Refused, match=r"rod 1, number: give one that no other has$"):
        with_field(ROOM, "rods", ("2",), "number", 1)
    with pytest.raises(Refused, match="there no more"):
        with_field(ROOM, "rods", ("7",), "positions", 10)


def test_day_letters_begin_with_the_classes_there_are_and_go_again():
    lettered = with_letters(ROOM, list("ABCDEF"), date(2026, 8, 24))
    usual_plan = ROOM.timetable.plans["mon"]
    assert [lettered.timetable.plans[letter] for letter in "ABCDEF"] == [usual_plan] * 6
    assert lettered.timetable.days.letter(date(2026, 8, 25)) == "B"
    assert with_letters(lettered, [], None).timetable.days.rotation is None


def test_week_letters_part_each_weekday_and_join_it_again():
    two = with_weeks(ROOM, ["A", "B"], date(2026, 9, 9))
    assert "mon" not in two.timetable.plans
    assert two.timetable.plans["mon A"] == two.timetable.plans["mon B"]
    other = with_value(two, ("timetable", "plans", "mon B"), ["2 08:00-08:50"])
    assert len(other.timetable.plan_on(date(2026, 9, 7))) == 6
    assert len(other.timetable.plan_on(date(2026, 9, 14))) == 1
    assert with_weeks(other, [], None) == in_order(ROOM)
    with pytest.raises(Refused, match="keep one of the two"):
        with_letters(two, ["C"], TODAY)
