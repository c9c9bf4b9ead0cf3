"""What happens in the demo school, in the order of time."""

from __future__ import annotations

import heapq
from collections.abc import Callable
from datetime import datetime
from itertools import count

Happening = Callable[[datetime], None]
"""Something that people do; it is told the moment at which they do it."""


class Diary:
    """Happenings by their moment; one may bring about others, none of them earlier than itself."""

    def __init__(self) -> None:
        self._coming: list[tuple[datetime, int, Happening]] = []
        self._nth = count()

    def at(self, moment: datetime, happening: Happening) -> None:
        """Write down that something will happen; fractions of a second are cut."""
        whole = moment.replace(microsecond=0)
        heapq.heappush(self._coming, (whole, next(self._nth), happening))

    def live_until(self, moment: datetime) -> None:
        """Let everything happen up to and with a moment; what comes after it never does."""
        while self._coming and self._coming[0][0] <= moment:
            now, _, happening = heapq.heappop(self._coming)
            happening(now)
