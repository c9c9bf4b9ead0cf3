"""Whether a roll can leave dry before the bell."""

from datetime import UTC, datetime, timedelta

import pytest

from filmrack.domain.bell import (
    before_bell,
    latest_hang,
    likely_within,
    minutes_to_dry,
    minutes_to_likely_dry,
    start_developing_by,
)
from filmrack.domain.course import DryingRules
from filmrack.domain.dryer import FanRun, WayUp
from filmrack.domain.learning import CheckedRoll, Learned
from filmrack.domain.outlook import course_of
from filmrack.domain.posterior import Posterior
from filmrack.domain.touch import TimedCheck
from tests.domain.taught import learn
from tests.domain.twelve_rolls import TWELVE_ROLLS

LAG = 3
BELL = datetime(2026, 3, 2, 10, 45, tzinfo=UTC)
FRESH = learn([])
TAUGHT = learn([CheckedRoll.of(checks) for checks in TWELVE_ROLLS])


HUNG = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


def later(minutes):
    return HUNG + timedelta(minutes=minutes)


def earlier(minutes):
    return BELL - timedelta(minutes=minutes)


def test_the_latest_hang_leaves_the_drying_and_the_minutes_to_fetch_it():
    assert latest_hang(BELL, 8, LAG) == earlier(11)
    assert latest_hang(BELL, 8, lag_minutes=0) == earlier(8)


def test_minutes_until_dry_of_a_roll_flipped_as_advised():
    flip = TAUGHT.flip
    assert minutes_to_likely_dry(TAUGHT) == pytest.approx(TAUGHT.posterior.fan_minutes(0.5, flip))
    assert minutes_to_dry(TAUGHT) == pytest.approx(TAUGHT.posterior.fan_minutes(0.95, flip))


def test_before_a_dryer_has_taught_enough_dry_takes_forty_fan_minutes():
    assert minutes_to_dry(FRESH) == 40
    assert minutes_to_dry(FRESH, DryingRules(unproven_minutes=60)) == 60
    slow = learn([CheckedRoll.of([TimedCheck(25, 25, False)])] * 5)
    assert minutes_to_dry(slow) > 40


def test_dry_is_not_promised_before_the_least_minutes_found_dry():
    floored = Learned(TAUGHT.posterior, proven=True, least=14)
    assert minutes_to_dry(floored) == pytest.approx(
        14 * 0.75 + 0.5 * (minutes_to_dry(floored) - floored.flip), abs=1e-3
    )
    assert minutes_to_dry(floored) > minutes_to_dry(TAUGHT)


def flipped_as_advised(fan_minutes):
    turned = HUNG + timedelta(minutes=TAUGHT.flip)
    stays = [WayUp(HUNG, turned), WayUp(turned, flipped=True)]
    return course_of(stays, [FanRun(HUNG, later(fan_minutes))], (), TAUGHT)


def test_a_roll_dry_in_time_leaves_dry_one_that_may_be_is_tight_else_it_is_swept():
    course = flipped_as_advised(60)
    for comes, sooner, fits in [(course.likely, "no", "tight"), (course.estimate, "tight", "yes")]:
        bell = comes + timedelta(minutes=3)
        assert before_bell(bell, course, HUNG, LAG) == fits
        assert before_bell(bell - timedelta(seconds=2), course, HUNG, LAG) == sooner
        assert before_bell(bell - timedelta(minutes=2), course, HUNG, lag_minutes=1) == fits


def test_what_does_not_come_before_the_fan_stops_fits_never_but_the_night_does():
    bell = later(180)
    assert before_bell(bell, flipped_as_advised(minutes_to_dry(TAUGHT) + 0.1), HUNG, LAG) == "yes"
    assert before_bell(bell, flipped_as_advised(minutes_to_dry(TAUGHT) - 0.1), HUNG, LAG) == "tight"
    assert (
        before_bell(bell, flipped_as_advised(minutes_to_likely_dry(TAUGHT) - 0.1), HUNG, LAG)
        == "no"
    )
    night = flipped_as_advised(1).overnight
    assert before_bell(night + timedelta(hours=1), flipped_as_advised(1), night, LAG) == "yes"


def test_film_hung_now_is_likely_dry_within_its_minutes_and_not_before():
    assert likely_within(TAUGHT, minutes_to_likely_dry(TAUGHT) + 1e-3)
    assert not likely_within(TAUGHT, minutes_to_likely_dry(TAUGHT) - 1e-3)
    assert not likely_within(FRESH, 0)


def test_developing_starts_by_the_latest_hang_less_the_process():
    by = start_developing_by(BELL, TAUGHT, process_minutes=25, lag_minutes=LAG)
    assert by == earlier(25 + 3 + minutes_to_likely_dry(TAUGHT))


def test_the_prior_is_slower_than_its_median_because_the_flip_is_a_compromise():
    prior = Learned(Posterior.prior())
    assert prior.median < minutes_to_likely_dry(prior) < 1.15 * prior.median
