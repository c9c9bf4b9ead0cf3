"""Wall time against the IANA time zone database (as zoneinfo reads it) and RFC 5545."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from filmrack.domain.dayplan import Slot
from filmrack.domain.schooldays import WEEKDAYS, SchoolDays
from filmrack.domain.timetable import Meeting, Timetable, wall_to_utc

NEW_YORK = ZoneInfo("America/New_York")
EVERY_DAY = {weekday: (Slot(1, time(8), time(9)),) for weekday in WEEKDAYS}


def changes_of(zone: ZoneInfo, year: int) -> list[tuple[datetime, timedelta]]:
    """Return each moment of a year at which the zone's offset changes, and by how much."""
    half_hour = timedelta(minutes=30)
    start = datetime(year, 1, 1, tzinfo=UTC)
    changes: list[tuple[datetime, timedelta]] = []
    for n in range(365 * 48):
        before, after = (start + n * half_hour).astimezone(zone), (start + (n + 1) * half_hour)
        then, now = before.utcoffset(), after.astimezone(zone).utcoffset()
        assert then is not None
        assert now is not None
        if then != now:
            changes.append((after, now - then))
    return changes


def test_a_time_that_occurs_twice_means_the_first():
    # RFC 5545 section 3.3.5: "TZID=America/New_York:20071104T013000" indicates November 4, 2007
    # at 1:30 A.M. EDT (UTC-04:00).
    assert wall_to_utc(date(2007, 11, 4), time(1, 30), NEW_YORK) == datetime(
        2007, 11, 4, 5, 30, tzinfo=UTC
    )
    assert wall_to_utc(date(2007, 11, 4), time(1, 30, fold=1), NEW_YORK) == datetime(
        2007, 11, 4, 5, 30, tzinfo=UTC
    )


def test_a_time_that_spring_skips_moves_forward():
    # RFC 5545 section 3.3.5: "TZID=America/New_York:20070311T023000" indicates March 11, 2007 at
    # 3:30 A.M. EDT (UTC-04:00), one hour after 1:30 A.M. EST (UTC-05:00).
    assert wall_to_utc(date(2007, 3, 11), time(2, 30), NEW_YORK) == datetime(
        2007, 3, 11, 7, 30, tzinfo=UTC
    )


@pytest.mark.parametrize(
    "name",
    ["America/Chicago", "Europe/Berlin", "Australia/Lord_Howe", "America/St_Johns", "Asia/Kolkata"],
)
def test_around_every_change_of_a_year_the_wall_reads_what_it_should(name):
    zone = ZoneInfo(name)
    for change, shift in changes_of(zone, 2026):
        minute = timedelta(minutes=1)
        before = (change - minute).astimezone(zone).replace(tzinfo=None)
        if shift > timedelta(0):
            skipped = before + minute
            moment = wall_to_utc(skipped.date(), skipped.time(), zone)
            assert moment == change
            assert moment.astimezone(zone).replace(tzinfo=None) == skipped + shift
        else:
            assert wall_to_utc(before.date(), before.time(), zone) == change - minute
            twice = before + minute + shift
            assert wall_to_utc(twice.date(), twice.time(), zone) == change + shift


@pytest.mark.parametrize("name", ["America/Chicago", "Europe/Berlin", "Australia/Lord_Howe"])
def test_class_starts_at_eight_by_the_wall_all_year(name):
    zone = ZoneInfo(name)
    timetable = Timetable(zone, EVERY_DAY, SchoolDays(WEEKDAYS))
    day = date(2026, 1, 1)
    while day.year == 2026:
        (meeting,) = timetable.meetings_on(day)
        assert meeting.starts.tzinfo is UTC
        assert meeting.starts.astimezone(zone).replace(tzinfo=None) == datetime.combine(
            day, time(8)
        )
        assert timetable.local_date(meeting.starts) == day
        day += timedelta(days=1)


@pytest.mark.parametrize("name", ["America/Chicago", "Europe/Berlin"])
def test_over_each_change_of_a_year_the_next_class_comes_an_hour_sooner_or_later(name):
    zone = ZoneInfo(name)
    timetable = Timetable(zone, EVERY_DAY, SchoolDays(WEEKDAYS))
    changes = changes_of(zone, 2026)
    assert len(changes) == 2
    for change, shift in changes:
        day = timetable.local_date(change)
        eve = wall_to_utc(day - timedelta(days=1), time(8), zone)
        upcoming = timetable.next_meeting_after(eve)
        assert upcoming is not None
        assert upcoming.starts - eve == timedelta(days=1) - shift
        assert timetable.left_behind_from(eve, 1, "next_class") == upcoming.ends
        assert timetable.school_days_since(eve, upcoming.starts) == 1


def test_a_file_opened_in_another_zone_keeps_its_room_s_day():
    # IANA: Pacific/Kiritimati is UTC+14, so its Tuesday 08:00 is Monday 18:00 UTC.
    zone = ZoneInfo("Pacific/Kiritimati")
    timetable = Timetable(zone, {"tue": (Slot(1, time(8), time(9)),)})
    monday_evening = datetime(2026, 9, 14, 18, 0, tzinfo=UTC)
    assert timetable.meeting_at(monday_evening) == Meeting(
        1, monday_evening, monday_evening + timedelta(hours=1)
    )
