"""What touch checks say. Rows 6 to 8 are worked from the normal distribution's tables."""

import math
from statistics import NormalDist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.touch import (
    CELLS,
    CENTRES,
    NAT,
    SPREADS,
    TimedCheck,
    as_evidence,
    as_number,
    evidence,
    pack,
    shares,
    unpack,
)

MU, SIGMA = math.log(8), 0.2


def likelihood(results, wrong):
    """The likelihood, for μ = ln 8 and σ = 0.2, of (dryer minutes, dry?) in time order."""
    last, steps = shares([dry for _, dry in results], wrong)
    return last + sum(
        step * NormalDist(MU, SIGMA).cdf(math.log(x))
        for step, (x, _) in zip(steps, results, strict=True)
    )


def test_in_a_cabinet_that_is_known_exactly_the_share_of_rolls_is_a_rolls_chance():
    needs = NormalDist(MU, SIGMA)
    assert likelihood([(10, True)], 0) == pytest.approx(0.8677, abs=5e-5)
    for share, minutes in [(0.90, 10.34), (0.95, 11.12)]:
        assert math.exp(needs.inv_cdf(share)) == pytest.approx(minutes, abs=5e-3)
        assert likelihood([(minutes, True)], 0) == pytest.approx(share, abs=5e-4)


def test_a_tacky_check_that_cannot_be_wrong_puts_dry_off():
    def dry_at(x):
        return likelihood([(8, False), (x, True)], 0) / likelihood([(8, False)], 0)

    assert dry_at(10) == pytest.approx(0.7355, abs=5e-5)
    assert dry_at(11.84) == pytest.approx(0.95, abs=5e-4)


def test_checks_that_may_be_wrong_count_jointly_also_where_they_contradict_each_other():
    assert likelihood([(10, True)], 0.025) == pytest.approx(0.8493, abs=5e-5)
    assert likelihood([(6, False), (9, True)], 0.025) == pytest.approx(0.6235, abs=5e-5)
    assert likelihood([(6, True), (9, False)], 0.025) == pytest.approx(0.009012, abs=5e-7)


def test_the_grid_holds_the_likelihood_cell_by_cell():
    against = evidence([TimedCheck(3, 3, False), TimedCheck(3, 6, True)])
    assert len(against) == CELLS == 1736
    slope, spread, centre = 4, 3, 14  # s = 0.5, σ = 0.20, μ = ln 2 + 1.4
    last, (tacky, dry) = shares([False, True])
    by_hand = last + sum(
        step * NormalDist(CENTRES[centre], SPREADS[spread]).cdf(math.log(x))
        for step, x in [(tacky, 6), (dry, (9 - 3) / 0.75)]
    )
    cell = (slope * len(SPREADS) + spread) * len(CENTRES) + centre
    assert -against[cell] / NAT == pytest.approx(math.log(by_hand), abs=1e-6)


def test_evidence_comes_back_from_the_file_as_it_went_in():
    said = evidence([TimedCheck(4, 5, True)])
    assert unpack(pack(said)) == said
    assert len(pack(said)) == 4 * CELLS


def test_bytes_of_another_grid_are_not_taken_for_evidence():
    with pytest.raises(ValueError, match="no evidence"):
        unpack(b"1234")


def test_a_touch_at_the_very_moment_of_hanging_says_nothing_but_that_it_may_be_wrong():
    tacky, dry = (-min(evidence([TimedCheck(0, 0, dry)])) / NAT for dry in (False, True))
    assert tacky == pytest.approx(math.log(0.975), abs=1e-6)
    assert dry == pytest.approx(math.log(0.025), abs=1e-6)


def test_however_unlikely_sixty_rolls_are_their_sum_holds_every_cell():
    never = evidence([TimedCheck(n, n, dry) for n in range(1, 40) for dry in (True, False)])
    likely = evidence([TimedCheck(4, 5, True)])
    total = 59 * as_number(never) + as_number(likely)
    assert list(as_evidence(total)) == [
        59 * one + other for one, other in zip(never, likely, strict=True)
    ]


def test_what_was_not_added_cannot_be_taken_away():
    with pytest.raises(ValueError, match="had not been added"):
        as_evidence(-as_number(evidence([TimedCheck(4, 5, True)])))


@given(st.lists(st.booleans(), max_size=5))
def test_every_interval_is_weighed_by_the_checks_that_agree_and_contradict(results):
    last, steps = shares(results, 0.025)
    weight = last + sum(steps)  # needs less than the first check's minutes: all "tacky" wrong
    assert weight == pytest.approx(0.975 ** sum(results) * 0.025 ** (len(results) - sum(results)))


@settings(max_examples=15, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(0.5, 20), st.floats(0.5, 20), st.booleans()), min_size=1, max_size=3
    ),
    st.randoms(use_true_random=False),
)
def test_the_order_in_which_checks_were_written_down_is_irrelevant(steps, shuffler):
    a = b = 0.0
    checks = []
    for more, turned, dry in steps:
        a, b = a + more, b + turned
        checks.append(TimedCheck(a, b, dry))
    shuffled = shuffler.sample(checks, len(checks))
    assert evidence(shuffled) == evidence(checks)
