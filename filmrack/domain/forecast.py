"""Whether a period's rods will hold what its class usually hangs."""

from __future__ import annotations

from collections.abc import Sequence

DAYS = 10
"""How many of the last days on which a class met count."""


def usually_hung(counts: Sequence[int]) -> int:
    """Return how many rolls a class hangs on a usual day: the upper median of its last days.

    `counts` are rolls a day, latest last; days on which it met and hung nothing are zeros.
    """
    last = sorted(counts[-DAYS:])
    return last[len(last) // 2] if last else 0


def will_be_short(counts: Sequence[int], hung_today: int, free: int) -> int:
    """Return how many positions will be missing when the class hangs what it usually does."""
    coming = max(0, usually_hung(counts) - hung_today)
    return max(0, coming - free)
