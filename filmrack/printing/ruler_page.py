"""The printer's test page: a cross, two rulers and a ladder of symbols."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.printing.leaf import Leaf
from filmrack.printing.modules import LEAST_MM, ModuleSize
from filmrack.printing.pen import Calibration

CROSS_MM = 20.0
ACROSS_MM = 150.0
DOWN_MM = 200.0
_STEPS_MOST, _STEP_MM = 5, 32.0


def measured(left_mm: float, top_mm: float, across_mm: float, down_mm: float) -> Calibration:
    """Return what counters a printer, from four lengths measured on its test page.

    `left_mm` and `top_mm` are from the paper's edges to the cross, `across_mm` and `down_mm` the
    lengths of the rulers as they came out. A printer that puts x at a × x + b is given
    x / a − b / a. Raises Refused for lengths that no printer makes of this page.
    """
    stretched_x, stretched_y = across_mm / ACROSS_MM, down_mm / DOWN_MM
    # A ruler typed as 0 is answered by the check below, not by a division.
    stretch_x = 1 / stretched_x if stretched_x > 0 else 0.0
    stretch_y = 1 / stretched_y if stretched_y > 0 else 0.0
    found = Calibration(
        right_mm=CROSS_MM - left_mm * stretch_x,
        down_mm=CROSS_MM - top_mm * stretch_y,
        stretch_x=stretch_x,
        stretch_y=stretch_y,
    )
    found.check()
    return found


class RulerPage(NamedTuple):
    """One page for one printer, to be printed at actual size."""

    printer: str = ""

    def draw(self, leaf: Leaf) -> None:
        """Fill a page."""
        pen = leaf.pen
        pen.start_page()
        pen.line((CROSS_MM - 8, CROSS_MM), (CROSS_MM + ACROSS_MM, CROSS_MM), width_mm=0.15)
        pen.line((CROSS_MM, CROSS_MM - 8), (CROSS_MM, CROSS_MM + DOWN_MM), width_mm=0.15)
        for mm in range(int(ACROSS_MM) + 1):
            x, long = CROSS_MM + mm, _tick(mm)
            pen.line((x, CROSS_MM), (x, CROSS_MM + long), width_mm=0.1)
            if mm and mm % 10 == 0:
                leaf.text((x, CROSS_MM + long + 3), str(mm), 7.0, room=9, align="centre")
        for mm in range(int(DOWN_MM) + 1):
            y, long = CROSS_MM + mm, _tick(mm)
            pen.line((CROSS_MM, y), (CROSS_MM + long, y), width_mm=0.1)
            # The first figure would stand on the ruler across.
            if mm > 10 and mm % 10 == 0:
                leaf.text((CROSS_MM + long + 1, y + 0.9), str(mm), 7.0, room=9)
        leaf.left, kept_left = CROSS_MM + 18, leaf.left
        leaf.width, kept_width = leaf.width - 25, leaf.width
        leaf.y = CROSS_MM + 18
        self._say(leaf)
        self._ladder(leaf)
        leaf.left, leaf.width = kept_left, kept_width

    def _say(self, leaf: Leaf) -> None:
        heading = f"Test page: {self.printer}" if self.printer else "Test page"
        leaf.paragraph(heading, 20.0, bold=True)
        leaf.y += 2
        for number, step in enumerate(_STEPS, 1):
            leaf.paragraph(step, 11.0, mark=f"{number}.")
            leaf.y += 1

    def _ladder(self, leaf: Leaf) -> None:
        """Draw symbols from the smallest module that is allowed to a dot more than usual."""
        leaf.y += 4
        dpi, usual = leaf.module.dpi, leaf.module.dots
        dots = [n for n in range(1, usual + 2) if ModuleSize(n, dpi).mm >= LEAST_MM]
        for index, each in enumerate(dots[:: -(-len(dots) // _STEPS_MOST)]):
            x, y = leaf.left + index * _STEP_MM, leaf.y
            side = leaf.symbol((x, y), f"TEST{each}", each / usual)
            said = f"{each} dots, {ModuleSize(each, dpi).mm:.3f} mm"
            leaf.text((x + 2, y + side + 3), said, 8.0, room=_STEP_MM - 2)


_STEPS = (
    "Print at actual size, never “fit to page”.",
    "Measure from the left edge of the paper to the cross: it should be 20 mm.",
    "Measure from the upper edge of the paper to the cross: it should be 20 mm.",
    "Measure the ruler across from the cross to its end: it should be 150 mm.",
    "Measure the ruler down from the cross to its end: it should be 200 mm.",
    "Type the four lengths in this order on the screen Labels, as “measured 20.4,19.8,150.3,200.2”;"
    " then print this page again and check it.",
    "Scan the symbols below: the smallest that reads at once says how small labels may be.",
)


def _tick(mm: int) -> float:
    return 6.0 if mm % 10 == 0 else 4.0 if mm % 5 == 0 else 2.5
