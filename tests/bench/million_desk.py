"""The desk on a file, beside an empty Textual app: first screen, memory, key to screen."""

from __future__ import annotations

import asyncio
import time
from pathlib import Path
from statistics import median

from textual import events
from textual.app import App, ComposeResult
from textual.widgets import Static

from tests.bench.bench_desk import KEYS, key_times
from tests.bench.first_frame import Start, starts
from tests.bench.pairs import Pair, pair


class Empty(App[None]):
    """An app that shows the key that was pressed."""

    def compose(self) -> ComposeResult:
        yield Static("")

    def on_key(self, key: events.Key) -> None:
        self.query_one(Static).update(key.key)


async def empty_key() -> float:
    """Return the median milliseconds from a key to the empty app's screen."""
    app, times = Empty(), []
    async with app.run_test(size=(120, 34)) as pilot:
        await pilot.pause()
        for nth in range(KEYS):
            painted = asyncio.Event()
            began = time.perf_counter()
            app.post_message(events.Key("ab"[nth % 2], None))
            app.call_later(app.call_after_refresh, painted.set)
            await painted.wait()
            times.append(1000 * (time.perf_counter() - began))
    return median(times)


def seconds(pairs: list[tuple[Start, Start]]) -> Pair:
    """Return the milliseconds of a start, × the empty app's."""
    return pair((1000 * ours.seconds, 1000 * bare.seconds) for bare, ours in pairs)


def desk(path: Path) -> dict[str, Pair]:
    """Return the first screen, the memory it takes, and keys, each × the empty app's."""
    pairs = starts(path)
    found = {
        "first screen, × an empty app": seconds(pairs),
        "memory, × an empty app": pair((ours.mib, bare.mib) for bare, ours in pairs),
    }
    empty = asyncio.run(empty_key())
    for name, times in asyncio.run(key_times(path)).items():
        found[f"{name}, × an empty app"] = pair((each, empty) for each in times)
    return found
