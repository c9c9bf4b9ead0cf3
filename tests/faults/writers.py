"""Processes that write to one darkroom file while others are killed, for tests and measurements.

Run by itself (`python tests/faults/writers.py kill FILE KILLS SEED`), since a process is only
forked safely while it has one thread. Prints one JSON document.
"""

from __future__ import annotations

import json
import os
import random
import select
import signal
import sqlite3
import sys
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path

from filmrack.acts import drying, fetching, hanging, undoing
from filmrack.acts.group import Hand
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.store import checking, rolls
from filmrack.store.file import DarkroomFile, open_file

START = datetime(2026, 11, 17, 15, 0, tzinfo=UTC)
PROCESSES = 4


def acts(file: DarkroomFile, hand: Hand, chance: random.Random) -> None:
    """Do one thing of a busy class; most of them write several entries that belong together."""
    clip = chance.randint(1, 30)
    person = chance.randint(1, 3)
    on = rolls.on_clip(file.conn, clip)
    match chance.randint(0, 6):
        case 0:
            hanging.load(file, hand, person, [clip, clip + 100])
        case 1 if on is not None:
            drying.flip(file, hand, [on.id])
        case 2 if on is not None:
            drying.touch(file, hand, on.id, dry=chance.random() < 0.5)
        case 3:
            hung = [roll.id for roll in rolls.hanging(file.conn)]
            fetching.box(file, hand, hung[:3])
        case 4:
            undoing.undo(file, hand)
        case _:
            hanging.hang(file, hand, person=person, clip=clip)


def write(path: Path, name: str, seed: int, told: int, until: float | None) -> None:
    """Act as one desk; after each act that was acknowledged, tell its group.

    A line is one write of few bytes to a pipe, which is whole or not there (POSIX write(2)).
    """
    chance = random.Random(seed)
    with open_file(path, write=True) as file:
        while until is None or time.monotonic() < until:
            latest = file.conn.execute("SELECT count(*) FROM ledger").fetchone()[0]
            now = START + timedelta(seconds=latest)
            try:
                acts(file, Hand(now, now, name), chance)
            except Refused:
                continue
            except FileTrouble as trouble:
                os.write(told, f"trouble {trouble}\n".encode()[:400])
                return
            mine = file.conn.execute(
                "SELECT act_group, count(*) FROM ledger WHERE desk = ? GROUP BY act_group"
                " ORDER BY act_group DESC LIMIT 1",
                (name,),
            ).fetchone()
            os.write(told, f"done {mine[0]} {mine[1]}\n".encode())


@dataclass
class Writers:
    """Forked desks, and what they told."""

    path: Path
    done: dict[int, int] = field(default_factory=dict)
    """Entries of each acknowledged group."""
    trouble: list[str] = field(default_factory=list)
    living: dict[int, int] = field(default_factory=dict)
    """Where each process tells."""
    _begun: int = 0

    def begin(self, seed: int, until: float | None = None) -> int:
        self._begun += 1
        reads, writes = os.pipe()
        child = os.fork()
        if child == 0:
            code = 1
            with suppress(KeyboardInterrupt):
                os.close(reads)
                write(self.path, f"desk {self._begun}", seed + self._begun, writes, until)
                code = 0
            os._exit(code)
        os.close(writes)
        self.living[child] = reads
        return child

    def kill(self, child: int) -> None:
        os.kill(child, signal.SIGKILL)
        self.end(child)

    def end(self, child: int) -> None:
        """Wait for a process, and hear all that it has told."""
        reads = self.living.pop(child)
        heard = b""
        while some := os.read(reads, 65536):
            heard += some
        os.close(reads)
        os.waitpid(child, 0)
        self._hear(heard)

    def listen(self, seconds: float) -> None:
        """Let the pipes never fill while time goes by."""
        end = time.monotonic() + seconds
        open_still = list(self.living.values())
        while (left := end - time.monotonic()) > 0:
            ready, _, _ = select.select(open_still, [], [], left)
            for reads in ready:
                if not (some := os.read(reads, 1 << 20)):
                    open_still.remove(reads)
                self._hear(some)

    def _hear(self, heard: bytes) -> None:
        for line in heard.decode().splitlines():
            what, *rest = line.split(" ", 1)
            if what == "done":
                group, entries = map(int, rest[0].split())
                self.done[group] = entries
            else:
                self.trouble.append(line)


def lost(path: Path, done: dict[int, int]) -> dict[str, object]:
    """Return what is not as it was acknowledged; opens the file as the next start would."""
    with open_file(path, write=True) as file:
        kept = dict(
            file.conn.execute(
                "SELECT act_group, count(*) FROM ledger GROUP BY act_group"
            ).fetchall()
        )
        doubled = file.conn.execute(
            "SELECT count(*) FROM (SELECT 1 FROM rolls WHERE rod IS NOT NULL"
            " GROUP BY rod, position HAVING count(*) > 1)"
        ).fetchone()[0]
        return {
            "acts": len(kept),
            "acknowledged": len(done),
            "lost": [group for group in done if group not in kept],
            "half": [group for group in done if kept.get(group, done[group]) != done[group]],
            "doubled": doubled,
            "problems": checking.problems(file),
        }


def kill_many(path: Path, kills: int, seed: int) -> dict[str, object]:
    """Kill one of four desks at random moments, and begin another in its place."""
    chance = random.Random(seed)
    writers = Writers(path)
    began = time.monotonic()
    for _ in range(PROCESSES):
        writers.begin(seed)
    for _ in range(kills):
        writers.listen(chance.uniform(0, 0.12))
        writers.kill(chance.choice(list(writers.living)))
        writers.begin(seed)
    for child in list(writers.living):
        writers.kill(child)
    seconds = time.monotonic() - began
    return {
        "kills": kills + PROCESSES,
        "seconds": round(seconds, 1),
        "trouble": writers.trouble,
        **lost(path, writers.done),
    }


def write_for(path: Path, seconds: float, seed: int) -> dict[str, object]:
    """Let four desks write side by side."""
    writers = Writers(path)
    until = time.monotonic() + seconds
    for _ in range(PROCESSES):
        writers.begin(seed, until)
    writers.listen(seconds)
    for child in list(writers.living):
        writers.end(child)
    return {"seconds": seconds, "trouble": writers.trouble, **lost(path, writers.done)}


def main() -> None:
    what, path, number, seed = sys.argv[1:]
    run: Callable[[], dict[str, object]] = {
        "kill": lambda: kill_many(Path(path), int(number), int(seed)),
        "write": lambda: write_for(Path(path), float(number), int(seed)),
    }[what]
    assert sqlite3.threadsafety
    print(json.dumps(run()))


if __name__ == "__main__":
    main()
