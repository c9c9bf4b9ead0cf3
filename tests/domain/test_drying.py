"""How one roll dries: worked by hand from D = M(1 − s/2), M = 7.5, s = 0.5."""

import math
from statistics import NormalDist, fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filmrack.domain.drying import Ends, dry_fraction, dryer_minutes, ends, needed
from filmrack.domain.learning import FLIP_SHARE
from tests.domain.until_dry import remaining, total_flipped_at

M = 7.5


def test_six_minutes_unflipped_dry_the_top_and_half_of_the_bottom():
    had = ends(6, 0, flipped=False)
    middle = 6 * (1 - 0.5 * 0.5)
    assert dry_fraction(had.bottom, M) == pytest.approx(0.5333, abs=5e-5)
    assert dry_fraction(middle, M) == pytest.approx(0.8)
    assert dry_fraction(had.top, M) == 1
    assert dryer_minutes(6, 0) == pytest.approx(4)


def test_a_roll_that_needs_seven_and_a_half_is_dry_the_later_the_further_its_flip_is_from_halfway():
    for a, b in ((3.75, 3.75), (5, 3.125), (2, 7.25), (11.25, 0)):
        assert dryer_minutes(a, b) == pytest.approx(M)


def test_dryer_minutes_do_not_care_which_way_up_came_first():
    assert dryer_minutes(5, 2) == dryer_minutes(2, 5) == pytest.approx(6)


def test_five_to_ten_minutes_flipped_halfway_as_is_common_practice():
    # common practice for thin film in a fan cabinet without heat
    assert needed(7) == pytest.approx(5.25)
    assert dryer_minutes(3.5, 3.5) == dryer_minutes(10.5, 0) == pytest.approx(7)


def test_the_ends_change_places_when_the_roll_is_flipped():
    assert ends(4, 1, flipped=True) == Ends(3, 4.5)
    assert ends(4, 1, flipped=False) == Ends(4.5, 3)


def test_half_of_what_two_rolls_in_three_need_is_the_flip_that_costs_least_on_average():
    # the newsvendor's fractile (any textbook of operations research): a flip too early costs
    # s / (1 − s) = 1 minute a minute, one too late s = 0.5, so 1 / (1 + 0.5) of rolls need less
    needs = NormalDist(math.log(8), 0.4)
    rolls = [math.exp(needs.inv_cdf((n + 0.5) / 600)) for n in range(600)]
    costs = {
        share: fmean(total_flipped_at(math.exp(needs.inv_cdf(share)) / 2, roll) for roll in rolls)
        for share in (0.5, 0.6, 2 / 3, 0.73, 0.83)
    }
    assert min(costs, key=costs.__getitem__) == FLIP_SHARE


minutes = st.floats(0, 40)
slopes = st.floats(0.05, 0.9)
needs = st.floats(2, 30)


@given(minutes, minutes, slopes)
def test_both_ways_up_are_worth_the_same(a, b, s):
    assert dryer_minutes(a, b, s) == pytest.approx(dryer_minutes(b, a, s))


@given(minutes, minutes, slopes, st.floats(0, 1))
def test_the_wettest_point_is_an_end(a, b, s, z):
    point = a * (1 - s * z) + b * (1 - s * (1 - z))
    assert min(ends(a, b, flipped=False, s=s)) <= point + 1e-9
    assert min(ends(a, b, flipped=False, s=s)) == pytest.approx(
        dryer_minutes(a, b, s) * (1 - s / 2)
    )


@given(minutes, minutes, slopes, minutes, minutes)
def test_dryer_minutes_never_go_back(a, b, s, more, turned):
    assert dryer_minutes(a + more, b + turned, s) >= dryer_minutes(a, b, s) - 1e-9


@given(minutes, slopes, st.floats(0, 1))
def test_halfway_is_the_best_flip_whatever_the_slope(hung, s, share):
    assert dryer_minutes(hung / 2, hung / 2, s) == pytest.approx(hung)
    assert dryer_minutes(share * hung, (1 - share) * hung, s) <= hung + 1e-9


@given(minutes, minutes, slopes)
def test_a_flip_never_makes_an_unflipped_roll_slower(a, b, s):
    assert dryer_minutes(a, b, s) >= dryer_minutes(a + b, 0, s) - 1e-9


@given(minutes, minutes, needs, slopes)
def test_what_remains_makes_the_roll_dry_and_not_before(a, b, m, s):
    left = remaining(ends(a, b, flipped=True, s=s), m, s)
    assert dryer_minutes(a, b + left, s) >= m - 1e-9
    if left > 1e-3:
        assert dryer_minutes(a, b + left * 0.99, s) < m


@given(minutes, minutes)
def test_in_even_air_a_flip_is_irrelevant(a, b):
    assert dryer_minutes(a, b, 0) == pytest.approx(a + b)
