"""Acts in a file, beside bare statements that write the same with the same durability.

Once with whole rows, once only what the act writes: see bench_act.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Iterator
from datetime import timedelta
from functools import partial
from pathlib import Path

from filmrack.acts.drying import touch
from filmrack.acts.fetching import box
from filmrack.acts.group import Hand
from filmrack.acts.hanging import hang, load
from filmrack.acts.sweeping import sweep
from filmrack.domain.roll import Roll
from filmrack.store import rolls
from filmrack.store.file import DarkroomFile, open_file
from tests.bench.bench_act import replay, with_whole_rows, written
from tests.bench.pairs import Pair, ms, pair
from tests.desk.full_room import NOW, PERIODS, POSITIONS

ROUNDS = 5
A_BOX = 36
TOUCHED = 12
Act = Callable[[DarkroomFile, Hand], object]


def acts(path: Path) -> dict[str, Pair]:
    """Return hang, touch, box of 36 and sweep of 84. Four copies: one is asked what it writes."""
    times: dict[str, list[tuple[float, float]]] = {}
    with tempfile.TemporaryDirectory(dir=path.parent) as folder:
        copies = [Path(shutil.copy(path, Path(folder) / f"{nth}.db")) for nth in range(4)]
        told, ours, bare, whole = (open_file(copy, write=True) for copy in copies)
        for minute, (name, act) in enumerate(_day(told), 1):
            at = NOW + timedelta(minutes=minute)
            hand = Hand(at, at)
            statements = written(told, partial(act, told, hand))
            rows = with_whole_rows(told.conn, statements)
            beside = [
                ("whole rows", ms(partial(replay, whole.conn, rows))),
                ("its own statements", ms(partial(replay, bare.conn, statements))),
            ]
            took = ms(partial(act, ours, hand))
            if name:
                for peer, base in beside:
                    times.setdefault(f"{name}, × {peer}", []).append((took, base))
        for file in (told, ours, bare, whole):
            file.close()
    return {name: pair(found) for name, found in times.items()}


def _day(told: DarkroomFile) -> Iterator[tuple[str, Act]]:
    """Yield what is done, by name where it is measured.

    Box 36, hang them again, touch 12, sweep all 84.
    """
    everywhere = PERIODS * POSITIONS
    for _ in range(ROUNDS):
        some = [roll.id for roll in rolls.hanging(told.conn)][:A_BOX]
        yield "box of 36", partial(box, numbers=some)
        yield from _hung(told, A_BOX)
        for roll in rolls.hanging(told.conn)[:TOUCHED]:
            yield "touch", partial(touch, number=roll.id, dry=roll.id % 3 > 0)
        counts = dict.fromkeys(range(1, PERIODS + 1), POSITIONS)
        yield "sweep of 84", partial(sweep, counts=counts, not_dry_too=True, finish=True)
        yield from _hung(told, everywhere)


def _hung(told: DarkroomFile, count: int) -> Iterator[tuple[str, Act]]:
    taken = {roll.clip for roll in rolls.hanging(told.conn)}
    taken |= {row[0] for row in told.conn.execute("SELECT clip FROM rolls WHERE clip > 0")}
    clips = [clip for clip in range(1, 900) if clip not in taken][:count]
    free = [
        (rod, position)
        for rod in range(1, PERIODS + 1)
        for position in range(1, POSITIONS + 1)
        if (rod, position) not in {_hook(roll) for roll in rolls.hanging(told.conn)}
    ]
    for clip, (rod, position) in zip(clips, free, strict=False):
        person = 1 + clip % 100
        yield "", partial(load, person=person, clips=[clip])
        loaded = rolls.on_clip(told.conn, clip)
        assert loaded is not None
        yield "hang", partial(hang, roll=loaded.id, rod=rod, position=position)


def _hook(roll: Roll) -> tuple[int | None, int | None]:
    return roll.place.number, roll.place.position
