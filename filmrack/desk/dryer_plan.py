"""How the cabinet is laid out on a screen, so that every rod can be seen."""

from typing import NamedTuple

_SHORT = 6
"""Cells in which a rod is named where its long name leaves no room for the word `touch`."""


class Plan(NamedTuple):
    """How the cabinet is laid out on a screen, in cells and rows."""

    label: int
    cell: int
    film: int
    """Rows of film below each rod."""
    gap: int

    @property
    def short(self) -> bool:
        """Tell whether rods are named in short."""
        return self.label <= _SHORT


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
