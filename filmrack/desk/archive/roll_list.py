"""The rolls of a term in rows on the Archive screen, of which as many are drawn as fit."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.archive.overview import counts_of
from filmrack.desk.archive.rows import Notes, empty, heading, roll_row
from filmrack.desk.archive.shelf import Shelf
from filmrack.desk.lines import MOVES, Spot
from filmrack.desk.now import Now
from filmrack.desk.rows_in_sight import in_sight, more_below
from filmrack.desk.session import Session
from filmrack.desk.themes import Palette
from filmrack.domain.roll import Roll
from filmrack.store import archive, rolls
from filmrack.store.archive import WhichRolls
from filmrack.store.borrowing import borrowers
from filmrack.store.standings import written_on


class Frame(NamedTuple):
    """Where the rows are drawn: so many, so wide, below so many others."""

    above: int
    height: int
    width: int
    palette: Palette


class RollList:
    """Keeps which rolls are meant, which one is selected, and which row is drawn first."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self.which_rolls: WhichRolls = "all"
        """Which rolls of the term are shown."""
        self.rank = 0
        """The one of these that a selection is at, from 0."""
        self.counts: dict[WhichRolls, int] = {}
        """How many rolls of the term owe what."""
        self.places: Counter[str] = Counter()
        """How many there are in each kind of place."""
        self.is_selected = True
        """Whether that one is selected: not so once it was put down, until an arrow or a click."""
        self._top = 0
        self._stays_at: int | None = None
        """The roll that is selected, or that an act was done to: it may have another rank once the
        file has changed."""
        self._acted = False
        """Whether it is the latter, and to be looked for also in a file that is read already."""
        self._read: tuple[int, str] | None = None
        self._piles: list[archive.Pile] = []
        self.shelf: Shelf | None = None
        """What was read last; None where that is to be read anew."""

    @property
    def selected(self) -> int | None:
        """Return the roll that is selected; None where none is."""
        return self._at_rank() if self.is_selected else None

    def _at_rank(self) -> int | None:
        if self.shelf is None or not self.shelf.rolls:
            return None
        there = self.shelf.roll(self.rank)
        return there.id if there else None

    def lists(self, roll: Roll) -> bool:
        """Tell whether a roll is among those that are shown."""
        shelf = self.shelf
        if shelf is None or roll.term != shelf.term:
            return False
        return self.which_rolls == "all" or shelf.rank_of(roll) is not None

    def show_only(self, which: WhichRolls) -> None:
        """Show only what owes this."""
        if which != self.which_rolls:
            self.which_rolls = which
            self.begin()

    def show_all(self, selected: Roll | None) -> bool:
        """Show the whole term, still at the roll that was selected; tell whether one was."""
        self.show_only("all")
        if selected is not None:
            self.turn_to(selected)
        return selected is not None

    def begin(self) -> None:
        """Begin at the first roll."""
        self.rank, self._top, self.shelf, self.is_selected = 0, 0, None, True

    def put_down(self) -> None:
        """Show nothing."""
        self.shelf = None

    def read(self, code: str) -> None:
        """Read a term anew where something has changed since; the roll that was selected, or that
        an act was done to, is selected still, or the one that takes its place.
        """
        if (self._refresh(code) or self._acted) and self._stays_at is not None:
            rank = self._rank_of(rolls.by_id(self._session.file.conn, self._stays_at))
            self.rank = self.rank if rank is None else rank
            self.is_selected = self.is_selected or (self._acted and rank is not None)
        self._acted = False
        self._stay(self.rank)

    def acted_on(self, number: int) -> None:
        """Hear which roll an act was done to."""
        self._stays_at, self._acted = number, True

    def turn_to(self, roll: Roll) -> None:
        """Select a roll, among all where it owes nothing of what is shown."""
        self._refresh(roll.term)
        rank = self._rank_of(roll)
        if rank is None:
            self.show_only("all")
            self._refresh(roll.term)
            rank = self._rank_of(roll)
        self.go(rank or 0)

    def go(self, rank: int) -> None:
        """Select the roll of a rank, or the nearest one."""
        self.is_selected = True
        self._stay(rank)

    def _stay(self, rank: int) -> None:
        if self.shelf is not None:
            self.rank = max(0, min(rank, self.shelf.rolls - 1))
            self._stays_at = self._at_rank()

    def move(self, key: str, page: int) -> None:
        """Take a key: up, down, page_up, page_down, first, last; `page` is in rows."""
        rolls_shown = self.shelf.rolls if self.shelf is not None else 0
        if not self.is_selected and key in ("up", "down"):
            self.go(self.rank)  # where it was put down
            return
        own = {"page_up": -page, "page_down": page, "first": -self.rank, "last": rolls_shown}
        self.go(self.rank + {**MOVES, **own}.get(key, 0))

    def _refresh(self, code: str) -> bool:
        """Read what is not as the file is by now; tell whether the file had changed."""
        conn, wanted = self._session.file.conn, (self._session.stamp, code)
        changed = self._read != wanted
        if changed:
            self._piles = archive.piles(conn, code)
            self.counts = counts_of(self._piles)
            self.places = sum((pile.places for pile in self._piles), start=Counter())
            self.shelf, self._read = None, wanted
        if self.shelf is None:
            self.shelf = Shelf(conn, code, self.which_rolls, self._piles)
        return changed

    def _rank_of(self, roll: Roll) -> int | None:
        return None if self.shelf is None else self.shelf.rank_of(roll)

    def draw(self, now: Now, frame: Frame) -> tuple[list[Text], list[Spot]]:
        """Return the rows in sight, and what a click on each means: the rank of its roll."""
        shelf = self.shelf
        if shelf is None or not shelf.rolls:
            return empty(shelf.term if shelf else "", self.which_rolls, frame.palette), []
        height, width = max(1, frame.height), frame.width
        # A heading stays in sight above its first roll.
        sight = in_sight(self._top, shelf.row_of(self.rank), shelf.rows, height, above=2)
        self._top = sight.first
        rows = list(shelf.between(sight.first, sight.end))
        conn = self._session.file.conn
        some = [row.roll for row in rows if row is not None and row.roll is not None]
        notes = Notes(written_on(conn, some), borrowers(conn, some))
        lines: list[Text] = []
        spots: list[Spot] = []
        for nth, row in enumerate(rows):
            if row is None:
                lines.append(Text(""))
            elif row.roll is None:
                count = shelf.period_count(row.pile.period)
                lines.append(heading(row, now.room, count, width=width, palette=frame.palette))
            else:
                spots.append(Spot(nth + frame.above, 0, nth + frame.above + 1, width, row.rank))
                lines.append(
                    roll_row(
                        row,
                        now,
                        notes,
                        named=row.begins or nth == 0,
                        selected=self.is_selected and row.rank == self.rank,
                        width=width,
                        palette=frame.palette,
                    )
                )
        if sight.below:
            lines.append(more_below(shelf.rolls_from(sight.end), width, frame.palette))
        return lines, spots
