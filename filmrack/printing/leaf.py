"""The leaf: lays out whole pages from the top down, and goes on to the next when one is full."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from filmrack.printing import lettering
from filmrack.printing.modules import ModuleSize
from filmrack.printing.pen import Alignment, Pen, Point
from filmrack.printing.symbols import QUIET, symbol

MARGIN = 15.0
_TITLE_PT, _SUBTITLE_PT = 24.0, 12.0
_LEADING = 1.4
_CODE_MM = 22.0


class Column(NamedTuple):
    """A column of a table: its heading and its width in shares of the whole."""

    heading: str
    share: float


class Leaf:
    """Pages being filled; `y` is how far down the page they are, in mm.

    Every text is cleaned, checked for glyphs and shortened to its room as it is written.
    """

    def __init__(self, pen: Pen, module: ModuleSize) -> None:
        self.pen = pen
        self.module = module
        self.symbols = 0
        self.left = MARGIN
        self.width = pen.width - 2 * MARGIN
        self.y = MARGIN
        self._title = ""
        self._subtitle = ""
        self._payload = ""

    @property
    def bottom(self) -> float:
        """Where the page ends, in mm from its top."""
        return self.pen.height - MARGIN

    def open(self, title: str, subtitle: str, payload: str = "") -> None:
        """Begin a page with its title, a line under it, and a symbol at the upper right."""
        self._title, self._subtitle, self._payload = title, subtitle, payload
        self._head("")

    def carry_on(self) -> None:
        """Begin a further page under the same title."""
        self._head(", continued")

    def make_room(self, height: float) -> None:
        """Carry on with a further page when less than `height` mm are left."""
        if self.y + height > self.bottom:
            self.carry_on()

    def text(
        self,
        at: Point,
        text: str,
        points: float,
        *,
        room: float,
        bold: bool = False,
        align: Alignment = "left",
    ) -> None:
        """Write one line within `room` mm, shortened if it does not fit."""
        lettering.check_glyphs([text])
        shown = lettering.shorten(lettering.clean(text), points, bold, room)
        self.pen.text(at, shown, points, bold=bold, align=align)

    def symbol(self, at: Point, payload: str, times: float = 1.0) -> float:
        """Draw a symbol with its quiet zone from a corner, and return its side with it, in mm.

        `times` makes the module larger, in whole dots.
        """
        module = ModuleSize(round(self.module.dots * times), self.module.dpi).mm
        drawn = symbol(payload)
        self.pen.symbol((at[0] + QUIET * module, at[1] + QUIET * module), module, drawn)
        self.symbols += 1
        return drawn.room * module

    def paragraph(self, text: str, points: float, *, bold: bool = False, mark: str = "") -> None:
        """Write a text over as many lines as it takes, hanging behind a mark such as `1.`."""
        pitch = points * _LEADING / lettering.POINTS_A_MM
        indent = points * 1.6 / lettering.POINTS_A_MM if mark else 0.0
        room = self.width - indent
        for number, line in enumerate(wrap(lettering.clean(text), points, bold, room)):
            self.make_room(pitch)
            base = self.y + lettering.cap_height_mm(points)
            if mark and number == 0:
                self.text((self.left, base), mark, points, room=indent, bold=True)
            self.text((self.left + indent, base), line, points, room=room, bold=bold)
            self.y += pitch

    def table(
        self,
        columns: Sequence[Column],
        rows: Sequence[Sequence[str]],
        *,
        row: float = 8.0,
        points: float = 11.0,
    ) -> None:
        """Write a ruled table; its headings stand on every page that it reaches."""
        shares = sum(column.share for column in columns)
        widths = [self.width * column.share / shares for column in columns]
        headings = [column.heading for column in columns]
        self.make_room(3 * row)
        self._row(headings, widths, row, points=9.0, head=True)
        for cells in rows:
            if self.y + row > self.bottom:
                self.carry_on()
                self._row(headings, widths, row, points=9.0, head=True)
            self._row(cells, widths, row, points=points, head=False)

    def _row(
        self, cells: Sequence[str], widths: list[float], row: float, *, points: float, head: bool
    ) -> None:
        base = self.y + (row + lettering.cap_height_mm(points)) / 2
        x = self.left
        for cell, width in zip(cells, widths, strict=True):
            if cell:
                self.text((x + 1.5, base), cell, points, room=width - 2.5, bold=head)
            if not head:
                self.pen.line((x, self.y), (x, self.y + row), width_mm=0.15, grey=0.6)
            x += width
        if not head:
            self.pen.line((x, self.y), (x, self.y + row), width_mm=0.15, grey=0.6)
        self.y += row
        width_mm, grey = (0.4, 0.0) if head else (0.15, 0.6)
        self.pen.line((self.left, self.y), (x, self.y), width_mm=width_mm, grey=grey)

    def _head(self, more: str) -> None:
        self.pen.start_page()
        self.y = MARGIN
        room = self.width
        side = 0.0
        if self._payload:
            width = symbol(self._payload).room * self.module.mm
            right = self.left + self.width
            # The quiet zone may reach into the margin, so that the ink lines up with the rule.
            corner = right - width + QUIET * self.module.mm, MARGIN - QUIET * self.module.mm
            side = self.symbol(corner, self._payload) - 2 * QUIET * self.module.mm
            room -= width
            at = right - side - QUIET * self.module.mm - 0.2, MARGIN + side
            self.text(at, self._payload, 8.0, room=_CODE_MM, align="right")
            room -= _CODE_MM
        base = self.y + lettering.cap_height_mm(_TITLE_PT)
        self.text((self.left, base), self._title + more, _TITLE_PT, room=room, bold=True)
        base += 1.5 * _SUBTITLE_PT / lettering.POINTS_A_MM
        self.text((self.left, base), self._subtitle, _SUBTITLE_PT, room=room)
        self.y = max(base + 3.0, MARGIN + side + QUIET * self.module.mm + 0.2)
        self.pen.line((self.left, self.y), (self.left + self.width, self.y), width_mm=0.5)
        self.y += 4.0


def wrap(text: str, points: float, bold: bool, room: float) -> list[str]:
    """Return a text as lines that fit the room; a word too long for it stands alone."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and lettering.width_mm(longer, points, bold) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
