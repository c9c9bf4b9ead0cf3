"""What learning costs, beside the same work without it, in one run.

A full room (84 rolls hang) in which 60 rolls have taught the dryer. Goals: a touch check's whole
act within 15 ms; finding a roll pays nothing for what was learned; judging all that hangs takes
less than 2 % of a core when done each second.

Processor time, so that other work on the machine does not count.

    PYTHONPATH=. python tests/bench/bench_learning.py [--acts N]
"""

from __future__ import annotations

import argparse
import tempfile
import time
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path
from statistics import median, quantiles

from filmrack.acts.drying import touch
from filmrack.acts.group import Hand
from filmrack.domain import learning, outlook
from filmrack.domain.attention import Standing
from filmrack.domain.learning import COUNTED_ROLLS
from filmrack.store import lessons, rolls
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.lessons import dryers_for
from filmrack.store.standings import look_for
from tests.desk.full_room import NOW, build

SECOND = timedelta(seconds=1)


def taught(path: Path, checked: int) -> DarkroomFile:
    """Return a full room in which so many rolls were checked."""
    build(path)
    file = open_file(path, write=True)
    for nth, roll in enumerate(rolls.hanging(file.conn)[:checked]):
        at = NOW + nth * SECOND
        touch(file, Hand(at, at), roll.id, dry=nth % 3 > 0)
    return file


def milliseconds(work: Callable[[], object]) -> float:
    began = time.process_time()
    work()
    return 1000 * (time.process_time() - began)


def told(name: str, taken: list[float], goal: str = "") -> None:
    print(
        f"{name:52} median {median(taken):6.2f} ms, 95 % {quantiles(taken, n=20)[-1]:6.2f} {goal}"
    )


def touches(file: DarkroomFile, acts: int) -> list[float]:
    """Touch rolls that hang, one after the other, some of them checked before."""
    hanging = rolls.hanging(file.conn)
    taken = []
    for nth in range(acts):
        at = NOW + timedelta(minutes=2 + nth)
        roll, hand = hanging[-1 - nth % 40].id, Hand(at, at)
        taken.append(milliseconds(partial(touch, file, hand, roll, dry=nth % 3 > 0)))
    return taken


def finding(file: DarkroomFile, line: str, acts: int) -> list[float]:
    """Find as a command does, which remembers nothing of the one before."""
    taken = []
    for _ in range(acts):
        for remembered in (
            outlook._remembered,
            learning._needs,
            learning._doubts,
            lessons._learned,
        ):
            remembered.cache_clear()
        lessons._unlearned.cache_clear()
        taken.append(milliseconds(lambda: look_for(file, line, NOW)))
    return taken


def judged(standing: Standing) -> tuple[object, ...]:
    """Ask for all that a screen shows."""
    return standing.state, standing.why, standing.next, standing.before_bell


def judging(file: DarkroomFile, seconds: int) -> list[float]:
    """Judge all that hangs once a second, as the desk does, over so many seconds."""
    hanging, room = rolls.hanging(file.conn), file.room()
    dryers = dryers_for(file.conn, room, hanging)
    moments = [NOW + timedelta(minutes=10) + n * SECOND for n in range(seconds)]

    def judge_all(at: datetime) -> None:
        for roll in hanging:
            judged(Standing(roll, room, dryers, at))

    return [milliseconds(partial(judge_all, at)) for at in moments]


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--acts", type=int, default=60)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        fresh = taught(Path(folder) / "fresh.db", 0)
        learned = taught(Path(folder) / "learned.db", COUNTED_ROLLS)
        told("find a roll, nothing learned", finding(fresh, "clip 84", options.acts))
        told("find a roll, 60 learned", finding(learned, "clip 84", options.acts), "(the same)")
        told("find one of those that were learned from", finding(learned, "clip 9", options.acts))
        told("a touch check's act, the first ones", touches(fresh, options.acts))
        told("a touch check's act, 60 rolls learned", touches(learned, options.acts), "(goal: 15)")
        taken = judging(learned, 120)
        told("84 hanging rolls judged, while a class is on", taken, "(goal: 20)")
        print(f"{'':52} {sum(taken) / len(taken) / 10:.2f} % of a core, once a second (goal: 2)")


if __name__ == "__main__":
    main()
