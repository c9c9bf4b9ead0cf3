"""How the screen Boxes is drawn: the boxes on their shelf, and the rolls of the open one below."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest

from rich.style import Style
from rich.text import Text

from filmrack.desk.boxes.period_boxes import OWNERS, PeriodBox
from filmrack.desk.boxes.words import (
    box_title,
    nothing_in,
    remark,
    since,
    under_a_box,
    whys_of,
)
from filmrack.desk.ink import fit, fitted, select, short_name, style, styled, wrapped
from filmrack.desk.lines import Spot
from filmrack.desk.now import Now
from filmrack.desk.themes import Palette
from filmrack.domain.attention import Standing
from filmrack.domain.counted import counted
from filmrack.domain.room import Room

_WIDEST, _NARROWEST = 14, 9
"""Cells of a box with the gap behind it."""

_GAP = 1
_ROWS = 2
"""Rows of dots in a box."""


def shelf(
    boxes: Sequence[PeriodBox], opened: PeriodBox, width: int, palette: Palette
) -> tuple[list[Text], list[Spot]]:
    """Return the boxes side by side, on as many shelves as they need, and where each is clicked.

    The spot of the first box is of -1, that of the next of -2: rolls have the numbers from 1 up.
    """
    cell = max(_NARROWEST, min(_WIDEST, width // len(boxes)))
    inner, per_shelf = cell - _GAP, max(1, width // cell)
    lines: list[Text] = []
    spots: list[Spot] = []
    for first in range(0, len(boxes), per_shelf):
        top = len(lines)
        columns = [
            [*_box(box, inner, palette, is_open=box is opened), *_below(box, inner, palette)]
            for box in boxes[first : first + per_shelf]
        ]
        for row in zip_longest(*columns, fillvalue=Text(" " * inner)):
            line = Text("")
            for part in row:
                line.append_text(part).append(" " * _GAP)
            lines.append(line)
        for nth in range(len(columns)):
            left = nth * cell
            spots.append(Spot(top, left, len(lines), left + inner, -1 - (first + nth)))
    return lines, spots


def _box(box: PeriodBox, width: int, palette: Palette, *, is_open: bool) -> list[Text]:
    """Return a box as it stands there: open at the top, a dot for each roll in it; what is with its
    owners lies on a floor alone.
    """
    title = box.title if len(box.title) <= width else box.short
    head = Style(bold=True, reverse=is_open or None) + style(palette.text)
    wall = style(palette.text if is_open else palette.rule, bold=is_open)
    left, right, floor = ("│ ", " │", "└─┘") if box.number is not OWNERS else ("  ", "  ", "───")
    named = Text.assemble((fit(title, width).rstrip(), head))
    named.pad_right(width - named.cell_len)
    dots = [
        Text.assemble((left, wall), row, (right, wall)) for row in _dots(box, width - 4, palette)
    ]
    return [named, *dots, Text(floor[0] + floor[1] * (width - 2) + floor[2], style=wall)]


def _dots(box: PeriodBox, width: int, palette: Palette) -> list[Text]:
    """Return a dot for each roll, from the floor up, those first that want attention; where there
    is no room for all, by how many there are more: `●●+5`.
    """
    room, many = width * _ROWS, len(box.rolls)
    more = "" if many <= room else _more(many, room)
    shown = min(many, room - len(more))
    marked = min(box.urgent, shown)
    signs = [("●", style(palette.left))] * marked
    signs += [("●", style(palette.dry))] * (shown - marked)
    hidden = style(palette.left if box.urgent > shown else palette.text, bold=True)
    signs += [(sign, hidden) for sign in more]
    signs += [(" ", Style())] * (room - len(signs))
    return [Text.assemble(*signs[row * width :][:width]) for row in reversed(range(_ROWS))]


def _more(many: int, room: int) -> str:
    """Return how many rolls have no dot where so many signs have room, this among them."""
    for cells in range(2, room):
        words = f"+{many - (room - cells)}"
        if len(words) <= cells:
            return words.ljust(cells)
    return ""


def _below(box: PeriodBox, width: int, palette: Palette) -> list[Text]:
    """Return how many lie in a box, and why one looks at it: at least two spaces part that from the
    words of the next box, or both would read as one.
    """
    count = str(len(box.rolls)) if box.rolls else "empty"
    rows = [fitted(count, width, style(palette.text if box.rolls else palette.quiet))]
    why = under_a_box(box)
    how = style(palette.left, bold=True)
    rows += [fitted(row.plain, width, how) for row in wrapped(why, width - 1) if why]
    return rows


def heading(room: Room, opened: PeriodBox, width: int, palette: Palette) -> list[Text]:
    """Return what stands above the rolls of the open box: which it is, and what is owed there."""
    strong, quiet = style(palette.text, bold=True), style(palette.quiet)
    where = box_title(room, opened)
    if not opened.rolls:
        return [Text(where, style=strong), *styled(nothing_in(opened), width, quiet)]
    whys = whys_of(opened)
    count = f"   {counted(len(opened.rolls), 'roll')} to cut and sleeve"
    last = f": {', '.join(whys)}" if whys else ", longest there first"
    how = style(palette.left, bold=True) if whys else quiet
    line = Text.assemble((where, strong), (count, quiet), (last, how))
    line.truncate(width, overflow="ellipsis")
    return [line]


def roll_row(now: Now, each: Standing, width: int, palette: Palette, *, is_selected: bool) -> Text:
    """Return the row of a roll: its clip, whose it is, since when it lies there, and why one looks
    at it.
    """
    roll = each.roll
    remarks = ", ".join(remark(now, each, why) for why, _ in each.why)
    name = max(14, min(30, width - 56))
    line = Text.assemble(
        ("▸" if is_selected else " ", style(palette.text, bold=True)),
        fitted(f"{roll.clip or '–'}".rjust(4), 6, style(palette.text, bold=True)),
        fitted(short_name(now.owner(roll)), name, style(palette.text, bold=is_selected)),
        fitted(str(roll.film), 11, style(palette.quiet)),
        fitted(since(now, roll.since), 12, style(palette.quiet)),
    )
    rest = max(0, width - line.cell_len)
    line.append_text(fitted(remarks, rest, _why_style(each, palette)))
    return select(line, palette) if is_selected else line


def _why_style(each: Standing, palette: Palette) -> Style:
    first = each.why[0][0] if each.why else ""
    colours = {"in the wrong box": palette.flip, "unknown roll": palette.touch}
    return style(colours.get(first, palette.left), bold=True)
