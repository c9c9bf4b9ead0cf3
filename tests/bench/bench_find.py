"""`filmrack find` as a whole process, beside Python importing what no command can do without.

Run: PYTHONPATH=. python tests/bench/bench_find.py [pairs]
20,000 people, 60 checked rolls in their boxes, 40 rolls that have hung for six minutes, so that all
there is to say of a drying roll is worked out. The goal is a ratio of 1.5. It is the installed
command that runs, where there is one beside this Python. Pairs run by turns; processor time (Unix
only) is given too, since other work on the machine counts less in it.
"""

from __future__ import annotations

import os
import random
import resource
import subprocess
import sys
import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median

from filmrack.acts.drying import touch
from filmrack.acts.fetching import box
from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.group import Hand
from filmrack.acts.hanging import hang
from filmrack.domain.default_room import default_room
from filmrack.domain.names import Person
from filmrack.store import people
from filmrack.store.clock import stand_at
from tests.bench.pairs import installed

START = datetime(2026, 11, 17, 15, 0, tzinfo=UTC)
PEOPLE, CHECKED, HANGING = 20_000, 60, 40
SYLLABLES = list(zip("bcdfghjklmnprstvw", "aoiueaoiueaoiueao", strict=True))


def build(path: Path) -> None:
    """Make the file: names of invented syllables, every roll touched once."""
    dice = random.Random(1)
    room = default_room("America/Chicago", START.date(), positions=10)
    with make_darkroom_file(path, room, START) as file:
        file.conn.execute("PRAGMA synchronous = OFF")
        # More people than have codes of four digits, as a file may hold after many years.
        file.conn.execute("PRAGMA ignore_check_constraints = ON")
        with file.writing() as conn:
            for number in range(1, PEOPLE + 1):
                given, family = (
                    "".join(map("".join, dice.choices(SYLLABLES, k=count))).title()
                    for count in (2, 3)
                )
                people.add(conn, Person(number, given, family))
        at = START
        for clip in range(1, CHECKED + 1):
            at += timedelta(minutes=2)
            hung = hang(file, Hand(at, at), person=dice.randint(1, PEOPLE), clip=clip)
            at += timedelta(minutes=dice.randint(4, 12))
            touch(file, Hand(at, at), hung.roll.id, dry=dice.random() < 0.7)
            box(file, Hand(at, at), [hung.roll.id], period=1)
        for clip in range(CHECKED + 1, CHECKED + HANGING + 1):
            hang(file, Hand(at, at), person=dice.randint(1, PEOPLE), clip=clip)
        with file.writing() as conn:
            stand_at(conn, at + timedelta(minutes=6))


GOAL = 1.5


def seconds(command: list[str], compiled: Path) -> tuple[float, float]:
    """Time one process that finds its modules compiled, as an installed program does.

    Returns seconds on the wall and of the processor.
    """
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(compiled)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    started, used = time.perf_counter(), _processor()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=environment)
    return time.perf_counter() - started, _processor() - used


def _processor() -> float:
    """Return the processor seconds of all processes that were waited for."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def main(pairs: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "darkroom.db"
        build(path)
        compiled = Path(folder) / "compiled"
        bare = [sys.executable, "-c", "import sqlite3, click"]
        filmrack = [*installed(), "--db", str(path), "find"]
        print(f"{'find':<16}{'bare ms':>9}{'find ms':>9}{'ratio':>7}{'processor':>11}  goal {GOAL}")
        for words in (
            ["clip", "17"],
            ["clip", "75"],
            ["lu"],
            ["rod", "3"],
            ["clip", "75", "--json"],
        ):
            ours_ = [*filmrack, *words]
            seconds(bare, compiled), seconds(ours_, compiled)  # compiles
            pairs_ = [(seconds(bare, compiled), seconds(ours_, compiled)) for _ in range(pairs)]
            ratios = [
                median(ours[clock] / base[clock] for base, ours in pairs_) for clock in (0, 1)
            ]
            base, ours = (
                1000 * median(wall for wall, _ in each) for each in zip(*pairs_, strict=True)
            )
            print(
                f"{' '.join(words):<16}{base:>9.1f}{ours:>9.1f}{ratios[0]:>7.2f}{ratios[1]:>11.2f}"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
