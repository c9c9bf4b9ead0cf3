from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import hypothesis.strategies as st
import pytest
from hypothesis import given, settings

from filmrack.domain.keeping import DAILY, Kept, age, outlived
from tests.conftest import TUESDAY_9_00

CHICAGO = ZoneInfo("America/Chicago")


def daily(days: float) -> Kept:
    return Kept(TUESDAY_9_00 - timedelta(days=days), DAILY)


def live(days: int) -> list[Kept]:
    """Make a backup each school day for so long, and let go each day what has had its time."""
    kept: list[Kept] = []
    for ago in range(days, -1, -1):
        now = TUESDAY_9_00 - timedelta(days=ago)
        if now.weekday() < 5:
            kept.append(Kept(now, DAILY))
            gone = outlived(kept, now, CHICAGO)
            kept = [each for each in kept if each not in gone]
    return kept


def test_after_four_years_there_are_seven_days_five_weeks_and_three_years():
    kept = [each.made.date().isoformat() for each in live(4 * 365)]
    assert kept == [
        "2024-12-31",
        "2025-12-31",
        "2026-10-23",
        "2026-10-30",
        "2026-11-06",
        "2026-11-11",
        "2026-11-12",
        "2026-11-13",
        "2026-11-16",
        "2026-11-17",
    ]


def test_the_newest_stays_however_old_it_is():
    assert outlived([daily(4000), daily(5000)], TUESDAY_9_00, CHICAGO) == [daily(5000)]


def test_of_two_daily_ones_of_a_day_the_later_stays():
    early, late = daily(0.1), daily(0.05)
    assert outlived([early, late], TUESDAY_9_00, CHICAGO) == [early]


def test_what_was_made_before_something_stays_for_seven_days():
    made = [Kept(TUESDAY_9_00 - timedelta(days=ago), "before-restore") for ago in (0, 1, 1.01, 6)]
    assert outlived(made, TUESDAY_9_00, CHICAGO) == []


def test_what_is_from_before_a_new_version_stays():
    old = Kept(TUESDAY_9_00 - timedelta(days=5000), "before-version-2-77")
    assert outlived([old, daily(0)], TUESDAY_9_00, CHICAGO) == []


def test_after_a_clock_set_back_what_is_still_to_come_stays():
    assert outlived([daily(-400), daily(0)], TUESDAY_9_00, CHICAGO) == []


def test_the_day_is_the_rooms_own():
    # 05:00 and 07:00 UTC are 23:00 of the day before and 01:00 in Chicago, six hours behind.
    before, after = (datetime(2026, 11, 17, hour, tzinfo=UTC) for hour in (5, 7))
    kept = [Kept(before, DAILY), Kept(after, DAILY)]
    assert outlived(kept, TUESDAY_9_00, CHICAGO) == []
    assert outlived(kept, TUESDAY_9_00, UTC) == [Kept(before, DAILY)]


@settings(max_examples=60)
@given(st.lists(st.integers(-500, 4000), min_size=1), st.integers(0, 3000))
def test_a_backup_that_had_its_time_is_never_the_newest_and_few_stay(hours: list[int], days: int):
    kept = [Kept(TUESDAY_9_00 - timedelta(hours=each), DAILY) for each in hours]
    now = TUESDAY_9_00 + timedelta(days=days)
    gone = outlived(kept, now, CHICAGO)
    stay = {each for each in kept if each not in gone}
    assert max(kept) in stay
    assert len({each for each in stay if each.made <= now}) <= 7 + 5 + 3


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0, "less than a minute old"),
        (1, "1 minute old"),
        (119, "1 hour old"),
        (60 * 47, "1 day old"),
        (60 * 24 * 364, "364 days old"),
        (60 * 24 * 800, "2 years old"),
        (-5, "dated in a time to come"),
    ],
)
def test_the_age_of_a_backup_is_said_in_words(minutes: int, words: str):
    assert age(TUESDAY_9_00 - timedelta(minutes=minutes), TUESDAY_9_00) == words
