from __future__ import annotations

import re
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import hypothesis.strategies as st
import pytest
from hypothesis import given

import filmrack
from filmrack.domain.clock import clock, clock_or_dash, minutes_between, read_moment
from filmrack.domain.refusal import Refused

CHICAGO = ZoneInfo("America/Chicago")
NOW = datetime(2026, 11, 17, 16, 36, tzinfo=UTC)


@pytest.mark.parametrize(
    ("hours_ago", "shown"),
    [
        (0, "10:36"),
        (24, "Mon 16 Nov 10:36"),
        (24 * 365, "Mon 17 Nov 2025 10:36"),
    ],
)
def test_a_moment_is_shown_no_longer_than_it_needs(hours_ago: int, shown: str):
    moment = NOW - timedelta(hours=hours_ago)
    assert clock(moment, CHICAGO, NOW) == clock_or_dash(moment, CHICAGO, NOW) == shown


def test_a_moment_that_nobody_can_tell_is_a_dash():
    assert clock_or_dash(None, CHICAGO, NOW) == "–"


@pytest.mark.parametrize(
    ("typed", "moment"),
    [
        ("10:31", "2026-11-17T16:31Z"),
        ("9:05", "2026-11-17T15:05Z"),
        (" 2026-11-17T10:31 ", "2026-11-17T16:31Z"),
        ("2026-11-17 10:31:59.9", "2026-11-17T16:31:59Z"),
        ("2026-11-17T10:31+01:00", "2026-11-17T09:31Z"),
        ("2026-11-17T10:31Z", "2026-11-17T10:31Z"),
        ("2026-11-17", "2026-11-17T06:00Z"),
        # Summer time ends on 2026-11-01 at 02:00 and begins on 2026-03-08 at 02:00 (IANA tz).
        ("2026-11-01T01:30", "2026-11-01T06:30Z"),
        ("2026-11-01T01:30-06:00", "2026-11-01T07:30Z"),
        ("2026-03-08T02:30", "2026-03-08T08:30Z"),
    ],
)
def test_a_moment_is_read_in_the_rooms_zone_unless_it_says_otherwise(typed: str, moment: str):
    assert read_moment(typed, CHICAGO, NOW) == datetime.fromisoformat(moment)


@pytest.mark.parametrize(
    ("now", "moment"),
    [
        ("2026-11-01T06:20Z", "2026-11-01T06:05Z"),  # 01:20 in summer time
        ("2026-11-01T07:04Z", "2026-11-01T06:05Z"),  # 01:04 in standard time: 01:05 is to come
        ("2026-11-01T07:20Z", "2026-11-01T07:05Z"),
        ("2026-11-01T20:00Z", "2026-11-01T07:05Z"),
    ],
)
def test_a_time_of_the_repeated_hour_is_the_last_one_that_is_past(now: str, moment: str):
    read = read_moment("01:05", CHICAGO, datetime.fromisoformat(now))
    assert read == datetime.fromisoformat(moment)


def test_today_is_the_rooms_day_and_not_greenwichs():
    late = datetime(2026, 11, 18, 3, 0, tzinfo=UTC)
    assert read_moment("20:15", CHICAGO, late) == datetime(2026, 11, 18, 2, 15, tzinfo=UTC)


@pytest.mark.parametrize(
    "typed", ["", "now", "25:00", "10:6x", "1:2", "2026-13-01", "yesterday 10:31", "\ud800", ":"]
)
def test_what_is_no_time_is_refused_with_how_to_write_one(typed: str):
    with pytest.raises(Refused, match="is no time: write it as"):
        read_moment(typed, CHICAGO, NOW)


@pytest.mark.parametrize("typed", ["0001-01-01T00:00+14:00", "9999-12-31T23:59"])
def test_the_ends_of_the_calendar_are_refused(typed: str):
    with pytest.raises(Refused, match="beyond all calendars"):
        read_moment(typed, CHICAGO, NOW)


@given(st.text(max_size=25))
def test_whatever_is_typed_is_a_moment_or_refused(typed: str):
    with suppress(Refused):
        assert read_moment(typed, CHICAGO, NOW).utcoffset() == timedelta(0)


@given(st.integers(-2_000_000_000, 7_000_000_000))
def test_what_was_shown_with_its_offset_reads_back(seconds: int):
    moment = datetime.fromtimestamp(seconds, UTC)
    assert read_moment(moment.astimezone(CHICAGO).isoformat(), CHICAGO, NOW) == moment


def test_minutes_are_whole():
    assert minutes_between(NOW, NOW + timedelta(minutes=3, seconds=59)) == 3


def test_the_form_of_days_and_times_is_settled_in_one_place():
    """Names of weekdays and months are written nowhere else; the axis of a picture has months."""
    formats = re.compile(r":%[aAbBdH]|:%Y-%m-%d[ }]")
    places = {
        path.name
        for path in Path(filmrack.__file__).parent.rglob("*.py")
        if formats.search(path.read_text("utf-8"))
    }
    in_files = {"errands.py", "sweep_end.py"}  # names of files that are written
    assert places - in_files <= {"clock.py", "term_figures.py"} | ROOM_FILE


ROOM_FILE = {"roomdays.py", "dayplan.py", "roomtext.py"}
"""Times as the room file writes them."""
