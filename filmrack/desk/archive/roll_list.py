"""The rolls of a term in rows on the Archive screen, of which as many are drawn as fit."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.archive.drawing import Notes, counts_of, empty, heading, roll_row
from filmrack.desk.archive.shelf import Shelf
from filmrack.desk.lines import Spot
from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.desk.themes import Palette
from filmrack.domain.roll import Roll
from filmrack.store import archive, rolls
from filmrack.store.archive import Owed
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
        self.owed: Owed = "all"
        self.rank = 0
        self.counts: dict[Owed, int] = {}
        self.places: Counter[str] = Counter()
        self._top = 0
        self._read: tuple[int, str] | None = None
        self._piles: list[archive.Pile] = []
        self._shelf: Shelf | None = None

    @property
    def shelf(self) -> Shelf | None:
        """Return what was read last."""
        return self._shelf

    @property
    def selected(self) -> int | None:
        """Return the roll that is selected."""
        if self._shelf is None or not self._shelf.rolls:
            return None
        chosen = self._shelf.roll(self.rank)
        return chosen.id if chosen else None

    def lists(self, roll: Roll) -> bool:
        """Tell whether a roll is among those that are shown."""
        shelf = self._shelf
        if shelf is None or roll.term != shelf.term:
            return False
        return self.owed == "all" or shelf.rank_of(roll) is not None

    def ask(self, owed: Owed) -> None:
        """Show only what owes this."""
        if owed != self.owed:
            self.owed = owed
            self.begin()

    def show_all(self, marked: Roll | None) -> bool:
        """Show the whole term, still at the roll that was marked; tell whether one was."""
        self.ask("all")
        if marked is not None:
            self.turn_to(marked)
        return marked is not None

    def begin(self) -> None:
        """Begin at the first roll."""
        self.rank, self._top, self._shelf = 0, 0, None

    def put_down(self) -> None:
        """Show nothing."""
        self._shelf = None

    def fresh(self, code: str) -> bool:
        """Tell whether what was read of a term is still so."""
        return self._read == (self._session.stamp, code)

    def read(self, code: str) -> Shelf:
        """Read a term anew where something has changed since."""
        conn = self._session.file.conn
        if not self.fresh(code):
            self._piles = archive.piles(conn, code)
            self.counts = counts_of(self._piles)
            self.places = sum((pile.places for pile in self._piles), start=Counter())
            self._shelf = None
            self._read = self._session.stamp, code
        if self._shelf is None:
            self._shelf = Shelf(conn, code, self.owed, self._piles)
        self.rank = max(0, min(self.rank, self._shelf.rolls - 1))
        return self._shelf

    def turn_to(self, roll: Roll) -> None:
        """Select a roll, among all where it owes nothing of what is shown."""
        rank = self.read(roll.term).rank_of(roll)
        if rank is None:
            self.ask("all")
            rank = self.read(roll.term).rank_of(roll)
        self.rank = rank or 0

    def stay_at(self, number: int) -> None:
        """Stay at a roll that is still shown; else the next one takes its place."""
        if self._shelf is not None:
            rank = self._shelf.rank_of(rolls.by_id(self._session.file.conn, number))
            self.go(self.rank if rank is None else rank)

    def go(self, rank: int) -> None:
        """Select the roll of a rank, or the nearest one."""
        if self._shelf is not None and self._shelf.rolls:
            self.rank = max(0, min(rank, self._shelf.rolls - 1))

    def move(self, key: str, page: int) -> None:
        """Take a key: up, down, page_up, page_down, first, last; `page` is in rows."""
        steps = {"up": -1, "down": 1, "page_up": -page, "page_down": page}
        if key in steps:
            self.go(self.rank + steps[key])
        elif key == "first":
            self.go(0)
        elif key == "last" and self._shelf is not None:
            self.go(self._shelf.rolls - 1)

    def draw(self, now: Now, frame: Frame) -> tuple[list[Text], list[Spot]]:
        """Return the rows in sight, and what a click on each means: the rank of its roll."""
        shelf = self._shelf
        if shelf is None or not shelf.rolls:
            return empty(shelf.term if shelf else "", self.owed, frame.palette), []
        height, width = max(1, frame.height), frame.width
        here = shelf.row_of(self.rank)
        above = min(2, height - 1)  # a heading stays in sight above its first roll
        self._top = min(max(self._top, here - height + 1), max(0, here - above))
        self._top = max(0, min(self._top, shelf.rows - height))
        rows = list(shelf.between(self._top, self._top + height))
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
                        chosen=row.rank == self.rank,
                        width=width,
                        palette=frame.palette,
                    )
                )
        return lines, spots
