from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.dayplan import Slot
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import DayOff, OneOff, Rotation, SchoolDays, Term
from filmrack.domain.timetable import Meeting, Timetable, zone_named

ZONE = ZoneInfo("America/Chicago")
MONDAY = date(2026, 9, 14)

FIRST = Slot(1, time(8), time(8, 50))
SECOND = Slot(2, time(9), time(9, 50))
THIRD = Slot(3, time(12, 30), time(13, 20))
LATE_THIRD = Slot(3, time(14), time(14, 50))

PLANS = {
    "mon": (FIRST, SECOND, THIRD),
    "tue": (FIRST, LATE_THIRD),
    "wed": (FIRST, SECOND, THIRD),
    "thu": (FIRST, SECOND),
    "fri": (FIRST, SECOND, THIRD),
    "short": (Slot(1, time(8), time(8, 20)), Slot(2, time(8, 25), time(8, 45))),
}


def at(days: int, hour: int, minute: int = 0) -> datetime:
    """Return a moment by the room's wall, some days after the Monday."""
    return datetime.combine(MONDAY + timedelta(days=days), time(hour, minute), ZONE).astimezone(UTC)


@pytest.fixture
def timetable() -> Timetable:
    return Timetable(ZONE, PLANS)


def test_a_meeting_holds_its_start_and_not_its_end(timetable):
    first = Meeting(1, at(0, 8), at(0, 8, 50))
    assert timetable.meeting_at(at(0, 8)) == first
    assert timetable.meeting_at(at(0, 8, 49)) == first
    assert timetable.meeting_at(at(0, 8, 50)) is None
    assert timetable.last_meeting_before(at(0, 8, 50)) == first


def test_lunch_is_a_break_between_the_last_meeting_and_the_next(timetable):
    noon = at(0, 12)
    assert timetable.meeting_at(noon) is None
    assert timetable.last_meeting_before(noon) == Meeting(2, at(0, 9), at(0, 9, 50))
    assert timetable.next_meeting_after(noon) == Meeting(3, at(0, 12, 30), at(0, 13, 20))


def test_a_period_meets_at_the_time_of_the_day_it_meets_on(timetable):
    assert timetable.next_meeting_after(at(0, 13), 3) == Meeting(3, at(1, 14), at(1, 14, 50))
    assert timetable.next_meeting_after(at(0, 10), 2) == Meeting(2, at(2, 9), at(2, 9, 50))


def test_the_next_class_after_friday_is_on_monday_and_over_a_break_after_the_break():
    days = SchoolDays(days_off=(DayOff("fall break", date(2026, 9, 21), date(2026, 9, 25)),))
    assert Timetable(ZONE, PLANS).next_meeting_after(at(4, 15), 1) == Meeting(
        1, at(7, 8), at(7, 8, 50)
    )
    assert Timetable(ZONE, PLANS, days).next_meeting_after(at(4, 15), 1) == Meeting(
        1, at(14, 8), at(14, 8, 50)
    )


def test_on_a_one_off_day_the_named_plan_runs():
    days = SchoolDays(one_offs=(OneOff(MONDAY, "early release", "short"),))
    timetable = Timetable(ZONE, PLANS, days)
    assert timetable.school_day_ends(MONDAY) == at(0, 8, 45)
    assert timetable.next_meeting_after(at(0, 8, 30), 3) == Meeting(3, at(1, 14), at(1, 14, 50))


def test_on_a_one_off_day_with_its_own_slots_these_run():
    days = SchoolDays(one_offs=(OneOff(date(2026, 9, 19), "open day", (LATE_THIRD,)),))
    timetable = Timetable(ZONE, PLANS, days)
    assert timetable.meetings_on(date(2026, 9, 19)) == (Meeting(3, at(5, 14), at(5, 14, 50)),)


def test_a_rotation_runs_the_plan_of_the_day_s_letter():
    days = SchoolDays(
        rotation=Rotation(("A", "B"), MONDAY),
        days_off=(DayOff("off", MONDAY + timedelta(days=1), MONDAY + timedelta(days=1)),),
    )
    timetable = Timetable(ZONE, {"A": (FIRST,), "B": (LATE_THIRD,)}, days)
    runs = [[slot.period for slot in timetable.plan_on(MONDAY + timedelta(n))] for n in range(8)]
    assert runs == [[1], [], [3], [1], [3], [], [], [1]]


def test_a_period_that_never_meets_again_has_no_next_and_one_that_never_met_has_no_last(timetable):
    assert timetable.next_meeting_after(at(0, 8), 9) is None
    assert timetable.last_meeting_before(at(0, 8), 9) is None
    over = Timetable(ZONE, PLANS, SchoolDays(terms=(Term("26F", MONDAY, MONDAY),)))
    assert over.next_meeting_after(at(0, 13)) is None
    assert over.last_meeting_before(at(0, 8)) is None


def test_school_days_since_change_at_the_room_s_midnight(timetable):
    friday_evening = at(4, 23, 59)
    assert timetable.school_days_since(friday_evening, at(6, 23, 59)) == 0
    assert timetable.school_days_since(friday_evening, at(7, 0)) == 1
    # 23:59 in the room is 04:59 UTC on Saturday: the room's date counts, not that of UTC.
    assert timetable.local_date(friday_evening) == date(2026, 9, 18)


def test_an_aware_moment_of_any_zone_means_the_same(timetable):
    berlin = at(0, 8, 10).astimezone(ZoneInfo("Europe/Berlin"))
    assert timetable.meeting_at(berlin) == timetable.meeting_at(at(0, 8, 10))


def test_a_moment_without_a_zone_is_a_mistake_in_the_program(timetable):
    with pytest.raises(ValueError, match="no time zone"):
        timetable.meeting_at(at(0, 8).replace(tzinfo=None))


def test_by_the_end_of_the_day_a_roll_is_left_behind_when_the_last_class_ends(timetable):
    assert timetable.left_behind_from(at(0, 8, 40), 1, "day_end") == at(0, 13, 20)
    assert timetable.left_behind_from(at(0, 6), 1, "day_end") == at(0, 13, 20)


def test_a_roll_hung_after_the_last_class_or_on_a_saturday_has_until_the_next_day_s_end(timetable):
    assert timetable.left_behind_from(at(0, 13, 20), 1, "day_end") == at(1, 14, 50)
    assert timetable.left_behind_from(at(5, 11), 1, "day_end") == at(7, 13, 20)


def test_by_the_next_class_a_roll_is_left_behind_when_its_owner_had_that_class(timetable):
    assert timetable.left_behind_from(at(0, 9, 40), 2, "next_class") == at(2, 9, 50)
    assert timetable.left_behind_from(at(0, 9), 2, "next_class") == at(2, 9, 50)
    assert timetable.left_behind_from(at(0, 8, 55), 2, "next_class") == at(0, 9, 50)


def test_without_a_class_to_come_the_end_of_the_day_counts():
    over = Timetable(ZONE, PLANS, SchoolDays(terms=(Term("26F", MONDAY, MONDAY),)))
    assert over.left_behind_from(at(0, 12, 40), 3, "next_class") == at(0, 13, 20)
    assert over.left_behind_from(at(0, 14), 3, "next_class") is None


def test_a_plan_that_is_named_and_not_there_is_refused_by_its_name():
    with pytest.raises(Refused, match=r"^day B has no plan .* “B”: add that plan"):
        Timetable(ZONE, {"A": ()}, SchoolDays(rotation=Rotation(("A", "B"), MONDAY)))
    one_off = OneOff(MONDAY, "pep rally", "rally")
    with pytest.raises(Refused, match=r"pep rally on 2026-09-14 has no plan"):
        Timetable(ZONE, PLANS, SchoolDays(one_offs=(one_off,)))


def test_classes_on_a_weekday_without_school_are_refused_unless_a_one_off_day_runs_them():
    saturday = {"sat": (FIRST,)}
    with pytest.raises(Refused, match=r"cannot meet on sat .* mon tue wed thu fri: add sat"):
        Timetable(ZONE, saturday)
    assert Timetable(ZONE, saturday, SchoolDays(weekdays=("sat",))).plan_on(date(2026, 9, 19))
    one_off = OneOff(MONDAY, "a Saturday on Monday", "sat")
    assert Timetable(ZONE, saturday, SchoolDays(one_offs=(one_off,))).plan_on(MONDAY) == (FIRST,)


@pytest.mark.parametrize("name", ["Mars/Olympus", "", "../etc/passwd", "America"])
def test_a_time_zone_that_is_none_is_refused(name):
    with pytest.raises(Refused, match="is no time zone"):
        zone_named(name)


def test_a_time_zone_is_found_by_its_name():
    assert zone_named("Europe/Berlin") == ZoneInfo("Europe/Berlin")


minutes = st.integers(0, 20 * 24 * 60).map(lambda ahead: at(0, 0) + timedelta(minutes=ahead))


@settings(max_examples=80, deadline=None)
@given(minutes, st.sampled_from([None, 1, 2, 3]))
def test_last_now_and_next_agree_with_looking_through_all_meetings(moment, period):
    timetable = Timetable(ZONE, PLANS)
    every = [
        meeting
        for n in range(-10, 40)
        for meeting in timetable.meetings_on(MONDAY + timedelta(days=n))
    ]
    those = [meeting for meeting in every if period in (None, meeting.period)]
    now = [meeting for meeting in every if meeting.starts <= moment < meeting.ends]
    assert timetable.meeting_at(moment) == (now[0] if now else None)
    assert timetable.last_meeting_before(moment, period) == max(
        (meeting for meeting in those if meeting.ends <= moment), key=lambda m: m.ends
    )
    assert timetable.next_meeting_after(moment, period) == min(
        (meeting for meeting in those if meeting.starts > moment), key=lambda m: m.starts
    )


@settings(max_examples=60, deadline=None)
@given(minutes, st.sampled_from([1, 2, 3]), st.sampled_from(["day_end", "next_class"]))
def test_no_roll_is_left_behind_before_it_was_hung(moment, period, rule):
    left = Timetable(ZONE, PLANS).left_behind_from(moment, period, rule)
    assert left is not None
    assert left > moment
