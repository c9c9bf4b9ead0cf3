"""Daylight-saving changes, midnight and other zones, through the commands.

The moments of change are those of the IANA time zone database, as zoneinfo reads it.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from tests.cli.conftest import Shell
from tests.outside.test_timetable_against_zoneinfo import changes_of

CHICAGO = ZoneInfo("America/Chicago")
(SPRING, _), (AUTUMN, _) = changes_of(CHICAGO, 2026)
MINUTE, HOUR, DAY = timedelta(minutes=1), timedelta(hours=1), timedelta(days=1)


def local(year: int, month: int, day: int, hour: int, minute: int) -> datetime:
    return datetime(year, month, day, hour, minute, tzinfo=CHICAGO).astimezone(UTC)


@pytest.fixture(params=[SPRING, AUTUMN], ids=["spring", "autumn"])
def change(request: pytest.FixtureRequest, shell: Shell) -> datetime:
    shell.type("term", "open", "26S")
    moment: datetime = request.param
    return moment


def test_minutes_on_the_rod_are_minutes_whatever_the_wall_says(shell: Shell, change: datetime):
    had: list[list[float]] = []
    for clip, start in (("1", change - 7 * DAY - 20 * MINUTE), ("2", change - 20 * MINUTE)):
        shell.stands_at(start)
        flip_at = shell.json("hang", "olu", "--clip", clip)["flip_at"]
        had.append([(datetime.fromisoformat(flip_at) - start) / MINUTE])
        for minutes in (19, 21, 45, 59, 61, 120):
            shell.stands_at(start + minutes * MINUTE)
            had[-1].append(shell.json("find", "clip", clip)[0]["dryer_minutes"])
    usual, around_the_change = had
    assert around_the_change == usual


def test_a_moment_read_back_is_the_moment_that_was_told(shell: Shell, change: datetime):
    shell.stands_at(change + 2 * HOUR)
    told = [change + n * 20 * MINUTE for n in range(-3, 4)]
    for clip, moment in enumerate(told, 1):
        shell.type(
            "--at", moment.astimezone(CHICAGO).isoformat(), "hang", "olu", "--clip", str(clip)
        )
        assert shell.code == 0
    for clip, moment in enumerate(told, 1):
        (entry, *_) = shell.json("show", "clip", str(clip))["ledger"]
        assert datetime.fromisoformat(entry["at"]) == moment
        just_before = (moment - MINUTE).astimezone(CHICAGO).isoformat()
        assert len(shell.json("--at", just_before, "find", "olu")) == clip - 1
        assert len(shell.json("--at", moment.isoformat(), "find", "olu")) == clip


def test_a_time_of_the_repeated_hour_is_the_one_just_past(shell: Shell):
    # 01:35 comes twice: in summer time (-05:00) and, an hour later, in standard time (-06:00).
    for clip, now in (("1", AUTUMN - 20 * MINUTE), ("2", AUTUMN + 40 * MINUTE)):
        shell.stands_at(now)
        shell.type("--at", "01:35", "hang", "olu", "--clip", clip)
        (entry, *_) = shell.json("show", "clip", clip)["ledger"]
        assert datetime.fromisoformat(entry["at"]) == now - 5 * MINUTE


def test_a_weekend_with_a_change_is_no_school_day(shell: Shell):
    shell.stands_at(local(2026, 10, 30, 9, 0))  # Friday
    shell.type("hang", "olu", "--clip", "17")
    shell.type("box", "17")
    room = shell.type("room", "export").replace("box_school_days = 5", "box_school_days = 0")
    shell.type("room", "apply", shell.write("room.toml", room))
    shell.stands_at(local(2026, 11, 1, 23, 59))  # Sunday, after the change: Monday in Greenwich
    assert shell.json("due") == []
    shell.stands_at(local(2026, 11, 2, 0, 0))
    assert [each["why"] for each in shell.json("due")] == ["long in its box"]


@pytest.mark.parametrize("friday", [(2026, 10, 30), (2026, 3, 6)], ids=["autumn", "spring"])
def test_the_bell_rings_by_the_wall_before_and_after_the_change(
    shell: Shell, friday: tuple[int, int, int]
):
    shell.type("term", "open", "26S")
    for clip, day in (("1", local(*friday, 9, 0)), ("2", local(*friday, 9, 0) + 3 * DAY)):
        on_the_wall = day.astimezone(CHICAGO).replace(hour=9)
        shell.stands_at(on_the_wall.astimezone(UTC))
        bell = shell.json("load", "olu", "--clip", clip)["bell"]
        assert bell[11:16] == "09:46"
        assert datetime.fromisoformat(bell) - on_the_wall == 46 * MINUTE


def test_a_roll_hung_on_friday_is_left_behind_after_mondays_class(shell: Shell):
    room = shell.type("room", "export").replace(
        'left_behind = "day_end"', 'left_behind = "next_class"'
    )
    shell.type("room", "apply", shell.write("room.toml", room))
    shell.stands_at(local(2026, 10, 30, 9, 0))
    shell.type("hang", "olu", "--clip", "17")
    shell.stands_at(local(2026, 11, 2, 9, 45))
    assert shell.json("find", "clip", "17")[0]["left_behind"] is False
    shell.stands_at(local(2026, 11, 2, 9, 46))
    assert shell.json("find", "clip", "17")[0]["left_behind"] is True
    assert "left behind  09:46" in shell.type("due")


def test_after_midnight_a_time_of_last_night_needs_its_date(shell: Shell):
    shell.stands_at(local(2026, 11, 18, 0, 20))
    shell.type("--at", "23:50", "hang", "olu", "--clip", "17")
    assert (shell.code, "still to come" in shell.err) == (1, True)
    shell.type("--at", "2026-11-17T23:50", "hang", "olu", "--clip", "17")
    assert shell.code == 0
    assert "Tue 17 Nov 23:5" in shell.out  # when to flip it, said on another day's clock
    (hung,) = shell.json("--at", "00:00", "find", "clip", "17")
    assert hung["flip_at"].startswith("2026-11-17T23:5")
    assert shell.json("--at", "2026-11-17T23:49", "find", "clip", "17") == []


def test_a_term_ends_at_the_rooms_midnight_and_not_at_greenwichs(shell: Shell):
    shell.type("term", "open", "27S")
    for moment, term in (((2026, 12, 31, 23, 59), "26F"), ((2027, 1, 1, 0, 0), "27S")):
        shell.stands_at(local(*moment))
        (loaded,) = shell.json("load", "olu", "--clip", str(moment[4] + 1))["rolls"]
        assert loaded["roll"].startswith(term)


def test_a_sleeve_lent_late_in_the_evening_is_due_by_the_rooms_day(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("sleeve", "17")
    shell.stands_at(local(2026, 11, 20, 23, 30))  # Friday; Saturday in Greenwich
    assert "due on Fri 4 Dec" in shell.type("lend", "0001", "--to", "ivo")
    shell.stands_at(local(2026, 12, 4, 23, 59))
    assert "loan overdue" not in shell.type("due")
    shell.stands_at(local(2026, 12, 5, 0, 1))
    assert "loan overdue" in shell.type("due")


@contextmanager
def machine_in(zone: str) -> Iterator[None]:
    """Put this machine in another zone for a while."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TZ", zone)
        time.tzset()
        yield
    time.tzset()


@pytest.mark.parametrize("zone", ["Asia/Tokyo", "Pacific/Auckland", "Pacific/Honolulu"])
def test_a_file_opened_in_another_zone_is_the_rooms_all_the_same(shell: Shell, zone: str):
    shell.type("--at", "08:31", "hang", "olu", "--clip", "17")
    shell.type("--at", "08:40", "hang", "mara", "--clip", "18")
    questions = (
        ["due"],
        ["due", "--json"],
        ["find", "olu"],
        ["--at", "08:35", "find", "26F", "--json"],
        ["show", "17"],
        ["term", "list"],
        ["fan"],
    )
    here = [shell.type(*words) for words in questions]
    with machine_in(zone):
        assert [shell.type(*words) for words in questions] == here
        shell.type("--at", "08:45", "flip", "17")
        ledger = shell.json("show", "17")["ledger"]
        assert next(entry["at"] for entry in ledger) == "2026-11-17T08:45:00-06:00"
