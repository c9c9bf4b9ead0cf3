from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.busiest import Busiest, Stretch, busiest_day
from filmrack.domain.timetable import Timetable

MONDAY = datetime(2026, 11, 16, 15, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)
SINCE, NOW = MONDAY - 14 * 24 * HOUR, MONDAY + 48 * HOUR
CHICAGO = Timetable(ZoneInfo("America/Chicago"), {})


def busiest(*stretches: Stretch) -> Busiest | None:
    return busiest_day(stretches, CHICAGO, SINCE, NOW)


def test_where_no_clip_was_on_a_roll_no_day_was_busy():
    assert busiest() is None
    assert busiest((SINCE - 2 * HOUR, SINCE)) is None


def test_pairs_that_were_on_rolls_at_once_are_counted_on_the_day_of_the_room():
    evening = datetime(2026, 11, 18, 3, 0, tzinfo=UTC)  # 21:00 on Tuesday in Chicago
    assert busiest((MONDAY, evening + HOUR), (evening, None)) == Busiest(date(2026, 11, 17), 2)


def test_a_pair_used_again_at_once_is_one_pair():
    assert busiest((MONDAY, MONDAY + HOUR), (MONDAY + HOUR, None)) == Busiest(date(2026, 11, 16), 1)


def test_what_was_on_a_roll_before_counts_from_the_first_day():
    assert busiest((SINCE - HOUR, None), (SINCE + HOUR, None)) == Busiest(date(2026, 11, 2), 2)


def test_a_busy_day_needs_what_is_not_there():
    assert Busiest(date(2026, 11, 16), 40).more_than(36) == 4
    assert Busiest(date(2026, 11, 16), 40).more_than(60) == 0


hours = st.integers(0, 380)


@settings(max_examples=60)
@given(st.lists(st.tuples(hours, st.none() | st.integers(1, 60)), max_size=12))
def test_it_is_the_most_that_a_look_each_half_hour_would_count(drawn):
    stretches = [
        (SINCE + first * HOUR, None if lasts is None else SINCE + (first + lasts) * HOUR)
        for first, lasts in drawn
    ]
    looks = (SINCE + n * HOUR / 2 for n in range(1, 2 * 16 * 24))
    most = max(
        sum(first <= look and (last is None or look < last) for first, last in stretches)
        for look in looks
    )
    found = busiest(*stretches)
    assert (found.at_once if found else 0) == most
