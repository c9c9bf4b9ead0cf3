from datetime import UTC, date, datetime, timedelta

import pytest

from filmrack.domain.clock_doubt import doubt
from filmrack.domain.default_room import default_room

FRIDAY = datetime(2026, 11, 13, 21, 0, tzinfo=UTC)
TIMETABLE = default_room("America/Chicago", date(2026, 11, 13)).timetable


def said(*, newest: datetime | None = None, alive: datetime | None = None, now: datetime) -> str:
    return doubt(newest, alive, now, TIMETABLE) or "believed"


def test_a_new_file_has_nothing_to_doubt_a_clock_by() -> None:
    assert said(now=FRIDAY) == "believed"


@pytest.mark.parametrize("seconds", [0, 60])
def test_two_machines_may_differ_by_a_minute(seconds: int) -> None:
    ahead = FRIDAY + timedelta(seconds=seconds)
    assert said(newest=ahead, alive=ahead, now=FRIDAY) == "believed"


def test_a_clock_behind_the_newest_entry_is_doubted() -> None:
    words = said(newest=FRIDAY + timedelta(seconds=61), now=FRIDAY)
    assert words == "something was entered at 15:01, which is still to come"


def test_a_clock_behind_the_last_open_desk_is_doubted() -> None:
    assert "a desk was open at" in said(alive=FRIDAY + timedelta(days=2), now=FRIDAY)


def test_a_weekend_without_a_desk_is_nothing_to_ask_about() -> None:
    assert said(alive=FRIDAY, now=FRIDAY + timedelta(days=2, hours=17)) == "believed"


def test_two_school_days_without_a_desk_are_asked_about() -> None:
    assert "2 school days ago" in said(alive=FRIDAY, now=FRIDAY + timedelta(days=3, hours=17))


def test_a_clock_that_jumped_by_a_year_is_doubted() -> None:
    assert "school days ago" in said(alive=FRIDAY, now=FRIDAY + timedelta(days=365))
