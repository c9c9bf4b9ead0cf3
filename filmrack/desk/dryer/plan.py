"""How the cabinet is laid out on a screen, so that every rod can be seen."""

from typing import NamedTuple

from filmrack.desk.ink import whose_rod
from filmrack.domain.room import Rod, Room

_SHORT = 6
"""Cells in which a rod is named where its long name leaves no room for the word `touch`."""


class Plan(NamedTuple):
    """How the cabinet is laid out on a screen, in cells and rows."""

    label: int
    """Cells before the strips, where a rod is named."""
    cell: int
    """Cells of each position."""
    film: int
    """Rows of film below each rod."""
    gap: int
    """Empty rows below the film."""

    @property
    def short(self) -> bool:
        """Tell whether rods are named in short."""
        return self.label <= _SHORT

    @property
    def roomy(self) -> bool:
        """Tell whether a strip has room beside it for a short name and for when to flip it."""
        return self.cell >= 12 and self.film > 1


def plan_for(width: int, height: int, rods: int, positions: int, longest: int) -> Plan:
    """Return the roomiest layout in which every rod can be seen, if there is one.

    `longest` is the width of the longest name of a rod.
    """
    label = max(11, min(16, longest + 1))
    if (width - label) // max(1, positions) < _SHORT:
        label = _SHORT
    cell = max(5, min(16, (width - label) // max(1, positions)))
    a_rod = height // max(1, rods)
    if a_rod >= 5:
        return Plan(label, cell, min(6, a_rod - 2), 1)
    if a_rod == 4:
        return Plan(label, cell, 2, 1)
    return Plan(label, cell, 2 if a_rod == 3 else 1, 0)


def rod_head(room: Room, rod: Rod, *, short: bool = False) -> str:
    """Return how a rod is named before it: its number and whose it is."""
    period = room.period(rod.period)
    if not short:
        return f"{rod.number} {whose_rod(rod, room)}"
    if period is None:
        return f"{rod.number} –"
    name = room.short_period(period)
    if name.isdecimal() and name != period.name:
        name = f"{period.name[:1]}{name}"  # behind the rod's number another one needs a letter
    return f"{rod.number} {name}"


def column_of(rod: Rod, position: int) -> int:
    """Return the column of a position on the screen, from the left."""
    return position - 1 if rod.counted_from == "left" else rod.positions - position


def position_of(rod: Rod, column: int) -> int:
    """Return the position at a column of the screen."""
    return column + 1 if rod.counted_from == "left" else rod.positions - column
