"""The rows of a term's archive, of which a screen shows some: headings, and rolls below them.

Only counts are kept; a roll is read from the file when its row comes in sight.
"""

from __future__ import annotations

import sqlite3
from bisect import bisect_right
from collections import Counter
from collections.abc import Iterator
from itertools import accumulate
from typing import NamedTuple

from filmrack.domain.roll import Roll
from filmrack.store import archive
from filmrack.store.archive import Pile, WhichRolls

_PAGE = 100
_MOST_PAGES = 60


class ShelfRow(NamedTuple):
    """A heading (`roll` is None), or the roll of that rank; `begins` its owner's rolls."""

    pile: Pile
    roll: Roll | None = None
    rank: int = -1
    begins: bool = False


class Shelf:
    """The rolls of one term that owe one kind of thing, by rank from 0 and by row from 0."""

    def __init__(
        self, conn: sqlite3.Connection, term: str, which: WhichRolls, piles: list[Pile]
    ) -> None:
        self.term = term
        self.which_rolls: WhichRolls = which
        self._conn = conn
        self._piles = [pile for pile in piles if pile.counts.get(which)]
        counts = [pile.counts[which] for pile in self._piles]
        self._ranks = [0, *accumulate(counts)]
        leads = [self._lead(nth) for nth in range(len(self._piles))]
        self._leads = leads
        self._rows = [0, *accumulate(n + lead for n, lead in zip(counts, leads, strict=True))]
        self._of_period: Counter[int | None] = Counter()
        for pile, count in zip(self._piles, counts, strict=True):
            self._of_period[pile.period] += count
        self._pages: dict[tuple[int, int], list[Roll]] = {}

    @property
    def rolls(self) -> int:
        """Return how many rolls there are."""
        return self._ranks[-1]

    @property
    def rows(self) -> int:
        """Return how many rows there are, headings and the empty rows above them included."""
        return self._rows[-1]

    def roll(self, rank: int) -> Roll | None:
        """Return the roll of a rank, or None when it went away meanwhile."""
        nth = bisect_right(self._ranks, rank) - 1
        return self._read(nth, rank - self._ranks[nth])

    def row_of(self, rank: int) -> int:
        """Return the row in which the roll of a rank stands."""
        nth = bisect_right(self._ranks, rank) - 1
        return self._rows[nth] + self._leads[nth] + rank - self._ranks[nth]

    def rank_of(self, roll: Roll) -> int | None:
        """Return the rank of a roll, or None when it is not on this shelf."""
        for nth, pile in enumerate(self._piles):
            owner = None if pile.person is None else pile.person.number
            if (pile.period, owner) == (roll.period, roll.person):
                inside = archive.nth_of(self._conn, self.term, self.which_rolls, pile, roll.id)
                return None if inside is None else self._ranks[nth] + inside
        return None

    def first_of(self, period: int) -> int | None:
        """Return the rank of the first roll of a period."""
        for nth, pile in enumerate(self._piles):
            if pile.period == period:
                return self._ranks[nth]
        return None

    def period_count(self, period: int | None) -> int:
        """Return how many rolls of a period there are."""
        return self._of_period[period]

    def rolls_from(self, row: int) -> int:
        """Return how many rolls stand in a row and below it."""
        nth = bisect_right(self._rows, row) - 1
        if nth == len(self._piles):
            return 0
        inside = row - self._rows[nth] - self._leads[nth]
        return self.rolls - self._ranks[nth] - max(0, inside)

    def between(self, first: int, last: int) -> Iterator[ShelfRow | None]:
        """Yield rows, the last one not included; None for the empty row above a heading."""
        for row in range(first, min(last, self.rows)):
            nth = bisect_right(self._rows, row) - 1
            pile, inside = self._piles[nth], row - self._rows[nth] - self._leads[nth]
            if inside >= 0:
                roll = self._read(nth, inside)
                rank = self._ranks[nth] + inside
                yield ShelfRow(pile, roll, rank, inside == 0) if roll else None
            else:
                yield ShelfRow(pile) if inside == -1 else None

    def _lead(self, nth: int) -> int:
        """Return the rows above the rolls of a pile: its period's heading where a period begins,
        and an empty one above that if it is not the first.
        """
        if nth == 0:
            return 1
        return 0 if self._piles[nth].period == self._piles[nth - 1].period else 2

    def _read(self, nth: int, inside: int) -> Roll | None:
        if not 0 <= nth < len(self._piles):
            return None
        number, at = divmod(inside, _PAGE)
        page = self._pages.get((nth, number))
        if page is None:
            if len(self._pages) > _MOST_PAGES:
                self._pages.clear()
            pile = self._piles[nth]
            page = archive.page(
                self._conn, self.term, self.which_rolls, pile, first=number * _PAGE, many=_PAGE
            )
            self._pages[nth, number] = page
        return page[at] if at < len(page) else None
