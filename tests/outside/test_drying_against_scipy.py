"""Censored touch checks, against scipy.stats (CensoredData and fit; BSD-licensed library).

A tacky check is right-censored, a dry one left-censored, tacky then dry interval-censored.
"""

import math

import numpy as np
import pytest
from scipy import optimize, stats

from filmrack.domain.crossing import crossing
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.posterior import TELLS_APART, Posterior
from filmrack.domain.touch import CENTRES, NAT, SLOPES, SPREADS, WRONG, TimedCheck, evidence, shares
from tests.domain.twelve_rolls import TWELVE_ROLLS

DRY = (9, 10, 11, 12)
TACKY = (6, 7, 8, 9.5)
TACKY_THEN_DRY = ((6, 8), (7, 9), (8, 10), (9, 12))
ROLLS = [
    *([(x, True)] for x in DRY),
    *([(x, False)] for x in TACKY),
    *([(tacky, False), (dry, True)] for tacky, dry in TACKY_THEN_DRY),
]


def by_scipy():
    """Return (μ, σ) of ln minutes by scipy's maximum likelihood."""
    data = stats.CensoredData(
        left=[math.log(x) for x in DRY],
        right=[math.log(x) for x in TACKY],
        interval=[[math.log(low), math.log(high)] for low, high in TACKY_THEN_DRY],
    )
    mu, sigma = stats.norm.fit(data, optimizer=precise)
    return mu, sigma


def precise(func, x0, args, disp):
    return optimize.fmin(func, x0, args=args, disp=disp, xtol=1e-9, ftol=1e-12)


def minus_evidence(parameters):
    mu, sigma = parameters
    if sigma <= 0:
        return math.inf
    total = 0.0
    for roll in ROLLS:
        last, steps = shares([dry for _, dry in roll], wrong=0)
        total += math.log(
            max(
                1e-300,
                last
                + sum(
                    step * stats.norm.cdf(math.log(x), mu, sigma)
                    for step, (x, _) in zip(steps, roll, strict=True)
                ),
            )
        )
    return -total


def test_the_likeliest_cabinet_by_censored_checks_is_scipys():
    mu, sigma = by_scipy()
    assert mu == pytest.approx(2.168, abs=5e-4)
    assert sigma == pytest.approx(0.1164, abs=1e-4)
    ours = optimize.minimize(
        minus_evidence, [2.0, 0.2], method="Nelder-Mead", options={"xatol": 1e-9}
    )
    assert tuple(ours.x) == pytest.approx((mu, sigma), abs=1e-4)


def test_with_a_flat_prior_the_highest_cell_is_next_to_it():
    mu, sigma = by_scipy()
    # flipped exactly halfway, dryer minutes are the minutes hung, whatever the slope
    rolls = [[TimedCheck(x / 2, x / 2, dry) for x, dry in roll] for roll in ROLLS]
    against = [sum(cell) for cell in zip(*(evidence(roll, 0) for roll in rolls), strict=True)]
    size = len(SPREADS) * len(CENTRES)
    at_half = against[SLOPES.index(0.5) * size :][:size]
    best = min(range(size), key=at_half.__getitem__)
    assert abs(CENTRES[best % len(CENTRES)] - mu) < 0.1
    nearest = sorted(SPREADS, key=lambda spread: abs(math.log(spread / sigma)))[:2]
    assert SPREADS[best // len(CENTRES)] in nearest


@pytest.mark.parametrize("x", [3, 8, 8.7, 15])
@pytest.mark.parametrize("spread", SPREADS)
def test_the_share_of_rolls_that_need_less_is_scipys_lognormal(x, spread):
    against = evidence([TimedCheck(x / 2, x / 2, True)], 0)
    for centre, median in enumerate(map(math.exp, CENTRES)):
        expected = stats.lognorm.cdf(x, s=spread, scale=median)
        cell = SPREADS.index(spread) * len(CENTRES) + centre
        assert math.exp(-against[cell] / NAT) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("p", [0.05, 0.5, 2 / 3, 0.95, 0.999])
def test_a_crossing_is_where_scipys_brentq_finds_it(p):
    prior = Posterior.prior()

    def beyond(x):
        return prior.p_dry(x, 0) - p

    assert crossing(beyond, 0, 600) == pytest.approx(optimize.brentq(beyond, 1e-3, 600), abs=1e-4)


def tacky_by_scipy(posterior, a, b):
    """Return the chance of tacky, cell by cell from scipy's upper tail, which keeps its digits."""
    weights = [math.exp((min(posterior.against) - each) / NAT) for each in posterior.against]
    cells = [(s, spread, centre) for s in SLOPES for spread in SPREADS for centre in CENTRES]
    z = [(math.log(dryer_minutes(a, b, s)) - centre) / spread for s, spread, centre in cells]
    return sum(w * t for w, t in zip(weights, stats.norm.sf(z), strict=True)) / sum(weights)


TWELVE = Posterior.of([evidence(checks) for checks in TWELVE_ROLLS])


@pytest.mark.parametrize("posterior", [Posterior.prior(), TWELVE], ids=["prior", "twelve rolls"])
@pytest.mark.parametrize("more", [1, 3, 10])
def test_down_to_what_the_tables_tell_the_chance_since_a_tacky_is_scipys(posterior, more):
    tails = 0
    for minutes in range(5, 600, 5):
        wet_then = tacky_by_scipy(posterior, 4, minutes)
        if wet_then < TELLS_APART:
            break
        tails += wet_then < 1e-3
        expected = 1 - tacky_by_scipy(posterior, 4, minutes + more) / wet_then
        ours = 1 - (1 - posterior.p_dry(4, minutes + more)) / (1 - posterior.p_dry(4, minutes))
        assert ours == pytest.approx(expected, abs=0.005)
    assert tails


def test_far_below_what_the_tables_tell_the_chance_since_a_tacky_would_be_noise():
    wet_then, later = (tacky_by_scipy(TWELVE, 4, minutes) for minutes in (180, 181))
    assert wet_then < 1e-9 < TELLS_APART
    told = (1 - TWELVE.p_dry(4, 181)) / (1 - TWELVE.p_dry(4, 180))
    assert abs(told - later / wet_then) > 0.02


GRID = np.array([(s, spread, centre) for s in SLOPES for spread in SPREADS for centre in CENTRES])


def shares_by_scipy(a, b):
    """Return, cell by cell, the share of rolls that are dry after these minutes."""
    s, spread, centre = GRID.T
    dry_at = (a + b - s * max(a, b)) / (1 - s / 2)
    return stats.norm.cdf(np.log(dry_at), centre, spread)


def believed_by_scipy(rolls):
    """Return how likely each cell is: the prior, times what each roll's checks make likely."""
    s, spread, centre = GRID.T
    weights = stats.norm.pdf(s, 0.5, 0.18) * stats.norm.pdf(np.log(spread), math.log(0.22), 0.45)
    weights *= stats.norm.pdf(centre, math.log(8), 0.6)
    for roll in rolls:
        bounds = [0.0, *(shares_by_scipy(check.a, check.b) for check in roll), 1.0]
        weights *= sum(
            (bounds[k + 1] - bounds[k])
            * math.prod(
                1 - WRONG if check.dry == (k <= j) else WRONG for j, check in enumerate(roll)
            )
            for k in range(len(roll) + 1)
        )
    return weights / weights.sum()


NOTHING, ONE_MORE = [], [*TWELVE_ROLLS, [TimedCheck(4, 4, False)]]


@pytest.mark.parametrize(
    ("rolls", "a", "b"),
    [
        (NOTHING, 5, 5),
        (NOTHING, 10, 0),
        (TWELVE_ROLLS, 4, 7),
        (TWELVE_ROLLS, 12, 0),
        (TWELVE_ROLLS, 16, 0),
        (ONE_MORE, 4, 7),
    ],
)
def test_how_likely_film_is_dry_is_scipys_sum_over_all_that_the_dryer_may_be(rolls, a, b):
    expected = believed_by_scipy(rolls) @ shares_by_scipy(a, b)
    ours = Posterior.of([evidence(roll) for roll in rolls]).p_dry(a, b)
    assert ours == pytest.approx(expected, abs=1e-5)


def test_the_slope_that_twelve_rolls_teach_is_scipys_mean():
    expected = believed_by_scipy(TWELVE_ROLLS) @ GRID[:, 0]
    assert TWELVE.mean_slope() == pytest.approx(expected, abs=1e-5)


@pytest.mark.parametrize("share", [0.5, 0.95])
@pytest.mark.parametrize(
    ("rolls", "flip"), [(NOTHING, math.inf), (TWELVE_ROLLS, 4), (TWELVE_ROLLS, math.inf)]
)
def test_the_minutes_until_a_share_of_rolls_is_dry_are_scipys_root(rolls, flip, share):
    believed = believed_by_scipy(rolls)

    def beyond(hung):
        first = min(hung, flip)
        return believed @ shares_by_scipy(first, hung - first) - share

    ours = Posterior.of([evidence(roll) for roll in rolls]).fan_minutes(share, flip)
    assert ours == pytest.approx(optimize.brentq(beyond, 1, 600), abs=1e-3)
