"""Measures the desk: a key to the changed screen, the map drawn each second, the first screen.

Run: PYTHONPATH=. python tests/bench/bench_desk.py [rolls behind the full room]
"""

from __future__ import annotations

import asyncio
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Coroutine
from datetime import timedelta
from pathlib import Path

from textual import events

from filmrack.desk.app import Desk
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.line import Line
from tests.bench.first_frame import starts
from tests.bench.million_file import made
from tests.desk.full_room import NOW

ROLLS = 100_000
KEYS = 40
SECONDS = 20


async def key_times(path: Path) -> dict[str, list[float]]:
    """Return the milliseconds from each of many keys to its screen, sorted, by what they did."""
    found: dict[str, list[float]] = {}
    desk = Desk(path, machine=lambda: NOW)
    async with desk.run_test(size=(120, 34)) as pilot:
        while desk.showing.heard_by is None:
            await pilot.pause()
        ticks = iter(range(10, 10**9, 10))
        desk.query_one(Line).ticks = lambda: float(next(ticks))
        await pilot.pause()

        async def press(key: str, character: str | None = None) -> float:
            painted = asyncio.Event()
            began = time.perf_counter()
            desk.query_one(Line).post_message(events.Key(key, character))
            desk.query_one(Line).call_later(desk.call_after_refresh, painted.set)
            await painted.wait()
            return (time.perf_counter() - began) * 1000

        for name, sent in (
            ("an arrow on the map", [("right", None), ("left", None)]),
            ("a letter of a name", [("a", "a"), ("backspace", None)]),
            ("three letters", [("d", "d"), ("a", "a"), ("n", "n"), ("ctrl+u", None)]),
            ("another screen", [("tab", None)]),
        ):
            found[name] = sorted([await press(*sent[nth % len(sent)]) for nth in range(KEYS)])
            await press("ctrl+u")
        for letter in "archive":
            await press(letter, letter)
        await press("enter")
        *_, before, _ = desk.session.file.room().terms
        archive = desk.query_one(ArchiveView)
        archive.shown.turn_to_term(before.code)
        await press("down")
        first = archive.selected
        found["a page of the archive"] = sorted([await press("pagedown") for _ in range(KEYS)])
        assert archive.selected != first, f"nothing of {before.code} was turned over"
    return found


async def keys(path: Path) -> None:
    for name, times in (await key_times(path)).items():
        middle, high = statistics.median(times), times[int(0.95 * KEYS)]
        print(f"  {name:<22} median {middle:6.1f} ms, 95 % {high:6.1f} ms")


async def cpu(path: Path) -> None:
    moment = NOW
    desk = Desk(path, machine=lambda: moment)
    async with desk.run_test(size=(120, 34)) as pilot:
        for _ in range(3):  # moments are worked out once, when they are asked for again
            await pilot.pause(1)
            moment += timedelta(seconds=1)
        before, began = time.process_time(), time.perf_counter()
        turned = 0
        while time.perf_counter() - began < SECONDS:
            await asyncio.sleep(1)
            moment += timedelta(seconds=1)
            turned += 1
        share = (time.process_time() - before) / (time.perf_counter() - began)
        print(f"  84 rolls, each second  {share:.2%} of a core (goal 1 %)")


def first_screen(path: Path) -> None:
    pairs = starts(path)
    empty, ours = (
        1000 * statistics.median(pair[side].seconds for pair in pairs) for side in (0, 1)
    )
    ratio = statistics.median(desk.seconds / bare.seconds for bare, desk in pairs)
    least = min(desk.seconds for _, desk in pairs) / min(bare.seconds for bare, _ in pairs)
    print(f"  first screen {ours:.0f} ms, an empty app's {empty:.0f} ms: {ratio:.2f} times")
    print(f"  the quickest of each: {least:.2f} times (goal 1.3)")
    worked = statistics.median(desk.worked / bare.worked for bare, desk in pairs)
    print(f"  of the processor: {worked:.2f} times")


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else ROLLS
    with tempfile.TemporaryDirectory() as folder:
        path = made(Path(folder), count)
        measures: list[Callable[[Path], Coroutine[None, None, None]]] = [keys, cpu]
        print(f"{count} rolls filed, 84 hanging")
        for measure in measures:
            asyncio.run(measure(path))
        first_screen(path)


if __name__ == "__main__":
    main()
