"""Pages that go with film: a box's sweep slip, a binder's index, what is to be handed back."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.domain.counted import counted
from filmrack.printing.labels import BinderLabel, BoxLabel
from filmrack.printing.leaf import Column, Leaf

_SLIP = (Column("roll", 2.2), Column("clip", 0.8), Column("initials", 1.1), Column("note", 3.0))
_HAND_BACK = (
    Column("whose", 1.8),
    Column("roll", 1.6),
    Column("where", 1.4),
    Column("note", 2.2),
    Column("done", 0.7),
)
_INDEX = (
    Column("sleeve", 2.4),
    Column("film", 1.2),
    Column("initials", 1.0),
    Column("date", 1.6),
    Column("note", 2.4),
)


class SlipRoll(NamedTuple):
    """A roll of the sweep: its code as people read it, clip number, initials, a short note."""

    roll: str
    clip: str = ""
    initials: str = ""
    note: str = ""


class SweepSlip(NamedTuple):
    """What a sweep put into one period's box, and what it looked for in vain."""

    box: int
    period: str
    swept: str
    boxed: tuple[SlipRoll, ...]
    missing: tuple[SlipRoll, ...] = ()
    unexplained: tuple[str, ...] = ()
    """What was counted and does not agree, in sentences."""

    def draw(self, leaf: Leaf) -> None:
        """Fill a page: the rolls in the box, then the missing ones, then what is not known."""
        leaf.open(
            f"Box {self.box}: {self.period}",
            f"swept {self.swept} · {counted(len(self.boxed), 'roll')}",
            BoxLabel(self.box).payload,
        )
        self._rolls(leaf, "In this box", self.boxed)
        if self.missing:
            leaf.y += 6
            self._rolls(leaf, "Missing: look for them", self.missing)
        for words in self.unexplained:
            leaf.y += 6
            leaf.paragraph(words, 11.0)

    @staticmethod
    def _rolls(leaf: Leaf, heading: str, rolls: tuple[SlipRoll, ...]) -> None:
        leaf.make_room(30)
        leaf.paragraph(heading, 13.0, bold=True)
        rows = [(each.roll, each.clip, each.initials, each.note) for each in rolls]
        leaf.table(_SLIP, rows, row=7.5)


class HandBackRow(NamedTuple):
    """A sleeve to be handed back: whose, its code as people read it, where it is, a short note."""

    owner: str
    roll: str
    where: str
    note: str = ""


class HandBackList(NamedTuple):
    """What is to be handed back to one period at the end of a term, to be ticked off."""

    term: str
    period: str
    rows: tuple[HandBackRow, ...]

    def draw(self, leaf: Leaf) -> None:
        """Fill as many pages as the sleeves take."""
        count = counted(len(self.rows), "roll")
        leaf.open(f"To hand back: {self.period}", f"term {self.term} · {count}")
        rows = [(each.owner, each.roll, each.where, each.note, "") for each in self.rows]
        leaf.table(_HAND_BACK, rows, row=7.5, points=10.0)


class IndexRow(NamedTuple):
    """A sleeve in a binder: its code as people read it, film, initials, date, a short note."""

    sleeve: str
    film: str = ""
    initials: str = ""
    date: str = ""
    note: str = ""


class BinderIndex(NamedTuple):
    """The first page of a binder: its sleeves in the order in which they stand."""

    term: str
    number: int
    title: str
    rows: tuple[IndexRow, ...]

    def draw(self, leaf: Leaf) -> None:
        """Fill as many pages as the sleeves take."""
        binder = BinderLabel(self.term, self.number)
        count = counted(len(self.rows), "sleeve")
        title = f"Binder {self.term}-{self.number:02d}"
        subtitle = f"{self.title} · {count}" if self.title else count
        leaf.open(title, subtitle, binder.payload)
        rows = [(each.sleeve, each.film, each.initials, each.date, each.note) for each in self.rows]
        leaf.table(_INDEX, rows, row=7.0, points=10.0)
