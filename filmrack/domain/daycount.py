"""Counting days of a kind by arithmetic: weekdays within stretches, and single exceptions."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from datetime import date
from itertools import accumulate

Run = tuple[int, int]
"""First and last day of a stretch, as proleptic ordinals."""


class DayCount:
    """How many days of a kind lie before a date, in a time that does not grow with the distance.

    `weekdays` count from Monday = 0. `runs` are the stretches in which those weekdays count, in
    order and apart. `exceptions` are dates in order, with +1 for a day that counts beyond that,
    −1 for one that does not count, and 0.
    """

    def __init__(
        self,
        weekdays: tuple[int, ...],
        runs: tuple[Run, ...],
        exceptions: tuple[tuple[date, int], ...] = (),
    ) -> None:
        self.weekdays = weekdays
        self.runs = runs
        taught = (int(weekday in weekdays) for weekday in range(7))
        self._in_week = tuple(accumulate(taught, initial=0))
        self._run_starts = tuple(first for first, _ in runs)
        lengths = (self._weekdays(first, last + 1) for first, last in runs)
        self._before_run = tuple(accumulate(lengths, initial=0))
        self._exception_days = tuple(day for day, _ in exceptions)
        self._exception_sums = tuple(accumulate((change for _, change in exceptions), initial=0))

    def before(self, day: date) -> int:
        """Return how many such days lie before a date."""
        return self._exception_sums[bisect_left(self._exception_days, day)] + self._ordinary(
            day.toordinal()
        )

    def through(self, day: date) -> int:
        """Return how many such days lie before or on a date."""
        return self._exception_sums[bisect_right(self._exception_days, day)] + self._ordinary(
            day.toordinal() + 1
        )

    def holds(self, day: date) -> bool:
        """Tell whether a date is one of them."""
        return self.through(day) > self.before(day)

    def _ordinary(self, end: int) -> int:
        run = bisect_left(self._run_starts, end) - 1
        if run < 0:
            return 0
        first, last = self.runs[run]
        return self._before_run[run] + self._weekdays(first, min(end, last + 1))

    def _weekdays(self, first: int, end: int) -> int:
        # Ordinal 1 is a Monday, so ordinal − 1 counts from the start of a week.
        weeks = (end - 1) // 7 - (first - 1) // 7
        return (
            weeks * len(self.weekdays)
            + self._in_week[(end - 1) % 7]
            - self._in_week[(first - 1) % 7]
        )


def open_runs(
    open_: Iterable[tuple[date, date]], shut: Iterable[tuple[date, date]]
) -> tuple[Run, ...]:
    """Return the stretches that lie in an open one and in no shut one, in order and apart.

    Stretches are given by their first and last date and may overlap; with no open one, every day
    that is not shut is open.
    """
    spans = sorted((first.toordinal(), last.toordinal()) for first, last in open_)
    closed = sorted((first.toordinal(), last.toordinal()) for first, last in shut)
    runs: list[Run] = []
    done_to = 0
    for starts, ends in spans or [(date.min.toordinal(), date.max.toordinal())]:
        first = max(starts, done_to + 1)
        done_to = max(done_to, ends)
        for off, back in closed:
            if off > ends:
                break
            if off > first:
                runs.append((first, off - 1))
            first = max(first, back + 1)
        if first <= ends:
            runs.append((first, ends))
    return tuple(runs)
