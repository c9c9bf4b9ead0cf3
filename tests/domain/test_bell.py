"""Whether a roll can leave dry before the bell."""

from datetime import UTC, datetime, timedelta

import pytest

from filmrack.domain.bell import before_bell, latest_hang, start_developing_by, x50, x95
from filmrack.domain.course import DryingRules
from filmrack.domain.learning import CheckedRoll, Learned, learn
from filmrack.domain.posterior import Posterior
from filmrack.domain.touch import Check
from tests.domain.twelve_rolls import TWELVE_ROLLS

BELL = datetime(2026, 3, 2, 10, 45, tzinfo=UTC)
FRESH = learn([])
TAUGHT = learn([CheckedRoll.of(checks) for checks in TWELVE_ROLLS])


def earlier(minutes):
    return BELL - timedelta(minutes=minutes)


def test_the_latest_hang_leaves_the_drying_and_three_minutes():
    assert latest_hang(BELL, 8) == earlier(11)
    assert latest_hang(BELL, 8, lag_minutes=0) == earlier(8)


def test_minutes_until_dry_of_a_roll_flipped_as_advised():
    flip = TAUGHT.flip
    assert x50(TAUGHT) == pytest.approx(TAUGHT.posterior.fan_minutes(0.5, flip))
    assert x95(TAUGHT) == pytest.approx(TAUGHT.posterior.fan_minutes(0.95, flip))


def test_before_a_dryer_has_taught_enough_dry_takes_forty_fan_minutes():
    assert x95(FRESH) == 40
    assert x95(FRESH, DryingRules(unproven_minutes=60)) == 60
    slow = learn([CheckedRoll.of([Check(25, 25, False)])] * 5)
    assert x95(slow) > 40


def test_dry_is_not_promised_before_the_least_minutes_found_dry():
    floored = Learned(TAUGHT.posterior, proven=True, least=14)
    assert x95(floored) == pytest.approx(14 * 0.75 + 0.5 * (x95(floored) - floored.flip), abs=1e-3)
    assert x95(floored) > x95(TAUGHT)


def test_a_roll_dry_in_time_leaves_dry_one_that_may_be_is_tight_else_it_is_swept():
    assert before_bell(BELL, earlier(20), earlier(3)) == "yes"
    assert before_bell(BELL, earlier(20), earlier(2.9)) == "tight"
    assert before_bell(BELL, earlier(3), None) == "tight"
    assert before_bell(BELL, earlier(2.9), earlier(2)) == "no"
    assert before_bell(BELL, None, None) == "no"
    assert before_bell(BELL, earlier(3), earlier(1), lag_minutes=1) == "yes"


def test_developing_starts_by_the_latest_hang_less_the_process():
    by = start_developing_by(BELL, TAUGHT, 25)
    assert by == earlier(25 + 3 + x50(TAUGHT))


def test_the_prior_is_slower_than_its_median_because_the_flip_is_a_compromise():
    prior = Learned(Posterior.prior())
    assert prior.median < x50(prior) < 1.15 * prior.median
