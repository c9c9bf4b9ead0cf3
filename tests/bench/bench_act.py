"""One act, beside the bare statements that write the same rows with the same durability.

Run: PYTHONPATH=. python tests/bench/bench_act.py [acts]
A first copy of the file tells which statements each act writes; then a second copy acts while a
third one only writes those, and a fourth one the same with whole rows of rolls, in turn: an act
compares what it writes with what is kept, and spares the indexes what has not changed; a program
that does not compare writes the row. The goal is 1.5 × the whole rows, also for what teaches the
dryer (touch, and box where it implies that the film is dry), and for hanging, which says whether
the film will be dry before the bell.
"""

from __future__ import annotations

import re
import shutil
import sqlite3
import sys
import tempfile
from collections.abc import Callable
from datetime import timedelta
from functools import partial
from pathlib import Path
from statistics import median

from filmrack.acts.drying import flip, touch
from filmrack.acts.fetching import box
from filmrack.acts.group import Hand
from filmrack.acts.hanging import hang, load
from filmrack.store.file import DarkroomFile, open_file
from tests.bench.bench_find import START, build
from tests.bench.pairs import ms

CHANGES_A_ROLL = re.compile(r"UPDATE rolls SET (?!place = 'void').* WHERE id = (\d+)", re.DOTALL)
WRITES = ("INSERT", "UPDATE", "DELETE", "BEGIN", "COMMIT")
LATER = START + timedelta(days=1)

Act = Callable[[DarkroomFile, Hand, int], object]

ACTS: dict[str, Act] = {
    "load": lambda file, hand, n: load(file, hand, n % 900 + 1, [200 + n]),
    "hang": lambda file, hand, n: hang(file, hand, roll=101 + n, rod=6, position=n % 9 + 1),
    "flip": lambda file, hand, n: flip(file, hand, [101 + n]),
    "touch": lambda file, hand, n: touch(file, hand, 101 + n, dry=n % 3 > 0),
    "box": lambda file, hand, n: box(file, hand, [101 + n], period=1),
}
"""A life of a roll, one roll after the other."""


def hand(n: int, step: int) -> Hand:
    """Return the nth roll's moments: four rolls in a class of every school day.

    No two dry for equally long, so that each check teaches something new.
    """
    day = n // 4 + 2 * ((LATER.weekday() + n // 4) // 5)
    minutes = 11 * (n % 4) + (0, 1, 4, 7, 9)[step]
    at = LATER + timedelta(days=day, minutes=minutes, seconds=n if step > 1 else 0)
    return Hand(at, at)


def written(file: DarkroomFile, act: Callable[[], object]) -> list[str]:
    statements: list[str] = []
    file.conn.set_trace_callback(statements.append)
    act()
    file.conn.set_trace_callback(None)
    # SQLite shows infinity in a way that it does not read.
    return [each.replace(", Inf", ", 9e999") for each in statements if each.startswith(WRITES)]


def with_whole_rows(conn: sqlite3.Connection, statements: list[str]) -> list[str]:
    """Return the same statements, but each that changes a roll writes the whole of its row."""
    columns = [row["name"] for row in conn.execute("PRAGMA table_info(rolls)").fetchall()]
    row = " || ', ' || ".join(f"quote({name})" for name in columns)
    upsert = f"INSERT INTO rolls ({', '.join(columns)}) VALUES (%s) ON CONFLICT (id) DO UPDATE SET"
    upsert += ", ".join(f" {name} = excluded.{name}" for name in columns if name != "id")
    whole = []
    for statement in statements:
        of_roll = CHANGES_A_ROLL.fullmatch(statement)
        if of_roll is not None:
            kept = conn.execute(f"SELECT {row} FROM rolls WHERE id = {of_roll[1]}").fetchone()[0]
            whole.append(upsert % kept)
        else:
            whole.append(statement)
    return whole


def replay(conn: sqlite3.Connection, statements: list[str]) -> None:
    for statement in statements:
        conn.execute(statement)


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "0.db"
        build(path)
        copies = [Path(shutil.copy(path, Path(folder) / f"{nth}.db")) for nth in range(1, 5)]
        told, ours, bare, whole = (open_file(copy, write=True) for copy in copies)
        times: dict[str, list[tuple[float, float, float]]] = {name: [] for name in ACTS}
        for n in range(count):
            for step, (name, act) in enumerate(ACTS.items()):
                by = hand(n, step)
                same = written(told, partial(act, told, by, n))
                rows = with_whole_rows(told.conn, same)
                times[name].append(
                    (
                        ms(partial(replay, whole.conn, rows)),
                        ms(partial(replay, bare.conn, same)),
                        ms(partial(act, ours, by, n)),
                    )
                )
        heads = ("whole rows", "same", "act", "95 %", "× whole", "× same")
        print(f"{'ms':<8}{''.join(f'{head:>12}' for head in heads)}")
        for name, found in times.items():
            rows, same, took = (median(column) for column in zip(*found, strict=True))
            high = sorted(act for *_, act in found)[int(0.95 * len(found))]
            ratios = [median(act / each[peer] for *each, act in found) for peer in (0, 1)]
            print(f"{name:<8}{''.join(f'{n:>12.2f}' for n in (rows, same, took, high, *ratios))}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
