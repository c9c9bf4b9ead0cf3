"""A sheet of labels and a label, drawn in the cells of a terminal."""

from __future__ import annotations

from pathlib import Path

from rich.cells import cell_len
from rich.style import Style
from rich.text import Text

from filmrack.desk.ink import fitted, style
from filmrack.desk.labels.reading import Sheets
from filmrack.desk.themes import Palette
from filmrack.domain.counted import counted
from filmrack.printing import Label
from filmrack.printing.design import design, fill
from filmrack.printing.symbols import symbol

SHAPES = {"used": "░", "now": "█", "free": "·"}
_CELLS = 12
"""Cells that all labels of a row take together."""

_RULES = 2
"""Rows that the frame of a label takes."""

_PAPER = Style(color="#000000", bgcolor="#ffffff")
_MARGIN = 2
"""Modules of white that are drawn around a symbol; on paper there are more."""


def sheet_rows(sheets: Sheets, palette: Palette, rows: int) -> tuple[list[Text], int, int]:
    """Return the first sheet by rows of labels, the cells of a label, and the first row shown.

    Where the screen has fewer rows, those around the first label to print are shown.
    """
    wide = max(2, _CELLS // sheets.across)
    first = 0
    if sheets.down > rows:
        at = (sheets.start - 1) // sheets.across
        first = max(0, min(at - 1, sheets.down - rows))
    styles = {
        "used": style(palette.quiet),
        "now": style(palette.wet),
        "free": style(palette.quiet),
    }
    lines = []
    for row in range(first, min(first + rows, sheets.down)):
        line = Text()
        for column in range(sheets.across):
            place = sheets.place(row * sheets.across + column + 1)
            line.append(SHAPES[place] * wide, style=styles[place])
            line.append(" ")
        lines.append(line)
    return lines, wide, first


def label_rows(
    label: Label, palette: Palette, width: int, height: int, own: Path | None
) -> list[Text]:
    """Return a label in a frame: its symbol where there is room, its headline and its lines.

    What there is no room for is said in its last lines; `height` is 3 rows or more.
    """
    its = design(label.kind, own)
    fields = label.fields()
    words = [fill(its.headline, fields, label.kind)]
    words += [line for line in (fill(each, fields, label.kind) for each in its.lines) if line]
    dots = _symbol_rows(label) if width >= 44 else []
    if not dots or max(len(dots), len(words)) > height - _RULES:
        dots = []
        words.append("and its code, not drawn here")
    if len(words) > height - _RULES:
        shown = height - _RULES - 1
        words = [*words[:shown], f"and {counted(len(words) - shown, 'line')} more"]
    left = len(dots[0]) + 2 if dots else 0
    width = min(width, max(28, left + max(map(cell_len, words)) + 6))
    inner = width - 4
    room = max(4, inner - left)
    strong, quiet, rule = (
        style(palette.text, bold=True),
        style(palette.text),
        style(palette.rule),
    )
    rows = min(max(len(dots), len(words) + 2), height - _RULES)
    top = (rows - len(words)) // 2
    lines = [Text.assemble(("╭" + "─" * (width - 2) + "╮", rule))]
    for row in range(rows):
        line = Text.assemble(("│ ", rule))
        if dots:
            line.append(dots[row], style=_PAPER)
            line.append("  ")
        nth = row - top
        text = words[nth] if 0 <= nth < len(words) else ""
        line.append_text(fitted(text, room, strong if nth == 0 else quiet))
        line.append(" │", style=rule)
        lines.append(line)
    return [*lines, Text.assemble(("╰" + "─" * (width - 2) + "╯", rule))]


def _symbol_rows(label: Label) -> list[str]:
    """Two rows of modules in each row of cells, with some white around."""
    drawn = symbol(label.payload).rows
    side = (False,) * _MARGIN
    blank = [(False,) * (len(drawn) + 2 * _MARGIN)] * _MARGIN
    rows = [*blank, *(side + row + side for row in drawn), *blank, blank[0]]
    return [
        "".join(" ▄▀█"[2 * up + down] for up, down in zip(*pair, strict=True))
        for pair in zip(rows[::2], rows[1::2], strict=False)
    ]
