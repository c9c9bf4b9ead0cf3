"""The guard against one-sided checks: people log "dry" and forget "tacky"."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.learning import COUNTED_ROLLS, SURE, CheckedRoll, found_dry
from filmrack.domain.touch import TimedCheck
from tests.domain.taught import learn
from tests.domain.twelve_rolls import TWELVE_ROLLS

ROLLS = [CheckedRoll.of(checks) for checks in TWELVE_ROLLS]
DRY, TACKY = (CheckedRoll.of([TimedCheck(4, 5, dry)]) for dry in (True, False))


def test_twelve_rolls_with_seven_tacky_results_are_enough():
    assert learn(ROLLS).proven


def test_nine_rolls_are_not_enough():
    assert not learn([DRY] * 6 + [TACKY] * 3).proven
    assert learn([DRY] * 7 + [TACKY] * 3).proven


def test_two_tacky_results_are_not_enough():
    assert not learn([DRY] * 30 + [TACKY] * 2).proven


def test_a_dryer_where_nothing_was_found_dry_proves_nothing():
    assert not learn([TACKY] * 20).proven


def test_dry_is_never_said_before_the_third_smallest_of_the_minutes_found_dry():
    rolls = [CheckedRoll.of([TimedCheck(n, n, True)]) for n in (9, 5, 4, 6, 7)]
    assert learn(rolls).least == pytest.approx(2 * 6)


def test_with_many_rolls_it_is_a_fifth_of_them():
    rolls = [CheckedRoll.of([TimedCheck(n, n, True)]) for n in range(1, 32)]
    assert learn(rolls).least == pytest.approx(2 * 7)


def test_a_dry_that_a_later_tacky_contradicts_is_not_found_dry():
    checks = [TimedCheck(3, 3, True), TimedCheck(4, 4, False), TimedCheck(6, 6, True)]
    assert found_dry(checks) == pytest.approx(12)
    assert found_dry([TimedCheck(4, 4, False)]) is None


def test_only_the_last_sixty_checked_rolls_count():
    old = [CheckedRoll.of([TimedCheck(20, 20, False)])] * 30
    new = [DRY] * COUNTED_ROLLS
    assert learn([*old, *new]).median == learn(new).median


def test_a_fresh_roll_is_flipped_at_half_of_what_two_rolls_in_three_need():
    learned = learn(ROLLS)
    assert learned.flip == pytest.approx(learned.posterior.needs(2 / 3) / 2)
    assert learned.median / 2 < learned.flip < learned.median


def test_dry_rolls_make_the_next_likelier_dry_and_tacky_ones_less():
    before = learn([]).posterior.p_dry(4, 4)
    assert learn([CheckedRoll.of([TimedCheck(4, 4, True)])]).posterior.p_dry(4, 4) > before
    assert learn([CheckedRoll.of([TimedCheck(4, 4, False)])]).posterior.p_dry(4, 4) < before


@settings(max_examples=15, deadline=None)
@given(st.lists(st.sampled_from([DRY, *(roll for roll in ROLLS if roll.checks[0].dry)])))
def test_a_dryer_whose_tacky_results_are_never_logged_proves_nothing(rolls):
    assert not learn(rolls).proven


def test_the_less_alike_rolls_dry_the_surer_dry_must_be():
    alike = [CheckedRoll.of([TimedCheck(4, 4, False), TimedCheck(4.4, 4.4, True)])] * 20
    assert learn(alike).sure(flipped=True) == SURE
    unlike = [
        CheckedRoll.of([TimedCheck(m, m, False), TimedCheck(m + 0.3, m + 0.3, True)])
        for m in (2, 3, 4, 5.5, 7.5)
    ]
    assert learn(unlike * 4).sure(flipped=True) == pytest.approx(1 - (1 - SURE) / 2)
    assert SURE < learn([]).sure(flipped=True) < 1 - (1 - SURE) / 2


def test_in_steep_air_a_roll_never_flipped_must_be_surer_dry_than_a_flipped_one():
    # 8 minutes flipped halfway and 24 unflipped is a slope of 0.8: D/(1 - s) over M, by the model.
    flipped = CheckedRoll.of([TimedCheck(3.8, 3.8, False), TimedCheck(4.2, 4.2, True)])
    unflipped = CheckedRoll.of([TimedCheck(22.8, 0, False), TimedCheck(25.2, 0, True)])
    steep = learn([flipped, unflipped] * 10)
    assert steep.sure(flipped=True) == SURE
    assert steep.sure(flipped=False) == pytest.approx(1 - (1 - SURE) / 2, abs=2e-3)
    level = learn(
        [flipped, CheckedRoll.of([TimedCheck(11.4, 0, False), TimedCheck(12.6, 0, True)])] * 10
    )
    assert level.sure(flipped=False) == pytest.approx(SURE, abs=3e-3)
