"""Two works timed by turns, so that what else the machine does slows both."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from statistics import median
from typing import NamedTuple


class Pair(NamedTuple):
    """Our median in ms, or in MiB, and the median of how many times the peer's it was."""

    ours: float
    ratio: float


def pair(found: Iterable[tuple[float, float]]) -> Pair:
    """Return the medians of (ours, the peer's)."""
    both = list(found)
    return Pair(median(ours for ours, _ in both), median(ours / peer for ours, peer in both))


def ms(work: Callable[[], object]) -> float:
    began = time.perf_counter()
    work()
    return 1000 * (time.perf_counter() - began)


def by_turns(ours: Callable[[], object], peer: Callable[[], object], times: int) -> Pair:
    """Time both so many times, after once for nothing; what is timed once is timed cold."""
    if times > 1:
        ours(), peer()
    return pair([(ms(ours), ms(peer)) for _ in range(times)])


def installed() -> list[str]:
    """Return how a person runs it: the command beside this Python, else its module.

    `python -m` would look for the module with code of its own, which takes 5 ms.
    """
    command = Path(sys.executable).with_name("filmrack")
    return [str(command)] if command.exists() else [sys.executable, "-m", "filmrack"]
