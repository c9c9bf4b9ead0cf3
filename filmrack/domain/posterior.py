"""What is believed of one dryer: how long its film takes, how unevenly it blows, how surely.

The posterior lies on the grid of touch.py. The chance that a roll is dry is always its average,
never a point estimate. Prior: median 8 min (log-sd 0.6), spread lognormal around 0.22 (0.45),
slope normal around 0.5 (0.18): wide around common practice (5 to 10 min in a fan cabinet,
flipped halfway), because published figures for still cabinets are slower.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Sequence
from functools import cache
from operator import mul

from filmrack.domain.crossing import LONGEST, SHORTEST, minutes_until
from filmrack.domain.dryer import flipped_after
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.touch import (
    CENTRES,
    MOST_ROLLS,
    NAT,
    SLOPES,
    SPREADS,
    WRONG,
    TimedCheck,
    as_evidence,
    as_number,
    in_order,
    shares,
)

# P(dry) is needed dozens of times a second for every roll, so its sum over centres and spreads
# is tabulated where needed on a fine lattice of ln minutes that contains the centres, and read
# by cubic Hermite interpolation with exact slopes: off by less than 3e-6 for the least spread.
_FINE = 8
_STEP = 0.1 / _FINE
_HALF = _FINE * 55
"""How many steps of the lattice the tables go to each side."""
# What is left out, cell by cell, is less than 2e-6 of everything.
_NEGLIGIBLE = 1e-9
TELLS_APART = 3e-5
"""The least chance of tacky that can be reckoned with further: ten times what its sums are off by.
"""
_ROW = len(CENTRES)


@cache
def _lattice() -> tuple[tuple[list[float], list[float]], ...]:
    """Return, for each spread, the normal share below each point and its density times the step.

    Worked out from the middle upwards to eight spreads, beyond which floats know but 1 and 0; the
    other half mirrors it.
    """
    erf, exp, whole = math.erf, math.exp, _HALF + 1
    tables = []
    for spread in SPREADS:
        step, peak = _STEP / spread * math.sqrt(0.5), _STEP / spread / math.sqrt(2 * math.pi)
        near = min(whole, math.ceil(8 * spread / _STEP))
        upper = [0.5 + 0.5 * erf(step * n) for n in range(near)] + [1.0] * (whole - near)
        densities = [peak * exp(-((step * n) ** 2)) for n in range(near)] + [0.0] * (whole - near)
        mirrored = [1 - share for share in upper[:0:-1]]
        tables.append((mirrored + upper, densities[:0:-1] + densities))
    return tuple(tables)


@cache
def prior_evidence() -> array[int]:
    """Return what is held against every cell before anything was taught, see `evidence`."""

    def bend(value: float, centre: float, sd: float) -> float:
        return 0.5 * ((value - centre) / sd) ** 2

    slopes = [bend(s, 0.5, 0.18) for s in SLOPES]
    spreads = [bend(math.log(spread), math.log(0.22), 0.45) for spread in SPREADS]
    centres = [bend(centre, math.log(8), 0.6) for centre in CENTRES]
    against = [s + spread + centre for s in slopes for spread in spreads for centre in centres]
    return array("I", [round(NAT * each) for each in against])


def _live(row: Sequence[float]) -> tuple[Sequence[float], int]:
    """Return the part of a row of weights that matters, and where it begins."""
    if min(row[0], row[-1]) > _NEGLIGIBLE:
        return row, 0
    ends = [n for n, weight in enumerate(row) if weight > _NEGLIGIBLE]
    return (row[ends[0] : ends[-1] + 1], ends[0]) if ends else ((), 0)


_Weights = Sequence[Sequence[float]]
"""Of each spread, and of each centre in it."""


class _Slope:
    """The part of a posterior at one slope: its weight, and P(need < x) as a lazy table.

    `weights` are those of each spread, at as many centres, of which the first are `CENTRES`.
    """

    __slots__ = ("_least", "_nodes", "_rows", "s", "weight")

    def __init__(self, s: float, weights: _Weights) -> None:
        rows = [row[::-1] for row in weights]
        self.s = s
        self.weight = sum(map(sum, rows))
        self._least = _FINE * (len(rows[0]) - 1) - _HALF
        self._rows = [
            (live, _FINE * first - self._least, cdf, density)
            for (live, first), (cdf, density) in zip(map(_live, rows), _lattice(), strict=True)
            if live
        ]
        self._nodes: dict[int, tuple[float, float]] = {}

    def _node(self, n: int) -> tuple[float, float]:
        found = self._nodes.get(n)
        if found is None:
            share = rise = 0.0
            for live, first, cdf, density in self._rows:
                start = n + first
                cut = slice(start, start + _FINE * len(live), _FINE)
                share += sum(map(mul, live, cdf[cut]))
                rise += sum(map(mul, live, density[cut]))
            found = self._nodes[n] = share, rise
        return found

    def below(self, x: float) -> float:
        """Return P(need < x)."""
        place = (math.log(x) - CENTRES[0]) / _STEP
        n = math.floor(place)
        if n < self._least:
            return 0.0
        if n >= _HALF:
            return self.weight
        t = place - n
        (low, rise), (high, fall) = self._node(n), self._node(n + 1)
        bend = low - high
        return low + t * (rise + t * (-3 * bend - 2 * rise - fall + t * (2 * bend + rise + fall)))

    def at_least_below(self, x: float) -> float:
        """Return P(need < x) at the next lower step of the centres: less, and the same for many."""
        n = _FINE * math.floor(10 * (math.log(x) - CENTRES[0]))
        return 0.0 if n < self._least else self._node(min(n, _HALF))[0]


def _unflipped(weights: Sequence[_Weights]) -> _Slope:
    """Return what film that is never turned over needs, all slopes in one part.

    At each slope it needs so many times the minutes of film that is flipped halfway; rounded up
    to whole steps of the centres, these move its weights along.
    """
    later = [math.ceil(-10 * math.log(dryer_minutes(1, 0, s))) for s in SLOPES]
    longest = max(later)
    moved = [
        [[*[0.0] * late, *row, *[0.0] * (longest - late)] for row in rows]
        for late, rows in zip(later, weights, strict=True)
    ]
    return _Slope(0.0, _summed(moved))


def _summed(weights: Sequence[_Weights]) -> _Weights:
    return [list(map(sum, zip(*rows, strict=True))) for rows in zip(*weights, strict=True)]


class Posterior:
    """What is believed of a dryer. Compared by identity; build it once per change and keep it."""

    __slots__ = ("_halfway", "_slopes", "_spread", "_unflipped", "_weights", "against")

    def __init__(self, against: array[int]) -> None:
        """Take what is said against every cell, see `evidence`; any constant may be missing."""
        exp, least, unit = math.exp, min(against), 1 / NAT
        weights = [exp((least - each) * unit) for each in against]
        sums = [sum(weights[n : n + _ROW]) for n in range(0, len(weights), _ROW)]
        scale = 1 / math.fsum(sums)
        rows = [[scale * w for w in weights[n : n + _ROW]] for n in range(0, len(weights), _ROW)]
        self._weights = [rows[n : n + len(SPREADS)] for n in range(0, len(rows), len(SPREADS))]
        parts = [_Slope(s, share) for s, share in zip(SLOPES, self._weights, strict=True)]
        self.against = against
        # Film flipped exactly halfway needs the same minutes whatever the slope.
        self._halfway = _Slope(0.0, _summed(self._weights))
        self._slopes = [part for part in parts if part.weight > _NEGLIGIBLE]
        self._spread = scale * math.fsum(map(mul, sums, SPREADS * len(SLOPES)))
        self._unflipped: _Slope | None = None

    @classmethod
    def prior(cls) -> Posterior:
        """Return what is believed of a dryer that has taught nothing."""
        return cls(prior_evidence())

    @classmethod
    def of(cls, evidences: Sequence[array[int]]) -> Posterior:
        """Return the prior with what checked rolls say.

        Raises ValueError for more than 60, which four bytes a cell may not hold.
        """
        if len(evidences) > MOST_ROLLS:
            raise ValueError(f"the evidence of {len(evidences)} rolls is too much for one sum")
        return cls(as_evidence(sum(map(as_number, [prior_evidence(), *evidences]))))

    def without(self, evidence: array[int]) -> Posterior:
        """Return this posterior as if one of its rolls had not been counted."""
        return Posterior(as_evidence(as_number(self.against) - as_number(evidence)))

    def p_dry(self, a: float, b: float) -> float:
        """Return the chance that a roll without checks of its own is dry.

        `a` and `b` are effective minutes the first way up and flipped.
        """
        if a + b <= 0:
            return 0.0
        return min(1.0, sum(part.below(dryer_minutes(a, b, part.s)) for part in self._slopes))

    def p_dry_at_least(self, a: float, b: float) -> float:
        """Return a chance that is not above `p_dry`, one for all film that has had about as much.

        (Above it by no more than 2e-6, which either sum may leave out.)
        It is that of film never turned over, which had only the longer of both, or of film flipped
        exactly halfway, which had only the shorter twice. Where this is enough, many rolls are
        judged by a few sums.
        """
        longer, shorter = max(a, b), min(a, b)
        if longer <= 0:
            return 0.0
        if self._unflipped is None:
            self._unflipped = _unflipped(self._weights)
        never = self._unflipped.at_least_below(longer)
        return never if shorter <= 0 else max(never, self._halfway.at_least_below(2 * shorter))

    def left_open(self, checks: Sequence[TimedCheck]) -> float:
        """Return by how much a roll's own checks change its chance of being tacky ever after.

        The checks must not be counted in this posterior already. Exact: what a roll's checks
        leave open past the last of them is w·(1 − F), out of a likelihood that is linear in F,
        and both average cell by cell into the p_dry of rolls without checks.
        """
        ordered = in_order(checks)
        last, steps = shares([check.dry for check in ordered], WRONG)
        marginal = last + sum(
            step * self.p_dry(check.a, check.b) for step, check in zip(steps, ordered, strict=True)
        )
        return last / marginal

    def fan_minutes(
        self, p: float, flip: float = math.inf, *, least: float = SHORTEST, most: float = LONGEST
    ) -> float:
        """Return the fan minutes until the chance of dry is `p`, flipped once after `flip`.

        They are sought from `least` to `most`: the nearer these are, the sooner they are found.
        """
        return minutes_until(lambda x: self.p_dry(*flipped_after(flip, x)) - p, least, most)

    def needs(self, p: float) -> float:
        """Return the minutes, flipped exactly halfway, within which a share `p` of rolls dries."""
        return minutes_until(lambda x: self._halfway.below(x) - p)

    def mean_spread(self) -> float:
        """Return the mean of how much rolls of this dryer may differ (sd of ln minutes)."""
        return self._spread

    def mean_slope(self) -> float:
        """Return the mean of what the slope of this cabinet's air may be."""
        return sum(part.s * part.weight for part in self._slopes)
