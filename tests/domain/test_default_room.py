from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from filmrack.domain.default_room import default_room
from filmrack.domain.refusal import Refused
from filmrack.domain.roomproblems import room_problems


def test_a_room_begins_with_a_rod_of_ten_for_each_of_six_periods():
    room = default_room("America/Chicago", date(2026, 11, 17))
    assert [(rod.positions, rod.period) for rod in room.rods] == [(10, n) for n in range(1, 7)]
    assert [box.period for box in room.boxes] == [1, 2, 3, 4, 5, 6]
    assert room_problems(room) == []


def test_its_lessons_take_50_minutes_from_eight_with_6_between():
    room = default_room("Europe/Berlin", date(2026, 11, 17))
    plan = room.timetable.plan_on(date(2026, 11, 17))
    assert [f"{slot.starts:%H:%M}-{slot.ends:%H:%M}" for slot in plan] == [
        "08:00-08:50",
        "08:56-09:46",
        "09:52-10:42",
        "10:48-11:38",
        "11:44-12:34",
        "12:40-13:30",
    ]
    assert room.timetable.plan_on(date(2026, 11, 21)) == ()  # a Saturday
    meeting = room.timetable.meeting_at(datetime(2026, 11, 17, 7, 0, tzinfo=UTC))
    assert meeting is not None  # Berlin is at UTC+1 in winter
    assert meeting.period == 1


def test_a_zone_that_nobody_knows_is_refused():
    with pytest.raises(Refused, match="time zone"):
        default_room("Mars/Olympus", date(2026, 11, 17))


def test_a_room_may_begin_with_other_numbers():
    room = default_room(
        "Europe/Berlin", date(2026, 11, 17), periods=8, positions=12, period_word="block"
    )
    assert [(rod.positions, rod.period) for rod in room.rods] == [(12, n) for n in range(1, 9)]
    assert room.period_word == "block"


def test_a_word_for_a_period_that_is_too_long_is_refused_with_how_long_it_may_be():
    with pytest.raises(Refused, match=r"has 21 letters: take one of at most 20$"):
        default_room("UTC", date(2026, 11, 17), period_word="b" * 21)


def test_more_periods_than_a_day_holds_are_refused():
    # 08:00 to midnight are 960 minutes: 17 lessons of 50 with 16 breaks of 6 take 946.
    assert len(default_room("UTC", date(2026, 11, 17), periods=17).periods) == 17
    with pytest.raises(Refused, match="do not fit"):
        default_room("UTC", date(2026, 11, 17), periods=18)
