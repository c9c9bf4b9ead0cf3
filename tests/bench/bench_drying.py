"""How honest is "dry": simulated cabinets, learned from simulated touch checks.

Every cabinet has a median, a spread and a slope that the model is not told. Its rolls are
flipped in time (a half), late or never (a quarter each); they are touched about when a touch is
worth while, again after a tacky, and 2.5 % of the answers are wrong. After 10, 15, 20 … 60 rolls
the question is when the desk would call the next one dry (asked of an outlook, as every screen
does), how often it would be tacky then (from the cabinet's true distribution, so without sampling
noise of single rolls), and how much later that is than an oracle would say it who knows median,
spread and slope.

A cell is one kind of cabinet (median, spread, slope) over all kinds of rolls as they come; the
goal is 6 % tacky in any cell and 1.1 times the oracle's wait. What each kind of roll has on its
own stands beside it. Run on one core: about two minutes.

    python tests/bench/bench_drying.py [--quick] [--cabinets N] [--seed S] [--processes P]
"""

from __future__ import annotations

import argparse
import itertools
import math
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from statistics import NormalDist

import numpy as np

from filmrack.domain.course import LIKELY, DryingRules
from filmrack.domain.dryer import FanRun, WayUp
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.learning import SURE, CheckedRoll, Learned
from filmrack.domain.outlook import Outlook, course_of
from filmrack.domain.touch import WRONG, TimedCheck
from tests.domain.taught import learn
from tests.domain.until_dry import total_flipped_at, total_unflipped

MEDIANS, SPREADS, SLOPES = (4, 8, 13, 20), (0.1, 0.2, 0.35), (0.2, 0.5, 0.8)
ASKED_AT = range(10, 61, 5)
EARLY = 25
PATTERNS = {"in time": 0.5, "late": 0.25, "never": 0.25}
SHARES = np.array(list(PATTERNS.values()))
LONGEST = 600.0
MINUTE = timedelta(minutes=1)
HUNG = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
FAN = (FanRun(HUNG, HUNG + LONGEST * MINUTE),)
NO_NIGHT = DryingRules(overnight_hours=LONGEST)


@dataclass(frozen=True, slots=True)
class Cabinet:
    """What one cabinet is truly like: median minutes, spread of their logarithm, slope."""

    median: float
    spread: float
    slope: float

    def total(self, need: float, flip: float) -> float:
        """Return the minutes until a roll that needs `need` is dry, flipped once after `flip`."""
        if math.isinf(flip):
            return total_unflipped(need, self.slope)
        return total_flipped_at(flip, need, self.slope)

    def tacky_share(self, minutes: float, flip: float) -> float:
        """Return the share of rolls that are tacky after so many minutes."""
        x = dryer_minutes(min(minutes, flip), max(0.0, minutes - flip), self.slope)
        return 1 - NormalDist(math.log(self.median), self.spread).cdf(math.log(x))

    def oracle(self, flip: float) -> float:
        """Return the minutes after which 95 % of rolls are dry."""
        need = math.exp(NormalDist(math.log(self.median), self.spread).inv_cdf(SURE))
        return self.total(need, flip)


def flip_of(pattern: str, learned: Learned, rng: np.random.Generator) -> float:
    """Return after how many minutes a roll of this pattern is flipped."""
    if pattern == "never":
        return math.inf
    stretch = rng.uniform(0.85, 1.15) if pattern == "in time" else rng.uniform(1.3, 2.2)
    return learned.flip * float(stretch)


def checked(
    cabinet: Cabinet, flip: float, worth: float, rng: np.random.Generator
) -> list[TimedCheck]:
    """Return the touch checks of one roll, the first about when it is worth while."""
    need = cabinet.median * math.exp(cabinet.spread * rng.standard_normal())
    total, minutes = cabinet.total(need, flip), worth * math.exp(0.15 * rng.standard_normal())
    checks: list[TimedCheck] = []
    while len(checks) < 4 and not (checks and checks[-1].dry):
        dry = (minutes >= total) != (rng.random() < WRONG)
        checks.append(TimedCheck(min(minutes, flip), max(0.0, minutes - flip), bool(dry)))
        minutes *= rng.uniform(1.15, 1.4)
    return checks


def said_dry(learned: Learned, flip: float) -> float:
    """Return the minutes after which "dry" is said of a roll without checks of its own."""
    stays = [WayUp(HUNG)]
    if not math.isinf(flip):
        turned = HUNG + flip * MINUTE
        stays = [WayUp(HUNG, turned), WayUp(turned, flipped=True)]
    said = Outlook(course_of(stays, FAN, (), learned, rules=NO_NIGHT), HUNG).dry_at
    return LONGEST if said is None else (said - HUNG) / MINUTE


def rolls_of(
    cabinet: Cabinet, rng: np.random.Generator, upto: int = ASKED_AT[-1]
) -> Iterator[tuple[int, Learned]]:
    """Yield what a cabinet has taught after 0, 5, 10 … rolls."""
    rolls: list[CheckedRoll] = []
    names, shares = list(PATTERNS), list(PATTERNS.values())
    for start in range(0, upto + 1, 5):
        learned = learn(rolls)
        yield start, learned
        worth: dict[str, float] = {}
        for pattern in rng.choice(names, size=5, p=shares):
            flip = flip_of(str(pattern), learned, rng)
            if pattern not in worth:
                worth[pattern] = learned.posterior.fan_minutes(LIKELY, flip)
            rolls.append(CheckedRoll.of(checked(cabinet, flip, worth[pattern], rng)))


def study(cell: tuple[Cabinet, int, int]) -> tuple[Cabinet, list[np.ndarray], float]:
    """Return the share unproven, and (tacky share, minutes, oracle's minutes).

    The latter as one array a cabinet: times asked × patterns × 4, the last being how many rolls
    had been checked.
    """
    cabinet, cabinets, seed = cell
    rng = np.random.default_rng(seed)
    answers: list[np.ndarray] = []
    unproven = asked = 0
    for _ in range(cabinets):
        rows: list[list[tuple[float, float, float, int]]] = []
        for count, learned in rolls_of(cabinet, rng):
            if count not in ASKED_AT:
                continue
            asked += 1
            unproven += not learned.proven
            if learned.proven:
                flips = [flip_of(pattern, learned, rng) for pattern in PATTERNS]
                said = [said_dry(learned, flip) for flip in flips]
                rows.append(
                    [
                        (cabinet.tacky_share(x, flip), x, cabinet.oracle(flip), count)
                        for x, flip in zip(said, flips, strict=True)
                    ]
                )
        if rows:
            answers.append(np.array(rows))
    return cabinet, answers, unproven / asked


def first_rolls(cabinets: int, seed: int) -> None:
    """Print how honest the 40 fan minutes of an unproven dryer are, alone and with P(dry)."""
    print("\nunproven, 5 rolls learned, never flipped, spread 0.2, slope 0.5:")
    print("median | tacky at 40 fan minutes | tacky when the chance is 0.95 too | minutes")
    for median in (8, 20, 26, 32):
        cabinet, rng = Cabinet(median, 0.2, 0.5), np.random.default_rng(seed)
        said = []
        for _ in range(cabinets):
            *_, (_, learned) = rolls_of(cabinet, rng, 5)
            said.append(said_dry(Learned(learned.posterior), math.inf))
        tacky = np.mean([cabinet.tacky_share(x, math.inf) for x in said])
        plain = cabinet.tacky_share(40, math.inf)
        print(f"{median:6} | {plain:23.1%} | {tacky:33.1%} | {np.mean(said):7.1f}")


def never_logged(cabinets: int, seed: int) -> None:
    """Print how often anything is called dry where nobody tells of a tacky result."""
    rng = np.random.default_rng(seed)
    proven = 0
    for _ in range(cabinets):
        cabinet = Cabinet(float(rng.uniform(4, 20)), 0.2, 0.5)
        worth = learn([]).posterior.fan_minutes(LIKELY, math.inf)
        found = [checked(cabinet, math.inf, worth, rng)[-1] for _ in range(ASKED_AT[-1])]
        proven += learn([CheckedRoll.of([check]) for check in found if check.dry]).proven
    print(f"tacky results never logged: {proven / cabinets:.0%} of cabinets call any roll dry")


def tell(
    cabinet: Cabinet, answers: list[np.ndarray], unproven: float
) -> tuple[np.floating, np.floating]:
    """Print a cell's row; return its tacky share, and its wait over the oracle's."""
    asked = np.concatenate(answers)
    tacky, said, oracle, _ = SHARES @ asked.mean(axis=0)
    early = asked[:, 0, 3] <= EARLY
    of_cabinets = [SHARES @ rows[:, :, 0].mean(axis=0) for rows in answers]
    error = np.std(of_cabinets) / math.sqrt(len(of_cabinets))
    columns = [
        f"{cabinet.median:6}",
        f"{cabinet.spread:6}",
        f"{cabinet.slope:5}",
        f"{tacky:5.1%} ± {error:4.1%}",
        f"{SHARES @ asked[early, :, 0].mean(axis=0):7.1%}",
        f"{SHARES @ asked[~early, :, 0].mean(axis=0):5.1%}",
        *(f"{share:7.1%}" for share in asked[:, :, 0].mean(axis=0)),
        f"{said / oracle:4.2f}",
        f"{unproven:8.0%}",
    ]
    print(" | ".join(columns), flush=True)
    return tacky, said / oracle


def main() -> None:
    """Run the study and print its table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--quick", action="store_true", help="six cells, few cabinets")
    parser.add_argument("--slope", type=float, help="only cabinets of this slope")
    parser.add_argument("--cabinets", type=int, help="simulated cabinets in each cell")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=1)
    options = parser.parse_args()
    cells = list(itertools.starmap(Cabinet, itertools.product(MEDIANS, SPREADS, SLOPES)))
    cells = cells[::7] if options.quick else cells
    cells = [cell for cell in cells if options.slope in (None, cell.slope)]
    cabinets = options.cabinets or (3 if options.quick else 12)
    began = time.perf_counter()
    jobs = [(cell, cabinets, options.seed + i) for i, cell in enumerate(cells)]
    print(f"{cabinets} cabinets a cell, seed {options.seed}; tacky though called dry, wait/oracle")
    print(
        "median | spread | slope | tacky ± s.e. | 10 – 25 |  > 25 | "
        f"{' | '.join(f'{name:7}' for name in PATTERNS)} | wait | unproven"
    )
    everything = []
    with ProcessPoolExecutor(options.processes) as pool:
        for cabinet, answers, unproven in pool.map(study, jobs):
            everything.append(tell(cabinet, answers, unproven))
    tacky, wait = np.array(everything).T
    print(
        f"tacky {tacky.min():.1%} to {tacky.max():.1%}, mean {tacky.mean():.1%}; "
        f"wait {wait.min():.2f} to {wait.max():.2f}; {time.perf_counter() - began:.0f} s"
    )
    never_logged(5, options.seed)
    first_rolls(4 if options.quick else 40, options.seed)


if __name__ == "__main__":
    main()
