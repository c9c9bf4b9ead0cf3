"""The hang sheet: a page a period for days without power, to be typed in later."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.printing.cautions import CAUTIONS
from filmrack.printing.leaf import Column, Leaf

_COLUMNS = (
    Column("clip", 1.0),
    Column("initials", 1.4),
    Column("loaded", 1.3),
    Column("hung", 1.3),
    Column("flipped", 1.3),
    Column("taken", 1.3),
)
_ROW = 9.0
_FOOT = 31.0


class HangRow(NamedTuple):
    """A roll that is known already: clip number, initials and when it was loaded."""

    clip: str
    initials: str
    loaded: str = ""


class HangSheet(NamedTuple):
    """The sheet of one period on one day; the rest of the page is blank rows."""

    period: str
    date: str
    rod: str = ""
    rows: tuple[HangRow, ...] = ()

    def draw(self, leaf: Leaf) -> None:
        """Fill a page: known rolls, blank rows, and the cautions at the foot."""
        parts = (self.date, self.rod, "times as the clock on the wall shows them")
        leaf.open(f"Hang sheet: {self.period}", " · ".join(part for part in parts if part))
        known = [(row.clip, row.initials, row.loaded, "", "", "") for row in self.rows]
        fit = int((leaf.bottom - _FOOT - leaf.y) / _ROW) - 1
        blank = [("",) * len(_COLUMNS)] * max(0, fit - len(known))
        leaf.table(_COLUMNS, [*known, *blank], row=_ROW, points=13.0)
        leaf.make_room(_FOOT)
        leaf.y = leaf.bottom - _FOOT + 4
        leaf.paragraph(" ".join(CAUTIONS[:-1]), 8.5)
        leaf.paragraph(CAUTIONS[-1], 8.5, bold=True)
