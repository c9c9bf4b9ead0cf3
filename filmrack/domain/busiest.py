"""How many clip pairs a busy day needs, from the days that were."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from typing import NamedTuple

from filmrack.domain.timetable import Timetable

LOOKED_BACK = timedelta(weeks=4)
"""The days that tell how busy a room is: long enough for every day of a rotation."""

Stretch = tuple[datetime, datetime | None]
"""From when until when a clip pair was on a roll; None while it is."""


class Busiest(NamedTuple):
    """The day on which the most clip pairs were on rolls at once, and how many those were."""

    day: date
    at_once: int

    def more_than(self, usable: int) -> int:
        """Return how many more pairs such a day needs than there are."""
        return max(0, self.at_once - usable)


def busiest_day(
    stretches: Iterable[Stretch], timetable: Timetable, since: datetime, now: datetime
) -> Busiest | None:
    """Return the busiest day between two moments, the latest of several; None where none was.

    A pair that comes off a roll at a moment is free for another one at that moment.
    """
    changes: list[tuple[datetime, int]] = []
    for first, last in stretches:
        if first < now and (last is None or last > since):
            changes.append((max(first, since), 1))
            if last is not None and last < now:
                changes.append((last, -1))
    on = 0
    busiest: Busiest | None = None
    for moment, change in sorted(changes):
        on += change
        if change > 0 and (busiest is None or on >= busiest.at_once):
            busiest = Busiest(timetable.local_date(moment), on)
    return busiest
