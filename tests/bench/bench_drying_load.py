"""Can touch checks teach what other wet rolls cost? The drying model with and without a load.

Film in a full dryer takes 7 to 30 % longer than in an empty one (12 rolls instead of 2; a
working figure, no source). Here a roll's minutes are stretched by 1 + β·load, load 0 (2 wet
rolls beside it) to 1 (12 of them). "without" is the model as it is; "with" adds β = 0, 0.1, 0.2,
0.3 to its grid, all as likely, and knows each roll's load, exactly or roughly (off by a
quarter). Rolls are flipped halfway, 40 of them are checked, and the next is asked about in an
empty and in a full dryer.

    python tests/bench/bench_drying_load.py [--quick] [--cabinets N] [--seed S]
"""

from __future__ import annotations

import argparse
import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from scipy.special import ndtr

from filmrack.domain.crossing import crossing
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.posterior import Posterior, prior_evidence
from filmrack.domain.touch import CENTRES, NAT, SLOPES, SPREADS, WRONG, TimedCheck, evidence, shares
from tests.domain.until_dry import total_flipped_at

ROLLS, SURE = 40, 0.95
SLOPE, LATE = 0.5, 0.25

Floats = np.ndarray[tuple[int, ...], np.dtype[np.float64]]


@dataclass(frozen=True, slots=True)
class Seen:
    """One roll as the record has it: its load between 0 and 1, and its checks."""

    load: float
    checks: Sequence[TimedCheck]


class Loaded:
    """The drying model's posterior, over stretches β besides slope, spread and centre."""

    def __init__(self, betas: Sequence[float]) -> None:
        self.beta = np.array(betas)[:, None, None, None]
        self.spread = np.array(SPREADS)[None, None, :, None]
        self.centre = np.array(CENTRES)[None, None, None, :]
        prior = -np.array(prior_evidence()).reshape(len(SLOPES), len(SPREADS), -1) / NAT
        self.logs = np.zeros((len(betas), *prior.shape)) + prior

    def below(self, a: float, b: float, load: float) -> Floats:
        """Return the share of rolls that are dry, in every cell."""
        x = np.array([dryer_minutes(a, b, s) for s in SLOPES])[None, :, None, None]
        stretched = np.log(x) - np.log1p(self.beta * load)
        return np.asarray(ndtr((stretched - self.centre) / self.spread))

    def learn(self, roll: Seen) -> None:
        """Add one roll's checks."""
        last, steps = shares([check.dry for check in roll.checks])
        likelihood = last + sum(
            step * self.below(check.a, check.b, roll.load)
            for step, check in zip(steps, roll.checks, strict=True)
        )
        self.logs = self.logs + np.log(likelihood)

    def minutes(self, p: float, flip: float, load: float) -> float:
        """Return the minutes until the chance of dry is `p`."""
        weights = np.exp(self.logs - self.logs.max())
        weights /= weights.sum()
        live = weights > 1e-12

        def beyond(x: float) -> float:
            shares_dry = self.below(min(x, flip), max(1e-9, x - flip), load)
            return float((weights * shares_dry)[live].sum()) - p

        found = crossing(beyond, 1e-3, 300.0, to=0.02)
        return 300.0 if found is None else found


def agrees_with_the_model() -> None:
    """Stop unless the grid without a stretch says what the drying model says."""
    ours, checks = Loaded([0.0]), [TimedCheck(4, 3, False), TimedCheck(4, 5, True)]
    ours.learn(Seen(1.0, checks))
    theirs = Posterior.of([evidence(checks)])
    assert abs(ours.minutes(SURE, 4, 0.0) - theirs.fan_minutes(SURE, 4)) < 0.05


def cabinet(
    beta: float, error: float, rng: np.random.Generator
) -> dict[str, list[tuple[float, float]]]:
    """Return (tacky share, wait over the oracle's) in an empty and a full dryer, per model."""
    median, spread = float(rng.uniform(5, 15)), float(rng.uniform(0.1, 0.3))
    models = {"without": Loaded([0.0]), "with": Loaded([0.0, 0.1, 0.2, 0.3])}
    flip, worth = median / 2, median
    for _ in range(ROLLS):
        load = float(rng.uniform())
        need = median * math.exp(spread * rng.standard_normal()) * (1 + beta * load)
        total = total_flipped_at(flip, need, SLOPE)
        minutes, checks = worth * math.exp(LATE * rng.standard_normal()), list[TimedCheck]()
        while len(checks) < 4 and not (checks and checks[-1].dry):
            dry = (minutes >= total) != (rng.random() < WRONG)
            checks.append(TimedCheck(min(minutes, flip), max(0.0, minutes - flip), bool(dry)))
            minutes *= rng.uniform(1.15, 1.4)
        known = min(1.0, max(0.0, load + error * rng.standard_normal()))
        for model in models.values():
            model.learn(Seen(known, checks))
    return {
        name: [asked(model, load, (median, spread, beta), flip) for load in (0.0, 1.0)]
        for name, model in models.items()
    }


def asked(
    model: Loaded, load: float, true: tuple[float, float, float], flip: float
) -> tuple[float, float]:
    """Return how often "dry" would be tacky under this load, and the wait over the oracle's."""
    median, spread, beta = true
    said = model.minutes(SURE, flip, load)
    centre = math.log(median * (1 + beta * load))
    x = dryer_minutes(min(said, flip), max(0.0, said - flip), SLOPE)
    needs = NormalDist(centre, spread)
    oracle = total_flipped_at(flip, math.exp(needs.inv_cdf(SURE)), SLOPE)
    return 1 - needs.cdf(math.log(x)), said / oracle


def main() -> None:
    """Run the comparison and print its table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--quick", action="store_true", help="few cabinets")
    parser.add_argument("--cabinets", type=int, help="simulated cabinets in each row")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    cabinets = options.cabinets or (4 if options.quick else 40)
    agrees_with_the_model()
    print(f"{cabinets} cabinets a row, {ROLLS} checked rolls each, seed {options.seed}")
    print("true β | load known | model   | tacky: empty, full, mean | wait: empty, full, mean")
    for beta in (0.0, 0.07, 0.15, 0.3):
        for error in (0.0, 0.25):
            rng = np.random.default_rng(options.seed)
            seen = [cabinet(beta, error, rng) for _ in range(cabinets)]
            for name in ("without", "with"):
                means = np.array([each[name] for each in seen]).mean(axis=0)
                (empty, wait_empty), (full, wait_full) = means
                print(
                    f"{beta:6} | {'roughly' if error else 'exactly':10} | {name:7} | "
                    f"{empty:12.1%}, {full:4.1%}, {(empty + full) / 2:4.1%} | "
                    f"{wait_empty:11.2f}, {wait_full:.2f}, {(wait_empty + wait_full) / 2:.2f}",
                    flush=True,
                )


if __name__ == "__main__":
    main()
