from __future__ import annotations

from datetime import date, time

from hypothesis import given, settings

from filmrack.domain.dayplan import Slot
from filmrack.domain.default_room import default_room
from filmrack.domain.room import Binder, Period, Rod, Room
from filmrack.domain.roomcomments import up_to_date, without_comments
from filmrack.domain.roomfile import examine
from filmrack.domain.roomtext import room_text
from filmrack.domain.schooldays import DayOff
from filmrack.domain.timetable import Timetable
from tests.domain.rooms import rooms

OURS = """\
zone = "America/Chicago"   # since we moved
periods = [
  { number = 1, name = "Ant" },  # Mr Reed's
  # the noisy one
  { number = 2, name = "Bee" },
]
dryers = [{ number = 1 }]
rods = [
  { number = 1,   positions = 10, period = 1 },
  { number = 2, positions = 10, period = "bee" }, # bent
]
terms = [{ code = "26F", starts = "2026-08-01", ends = 2026-12-20 }]
days_off = [{ name = "Fair", first = 2026-11-02 }] # ask the office

[timetable.plans]
mon = ["Ant 08:00-09:00"] # early
# Tuesdays are for cleaning
wed = ["Bee 08:00-09:00"]
"""


def ours() -> Room:
    room = examine(OURS.encode()).room
    assert room is not None
    return room


def follow(room: Room, read: Room | None = None) -> str:
    text = up_to_date(OURS, room)
    assert examine(text.encode()).room == (read or room)
    assert "# since we moved" in text
    return text


def test_a_room_that_has_not_changed_is_given_back_as_it_was_written():
    assert up_to_date(OURS, ours()) == OURS


def test_a_room_without_a_file_is_written_afresh():
    room = default_room("America/Chicago", date(2026, 11, 17))
    assert up_to_date(None, room) == room_text(room)
    assert up_to_date("rods = [", room) == room_text(room)


def test_comments_stay_where_values_change():
    room = ours()
    text = follow(
        room._replace(
            name="Room 12",
            rods=(room.rods[0], room.rods[1]._replace(positions=8), Rod(3, 1, 5, None)),
            rules=room.rules._replace(process_minutes=40),
        )
    )
    assert '{ number = 2, positions = 8, period = "bee" }, # bent' in text
    assert "# since we moved" in text
    assert "# Tuesdays are for cleaning" in text
    assert "{ number = 1,   positions = 10, period = 1 }" in text
    assert "process_minutes = 40" in text


def test_what_goes_from_the_room_goes_from_its_file():
    room = ours()
    days = room.timetable.days._replace(days_off=())
    plans = {"mon": (Slot(1, time(8), time(9)),), "fri": (Slot(1, time(10), time(11)),)}
    text = follow(
        room._replace(
            periods=room.periods[:1],
            rods=room.rods[:1],
            timetable=Timetable(room.timetable.zone, plans, days),
        )
    )
    assert "Bee" not in text
    assert "Fair" not in text
    assert "# Mr Reed's" in text
    assert 'mon = ["Ant 08:00-09:00"] # early' in text


def test_a_day_off_that_is_added_leaves_the_others_as_written():
    room = ours()
    off = (*room.timetable.days.days_off, DayOff("Snow", date(2026, 12, 1), date(2026, 12, 2)))
    days = room.timetable.days._replace(days_off=off)
    text = follow(
        room._replace(timetable=Timetable(room.timetable.zone, room.timetable.plans, days))
    )
    assert '{ name = "Fair", first = 2026-11-02' in text
    assert "# ask the office" in text


def test_former_periods_are_not_in_a_room_file():
    room = ours()._replace(former_periods=(Period(9, "Gnu"),), binders=(Binder("26F", 1, 9),))
    assert follow(room, room._replace(former_periods=(), binders=(Binder("26F", 1),)))
    room = ours()._replace(former_periods=(Period(9, "Gnu"),))
    assert up_to_date(OURS, room) == OURS
    assert "Gnu" not in room_text(room)


@given(rooms(), rooms())
@settings(max_examples=30)
def test_any_room_can_become_any_other_and_keeps_a_persons_comments(before: Room, now: Room):
    text = room_text(before).replace("[rules]", "[rules]\n# ours alone", 1)
    changed = up_to_date(text, now)
    assert examine(changed.encode()).room == now
    assert "# ours alone" in changed


def test_a_comment_goes_and_its_line_stays():
    cleaned = without_comments(OURS, lambda comment: "Reed" in comment)
    assert cleaned == OURS.replace("  # Mr Reed's", "")


def test_a_mark_within_a_name_begins_no_comment():
    text = 'name = "Room # 9, Reed"  # Reed\n'
    assert without_comments(text, lambda comment: "Reed" in comment) == 'name = "Room # 9, Reed"\n'


def test_a_comment_after_one_that_is_kept_is_part_of_it():
    text = "# bent # Reed\n"
    assert without_comments(text, lambda comment: "bent" not in comment) == text
