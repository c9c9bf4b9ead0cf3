"""Faces: how the symbol and the words of one label share its surface.

A wide label has its symbol at the left and the words beside it. A tall one, such as a tag, has
its headline across the top and the symbol with the small lines under it.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from filmrack.printing import lettering
from filmrack.printing.design import JOINT
from filmrack.printing.modules import ModuleSize, module_size_on
from filmrack.printing.pen import Pen, Point
from filmrack.printing.stock import Stock
from filmrack.printing.symbols import QUIET, Symbol

TALL = 0.8
"""From this height to width on, a label is laid out as a tall one."""

_LARGEST_PT = 120.0
_SMALL_PT = (6.0, 14.0)
_LINE = 1.28
"""Distance of small lines as a share of their size."""
_SHORT_MM = 15.0
"""On labels lower than this, small lines share a line where they fit on one."""


class LabelWords(NamedTuple):
    """The words of one label, filled in and clean.

    The headline comes out no larger than `room_for` would, so that all labels of a kind match.
    """

    headline: str
    lines: tuple[str, ...]
    room_for: str = ""


class Face(NamedTuple):
    """How all labels of one print are laid out, in mm from the label's corner."""

    stock: Stock
    module: ModuleSize
    tall: bool
    edge: float


def face(stock: Stock, side: int, dpi: int) -> Face:
    """Return the face for a print on a stock whose largest symbol has `side` modules a side.

    All symbols of a print get the same module. Raises Refused when it would be too small.
    """
    tall = stock.height >= TALL * stock.width
    room = stock.width / 2 if tall else min(stock.height, stock.width / 2)
    edge = min(2.2, stock.height * 0.08)
    return Face(stock, module_size_on(stock, side, dpi, room), tall, edge)


def draw(pen: Pen, face: Face, at: Point, symbol: Symbol, words: LabelWords) -> None:
    """Draw one label whose upper left corner is at a point."""
    (_draw_tall if face.tall else _draw_wide)(pen, face, at, symbol, words)


def _draw_wide(pen: Pen, face: Face, at: Point, symbol: Symbol, words: LabelWords) -> None:
    (x, y), stock, edge = at, face.stock, face.edge
    room, quiet = symbol.room * face.module.mm, QUIET * face.module.mm
    inset = min(edge, (stock.height - room) / 2)
    pen.symbol((x + inset + quiet, y + (stock.height - room) / 2 + quiet), face.module.mm, symbol)
    left = x + inset + room
    width, height = x + stock.width - edge - left, stock.height - 2 * edge
    small = _small(height, len(words.lines))
    lines = words.lines
    if stock.height < _SHORT_MM:
        lines = _joined(lines, small, width)
    pitch = small * _LINE / lettering.POINTS_A_MM
    below = pitch * len(lines)
    drop = small * lettering.DESCENT / lettering.POINTS_A_MM
    gap = 0.4 * pitch if lines else 0.0
    size = _fitting(words, width, (height - below - gap) * 0.95)
    cap = lettering.cap_height_mm(size)
    top = y + (stock.height - cap - gap - below) / 2
    shown = lettering.shorten(words.headline, size, True, width)
    pen.text((left, top + cap), shown, size, bold=True)
    for number, line in enumerate(lines, 1):
        shown = lettering.shorten(line, small, False, width)
        pen.text((left, top + cap + gap + pitch * number - drop), shown, small)


def _draw_tall(pen: Pen, face: Face, at: Point, symbol: Symbol, words: LabelWords) -> None:
    (x, y), stock, edge = at, face.stock, face.edge
    room, quiet = symbol.room * face.module.mm, QUIET * face.module.mm
    middle, head = x + stock.width / 2, y + edge
    if stock.punch:
        pen.ring((middle, head + stock.punch / 2), stock.punch)
        head += stock.punch
    foot = y + stock.height - edge / 2 - room
    pen.symbol((x + edge / 2 + quiet, foot + quiet), face.module.mm, symbol)
    width = stock.width - 4 * edge
    size = _fitting(words, width, (foot + quiet - head) * 0.8)
    cap = lettering.cap_height_mm(size)
    baseline = (head + foot + quiet + cap) / 2
    shown = lettering.shorten(words.headline, size, True, width)
    pen.text((middle, baseline), shown, size, bold=True, align="centre")
    left = x + edge / 2 + room
    small = _small(room * 1.6, len(words.lines))
    pitch = small * _LINE / lettering.POINTS_A_MM
    cap = lettering.cap_height_mm(small)
    first = foot + room / 2 - (pitch * (len(words.lines) - 1) + cap) / 2 + cap
    for number, line in enumerate(words.lines):
        shown = lettering.shorten(line, small, False, x + stock.width - edge - left)
        pen.text((left, first + pitch * number), shown, small)


def _joined(lines: tuple[str, ...], small: float, width: float) -> tuple[str, ...]:
    """Put as many lines on one as fit its width."""
    done: list[str] = []
    for line in lines:
        if done and lettering.width_mm(longer := done[-1] + JOINT + line, small, False) <= width:
            done[-1] = longer
        else:
            done.append(line)
    return tuple(done)


def _small(height: float, count: int) -> float:
    """Return a size for the small lines: about a seventh of the height, 6 to 14 points."""
    least, most = _SMALL_PT
    size = min(height / 7, height * 0.5 / max(count, 1) / _LINE) * lettering.POINTS_A_MM
    return round(max(least, min(most, size)), 1)


def _fitting(words: LabelWords, width: float, cap_mm: float) -> float:
    """Return the size in points at which the headline fills a width or a capital's height."""
    widest = max(
        lettering.width_mm(words.headline, 1.0, True), lettering.width_mm(words.room_for, 1.0, True)
    )
    by_width = width / widest if widest else _LARGEST_PT
    by_height = cap_mm * lettering.POINTS_A_MM / lettering.CAP_HEIGHT
    # Rounded down, so that a line never misses its own room by the last digit.
    return math.floor(max(_SMALL_PT[0] + 1, min(_LARGEST_PT, by_height, by_width)) * 10) / 10
