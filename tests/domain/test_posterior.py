"""What is believed of a dryer.

The figures are those of scipy, see `believed_by_scipy` in tests/outside/test_drying_against_scipy.
"""

import math
from array import array
from statistics import NormalDist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.drying import dryer_minutes
from filmrack.domain.posterior import Posterior
from filmrack.domain.touch import CENTRES, NAT, SLOPES, SPREADS, TimedCheck, evidence
from tests.domain.twelve_rolls import TWELVE_ROLLS

PRIOR = Posterior.prior()
TWELVE = Posterior.of([evidence(checks) for checks in TWELVE_ROLLS])


def with_own_checks(posterior, minutes, checks):
    return 1 - posterior.left_open(checks) * (1 - posterior.p_dry(*minutes))


def test_the_prior_knows_that_an_unflipped_roll_dries_more_slowly():
    assert PRIOR.p_dry(5, 5) == pytest.approx(0.6331, abs=5e-5)
    assert PRIOR.p_dry(10, 0) == pytest.approx(0.3714, abs=5e-5)


def test_by_the_prior_a_roll_takes_half_as_long_again_when_it_is_never_flipped():
    assert PRIOR.needs(0.5) == pytest.approx(8.036, abs=6e-4)
    assert PRIOR.needs(0.95) == pytest.approx(23.07, abs=6e-3)
    assert PRIOR.fan_minutes(0.5) == pytest.approx(12.52, abs=6e-3)
    assert PRIOR.fan_minutes(0.95) == pytest.approx(39.28, abs=6e-3)


def test_twelve_rolls_teach_how_likely_the_next_is_dry():
    assert TWELVE.p_dry(4, 7) == pytest.approx(0.9302, abs=5e-5)
    assert TWELVE.p_dry(12, 0) == pytest.approx(0.4602, abs=5e-5)
    assert TWELVE.p_dry(16, 0) == pytest.approx(0.9266, abs=5e-5)


def test_twelve_rolls_teach_minutes_and_the_slope_of_the_air():
    assert TWELVE.fan_minutes(0.5, 4) == pytest.approx(7.825, abs=6e-4)
    assert TWELVE.fan_minutes(0.95, 4) == pytest.approx(11.54, abs=6e-3)
    assert TWELVE.fan_minutes(0.5) == pytest.approx(12.21, abs=6e-3)
    assert TWELVE.fan_minutes(0.95) == pytest.approx(16.71, abs=6e-3)
    assert TWELVE.mean_slope() == pytest.approx(0.5221, abs=5e-5)


def test_a_tacky_check_says_more_of_its_own_roll_than_of_the_next():
    own = [TimedCheck(4, 4, False)]
    assert with_own_checks(TWELVE, (4, 7), own) == pytest.approx(0.8409, abs=5e-5)
    next_roll = Posterior.of([evidence(checks) for checks in [*TWELVE_ROLLS, own]])
    assert next_roll.p_dry(4, 7) == pytest.approx(0.9114, abs=5e-5)


def test_a_roll_taken_out_again_leaves_what_was_believed_before():
    own = evidence([TimedCheck(4, 4, False)])
    counted = Posterior.of([*(evidence(checks) for checks in TWELVE_ROLLS), own])
    assert counted.without(own).p_dry(4, 7) == TWELVE.p_dry(4, 7)


def test_no_more_rolls_are_summed_than_a_cell_can_hold():
    with pytest.raises(ValueError, match="61 rolls"):
        Posterior.of([evidence([TimedCheck(4, 4, False)])] * 61)


def test_nothing_is_dry_when_it_is_hung_and_everything_after_a_week():
    assert PRIOR.p_dry(0, 0) == 0
    assert PRIOR.p_dry(1e-9, 0) == 0
    assert PRIOR.p_dry(5000, 5000) == pytest.approx(1)


def summed(posterior, a, b):
    """P(dry) summed over all 1,736 cells, without any table."""
    weights = [math.exp((min(posterior.against) - each) / NAT) for each in posterior.against]
    cells = [(s, spread, centre) for s in SLOPES for spread in SPREADS for centre in CENTRES]
    return sum(
        weight * NormalDist(centre, spread).cdf(math.log(dryer_minutes(a, b, s)))
        for weight, (s, spread, centre) in zip(weights, cells, strict=True)
    ) / sum(weights)


def narrow(slope, spread, centre):
    """A dryer that is known to be in one cell, as hard to interpolate as can be."""
    against = array("I", [1000 * NAT] * len(PRIOR.against))
    against[(slope * len(SPREADS) + spread) * len(CENTRES) + centre] = 0
    return Posterior(against)


minutes = st.floats(0.1, 60)


@settings(max_examples=25, deadline=None)
@given(minutes, minutes, st.sampled_from([PRIOR, TWELVE, narrow(4, 0, 14), narrow(0, 6, 30)]))
def test_the_table_agrees_with_the_sum_over_every_cell(a, b, posterior):
    assert posterior.p_dry(a, b) == pytest.approx(summed(posterior, a, b), abs=1e-5)


@settings(max_examples=50, deadline=None)
@given(minutes, minutes, st.floats(0, 5), st.floats(0, 5), st.sampled_from([PRIOR, TWELVE]))
def test_more_minutes_never_make_a_roll_less_likely_dry(a, b, more, turned, posterior):
    assert posterior.p_dry(a + more, b + turned) >= posterior.p_dry(a, b) - 1e-12


@settings(max_examples=50, deadline=None)
@given(st.floats(0, 400), st.floats(0, 400), st.sampled_from([PRIOR, TWELVE, narrow(4, 0, 14)]))
def test_what_many_rolls_have_at_least_is_never_more_than_their_own_chance(a, b, posterior):
    at_least = posterior.p_dry_at_least(a, b)
    # Either sum may leave out cells that come to less than 2e-6 of everything.
    assert at_least <= posterior.p_dry(a, b) + 2e-6
    assert max(a, b) < 1 or at_least >= posterior.p_dry(max(a, b) / 1.26, 0) - 1e-12


@settings(max_examples=50, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 6), st.floats(0, 6), st.booleans()), max_size=3),
    st.integers(0, 3),
    st.sampled_from([PRIOR, TWELVE]),
)
def test_a_tacky_check_of_its_own_never_raises_the_chance(steps, place, posterior):
    a = b = 0.1
    checks = []
    for more, turned, dry in steps:
        a, b = a + more, b + turned
        checks.append(TimedCheck(a, b, dry))
    at = checks[min(place, len(checks) - 1)] if checks else TimedCheck(a, b, False)
    with_tacky = [*checks, TimedCheck(at.a, at.b, False)]
    now = (a + 1, b)
    before = with_own_checks(posterior, now, checks)
    assert with_own_checks(posterior, now, with_tacky) <= before + 1e-9


@settings(max_examples=20, deadline=None)
@given(st.permutations(TWELVE_ROLLS))
def test_the_order_in_which_rolls_were_checked_is_irrelevant(rolls):
    shuffled = Posterior.of([EVIDENCE[id(checks)] for checks in rolls])
    assert shuffled.p_dry(4, 7) == TWELVE.p_dry(4, 7)


EVIDENCE = {id(checks): evidence(checks) for checks in TWELVE_ROLLS}
