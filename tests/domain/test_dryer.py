"""The fan's runs, folded from what the dial was turned to, and the minutes a roll has had."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.dryer import (
    FanRun,
    FanSetting,
    WayUp,
    dial_hours,
    fan_runs,
    fan_until,
    minutes_hung,
    runs_met,
)
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.refusal import Refused

NINE = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def after(minutes: float) -> datetime:
    return NINE + timedelta(minutes=minutes)


def test_a_dial_turned_to_one_hour_runs_one_hour():
    assert fan_runs([FanSetting(NINE, 1)]) == (FanRun(NINE, after(60)),)


def test_turning_the_dial_again_replaces_what_was_left():
    runs = fan_runs([FanSetting(after(10), 0.5), FanSetting(NINE, 2)])
    assert runs == (FanRun(NINE, after(10)), FanRun(after(10), after(40)))


def test_a_fan_found_off_refutes_the_assumed_run_it_cuts_short():
    runs = fan_runs([FanSetting(NINE, 1, assumed=True), FanSetting(after(20), 0)])
    assert runs == (FanRun(NINE, after(20), assumed=True, refuted=True),)


def test_a_logged_setting_refutes_the_assumed_run_it_replaces():
    first, second = fan_runs([FanSetting(NINE, 1, assumed=True), FanSetting(after(20), 1)])
    assert first.refuted
    assert second == FanRun(after(20), after(80))


def test_a_fan_found_off_after_its_assumed_hour_refutes_nothing():
    runs = fan_runs([FanSetting(NINE, 1, assumed=True), FanSetting(after(60), 0)])
    assert runs == (FanRun(NINE, after(60), assumed=True),)


def test_a_logged_run_found_off_just_ends():
    assert fan_runs([FanSetting(NINE, 1), FanSetting(after(5), 0)]) == (FanRun(NINE, after(5)),)


def test_an_assumed_setting_extends_the_run_that_is_on_and_refutes_nothing():
    runs = fan_runs([FanSetting(NINE, 1, assumed=True), FanSetting(after(55), 1, assumed=True)])
    assert runs == (FanRun(NINE, after(55), assumed=True), FanRun(after(55), after(115), True))
    assert fan_until(runs, after(30)) == after(115)


def test_an_assumed_run_that_is_assumed_to_have_stopped_is_not_refuted():
    settings_ = [FanSetting(NINE, 1, assumed=True), FanSetting(after(30), 0, assumed=True)]
    assert fan_runs(settings_) == (FanRun(NINE, after(30), assumed=True),)
    assert fan_runs([*settings_, FanSetting(after(45), 0)]) == fan_runs(settings_)


def test_settings_of_one_moment_count_in_the_order_given():
    on, off = FanSetting(NINE, 1), FanSetting(NINE, 0)
    assert fan_runs([off, on]) == (FanRun(NINE, after(60)),)
    assert fan_runs([on, off]) == ()


@pytest.mark.parametrize("hours", [-1, float("nan"), float("inf")])
def test_a_dial_has_no_such_hours(hours):
    with pytest.raises(Refused, match="dial"):
        FanSetting(NINE, hours)


def test_the_dial_goes_to_the_next_mark():
    assert [dial_hours(minutes) for minutes in (0, 30, 31, 60, 61)] == [0.5, 0.5, 1, 1, 1.5]


def test_a_flipped_roll_has_its_minutes_each_way_up_and_a_tenth_of_those_without_the_fan():
    runs = [FanRun(NINE, after(5)), FanRun(after(15), after(30))]
    stays = [WayUp(NINE, after(3.75)), WayUp(after(3.75), None, flipped=True)]
    had = minutes_hung(stays, runs, after(20))
    assert had == pytest.approx((3.75, 7.25))
    assert dryer_minutes(*had) == pytest.approx(9.833, abs=5e-4)


def test_a_refuted_run_can_be_counted_as_off():
    runs = [FanRun(NINE, after(20), assumed=True, refuted=True)]
    assert minutes_hung([WayUp(NINE)], runs, after(20)).a == pytest.approx(20)
    assert minutes_hung([WayUp(NINE)], runs, after(20), refuted_count=False).a == pytest.approx(2)


def test_time_off_the_rod_counts_nothing():
    stays = [WayUp(NINE, after(4)), WayUp(after(9), after(12))]
    assert minutes_hung(stays, [FanRun(NINE, after(60))], after(30)) == pytest.approx((7, 0))


moments = st.integers(0, 240).map(after)
histories = st.lists(
    st.builds(FanSetting, moments, st.sampled_from([0, 0.25, 0.5, 1, 2]), st.booleans()),
    max_size=8,
)
hung = [WayUp(NINE, after(37)), WayUp(after(37), None, flipped=True)]


@settings(max_examples=60, deadline=None)
@given(histories)
def test_the_runs_of_a_fan_are_in_order_and_never_overlap(history):
    runs = fan_runs(history)
    assert all(run.starts < run.ends for run in runs)
    assert all(one.ends <= two.starts for one, two in pairwise(runs))


@settings(max_examples=60, deadline=None)
@given(histories, moments, moments)
def test_minutes_never_go_back_and_never_outrun_the_clock(history, one, two):
    runs = fan_runs(history)
    early, late = (minutes_hung(hung, runs, at) for at in sorted([one, two]))
    assert early.a <= late.a
    assert early.b <= late.b
    spent = abs(two - one) / timedelta(minutes=1)
    assert late.a + late.b - early.a - early.b <= spent + 1e-9


@settings(max_examples=60, deadline=None)
@given(histories, moments)
def test_at_a_still_rate_of_one_the_fan_is_irrelevant_and_at_nought_a_still_fan_freezes(
    history, now
):
    runs = fan_runs(history)
    assert minutes_hung(hung, runs, now, still_rate=1) == pytest.approx(
        minutes_hung(hung, (), now, still_rate=1)
    )
    assert minutes_hung(hung, (), now, still_rate=0) == (0, 0)


def test_a_roll_that_moved_had_the_fan_of_each_dryer_while_it_hung_there():
    first = (FanRun(NINE, after(20)),)
    second = (FanRun(after(5), after(15), refuted=True), FanRun(after(30), after(60)))
    stays = (WayUp(NINE, after(10)), WayUp(after(10), None, flipped=True))
    met = runs_met([(stays[0], first), (stays[1], second)])
    assert met == (
        FanRun(NINE, after(10)),
        FanRun(after(10), after(15), refuted=True),
        FanRun(after(30), after(60)),
    )
    assert minutes_hung(stays, met, after(40), still_rate=0) == (10, 15)
    assert minutes_hung(stays, met, after(40), still_rate=0, refuted_count=False) == (10, 10)
