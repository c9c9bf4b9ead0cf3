"""No heartbeat of any desk for a while: was the power out? Then the fan stood still as well."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from filmrack.acts.drying import Silence, power_was_on, stop_at_silence, turn_dial
from filmrack.acts.hanging import hang
from filmrack.acts.undoing import undo
from filmrack.store import desks, fan
from tests.conftest import IVO, OLU, TUESDAY_9_00, School


def beat(school: School, name: str = "desk 1") -> None:
    with school.file.writing() as conn:
        desks.beat(conn, name, TUESDAY_9_00, school.now)


def close(school: School, name: str = "desk 1") -> None:
    with school.file.writing() as conn:
        desks.close(conn, name, TUESDAY_9_00, school.now)


def runs(school: School) -> list[tuple[int, int]]:
    """Return from when to when the fan runs by the record, in minutes after nine."""
    minute = timedelta(minutes=1)
    known = fan.runs(school.file.conn, TUESDAY_9_00).get(1, [])
    return [
        ((run.starts - TUESDAY_9_00) // minute, (run.ends - TUESDAY_9_00) // minute)
        for run in known
    ]


@pytest.fixture
def drying(school: School) -> School:
    """A roll hangs since nine under an assumed hour of fan; the desk was alive till 09:10."""
    hang(school.file, school.hand(), person=OLU, clip=17)
    school.wait(10)
    beat(school)
    return school


def stop(school: School) -> Silence | None:
    return stop_at_silence(school.file, school.hand(desk="desk 2"))


def test_an_assumed_run_stops_where_the_desk_fell_silent(drying: School):
    assert runs(drying) == [(0, 60)]
    drying.wait(20)
    silence = stop(drying)
    assert silence is not None
    assert silence.since == TUESDAY_9_00 + timedelta(minutes=10)
    assert runs(drying) == [(0, 10)]


def taken_back(school: School) -> int:
    """Return how many entries of the ledger take another one back."""
    undos = "SELECT count(*) FROM ledger WHERE act = 'undo'"
    number: int = school.file.conn.execute(undos).fetchone()[0]
    return number


def test_that_the_power_was_on_takes_it_back_once_however_often_it_is_said(drying: School):
    drying.wait(20)
    silence = stop(drying)
    assert silence is not None
    power_was_on(drying.file, drying.hand(), silence)
    assert (runs(drying), taken_back(drying)) == ([(0, 60)], 1)
    power_was_on(drying.file, drying.hand(), silence)
    assert (runs(drying), taken_back(drying)) == ([(0, 60)], 1)


def test_undo_takes_it_back_too_and_no_after_that_changes_nothing(drying: School):
    drying.wait(20)
    silence = stop(drying)
    assert silence is not None
    undo(drying.file, drying.hand(desk="desk 2"))
    assert runs(drying) == [(0, 60)]
    power_was_on(drying.file, drying.hand(), silence)
    assert runs(drying) == [(0, 60)]


def test_it_is_found_once(drying: School):
    drying.wait(20)
    assert stop(drying) is not None
    assert stop(drying) is None
    beat(drying, "desk 2")
    drying.wait(1)
    assert stop(drying) is None


def test_a_missed_beat_is_no_silence(drying: School):
    drying.wait(2)
    assert stop(drying) is None


def test_a_desk_that_was_closed_by_hand_is_no_silence(drying: School):
    close(drying)
    drying.wait(20)
    assert stop(drying) is None
    assert desks.last_beat(drying.file.conn) == TUESDAY_9_00 + timedelta(minutes=10)


def test_one_desk_alive_is_enough(drying: School):
    drying.wait(20)
    beat(drying, "desk 2")
    assert stop(drying) is None


def test_a_desk_that_was_closed_long_after_the_other_fell_silent_saw_no_power_cut(drying: School):
    drying.wait(20)
    beat(drying, "desk 2")
    close(drying, "desk 2")
    drying.wait(20)
    assert stop(drying) is None


def test_the_power_that_went_just_after_one_of_two_desks_was_closed_is_still_noticed(
    drying: School,
):
    drying.wait(1)
    close(drying, "desk 2")
    drying.wait(20)
    assert stop(drying) is not None
    assert runs(drying) == [(0, 11)]


def test_a_logged_run_is_left_alone(drying: School):
    turn_dial(drying.file, drying.hand(), 1)
    drying.wait(20)
    assert stop(drying) is None
    assert runs(drying)[-1] == (10, 70)


def test_film_that_was_hung_since_by_a_command_had_its_own_dial_turned(drying: School):
    drying.wait(20)
    hang(drying.file, drying.hand(), person=IVO, clip=18)
    drying.wait(5)
    assert stop(drying) is not None
    assert runs(drying) == [(0, 10), (30, 90)]


def test_a_fan_that_has_stopped_by_itself_needs_no_power_cut(drying: School):
    drying.wait(55)
    beat(drying)
    drying.wait(300)
    assert stop(drying) is None


def test_the_silence_starts_at_the_very_last_beat_of_all_desks(drying: School):
    drying.wait(5)
    beat(drying, "desk 2")
    drying.wait(20)
    silence = stop(drying)
    assert silence is not None
    assert silence.since == _after(15)


def _after(minutes: int) -> datetime:
    return TUESDAY_9_00 + timedelta(minutes=minutes)
