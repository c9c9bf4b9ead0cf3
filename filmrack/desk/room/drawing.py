"""How the screen Room is drawn: its sections at the left, the rows of one beside them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from rich.cells import cell_len
from rich.text import Text

from filmrack.desk.ink import fitted, select, style, wrapped
from filmrack.desk.lines import Spot
from filmrack.desk.room.row import RoomRow
from filmrack.desk.room.sections import SECTIONS
from filmrack.desk.rows_in_sight import more_below
from filmrack.desk.themes import Palette
from filmrack.domain.room import Room

LEFT = 18
"""Cells of the sections' titles, with the gap behind them."""

MARK = 2
"""Cells before a row, where a mark stands at the selected one: colours may be few, or none."""

_WIDEST = 110
_LEAST_NAME, _MOST_NAME = 8, 22


class Drawn(NamedTuple):
    """Rows as lines, the row that each line is of, and those for whose note no room was beside."""

    lines: list[Text]
    of: list[int]
    untold: frozenset[int] = frozenset()


def drawn(rows: Sequence[RoomRow], at: int | None, width: int, palette: Palette) -> Drawn:
    """Return rows as lines of so many cells; the selected one stands out."""
    width = min(width, _WIDEST) - MARK
    lines: list[Text] = []
    of: list[int] = []
    longest = max((cell_len(row.name) for row in rows if row.words and not row.heading), default=0)
    name = min(max(_LEAST_NAME, longest + 2), _MOST_NAME, max(_LEAST_NAME, width // 2))
    for nth, row in enumerate(rows):
        if row.heading and lines:
            lines.append(Text(""))
            of.append(nth)
        some = _row(row, name, width, palette)
        if nth == at:
            some[0] = Text.assemble(("▸ ", style(palette.text, bold=True)), some[0])
            some[1:] = [Text.assemble(" " * MARK, line) for line in some[1:]]
            lines += [select(line, palette, bold=True) for line in some]
        else:
            lines += [Text.assemble(" " * MARK, line) for line in some]
        of += [nth] * len(some)
    untold = (nth for nth, row in enumerate(rows) if row.note and not _holds(row, width - name))
    return Drawn(lines, of, frozenset(untold))


def foot(
    rows: Sequence[RoomRow], shown: Drawn, at: int | None, width: int, palette: Palette
) -> list[Text]:
    """Return the lines below the rows: what the selected one is, where its own had no room for it.

    There are as many for each row, so that nothing moves with the mark.
    """
    width = min(width, _WIDEST) - MARK
    notes = {nth: wrapped(f"{rows[nth].name}: {rows[nth].note}", width) for nth in shown.untold}
    most = max((len(lines) for lines in notes.values()), default=0)
    mine = notes.get(-1 if at is None else at, [])
    words = [line.plain.rstrip() for line in mine] + [""] * (most - len(mine))
    return [fitted(f"{' ' * MARK}{line}", width + MARK, style(palette.quiet)) for line in words]


def rows_below(shown: Drawn, end: int, width: int, palette: Palette) -> Text:
    """Return the line that says how many rows are below the last line shown, empty for none."""
    below = len({*shown.of[end:]} - {*shown.of[:end]})
    if below:
        return more_below(below, width, palette)
    words = "↓ more below" if shown.of[end:] else ""  # the rest of a row that is shown in part
    return fitted(words, width, style(palette.text, bold=True))


def window(shown: Drawn, at: int | None, top: int, height: int) -> int:
    """Return the first line to show, so that the selected row is in sight with what is around it.

    Without one the lines stay where they were scrolled to.
    """
    most = max(0, len(shown.lines) - height)
    top = max(0, min(top, most))
    if at is None:
        return top
    mine = [nth for nth, row in enumerate(shown.of) if row == at]
    if not mine:
        return top
    first, last = mine[0], mine[-1]
    margin = min(2, max(0, (height - 3) // 2))
    if last + margin >= top + height:
        top = last + margin - height + 1
    top = min(top, first - margin)
    return max(0, min(top, most))


def sections(
    room: Room, chosen: int, height: int, palette: Palette, *, row_chosen: bool
) -> tuple[list[Text], int]:
    """Return the sections' titles, and the first one that is shown where not all of them fit.

    The mark stands at the chosen one unless a row of it is selected, and has it.
    """
    top = max(0, min(chosen - height + 2, len(SECTIONS) - height)) if height else 0
    lines = []
    for nth, section in enumerate(SECTIONS[top : top + height], top):
        strong = nth == chosen
        how = style(palette.text if strong else palette.quiet, bold=strong)
        line = fitted(
            f"{'▸ ' if strong and not row_chosen else '  '}{room.in_its_words(section.title)}",
            LEFT - 1,
            how,
        )
        lines.append(select(line, palette) if strong and not row_chosen else line)
    return lines, top


def beside(left: list[Text], right: list[Text], height: int) -> list[Text]:
    """Return two columns as lines."""
    lines = []
    for nth in range(min(height, max(len(left), len(right)))):
        one = left[nth] if nth < len(left) else Text(" " * (LEFT - 1))
        lines.append(Text.assemble(one, " ", right[nth] if nth < len(right) else ""))
    return lines


def spots(of: Sequence[int], rows: Sequence[RoomRow], width: int) -> list[Spot]:
    """Return the spots of the lines that are shown, from the top; only rows that do something."""
    return [
        Spot(line, LEFT, line + 1, LEFT + width, row)
        for line, row in enumerate(of)
        if rows[row].enter is not None
    ]


def section_spots(top: int, shown: int) -> list[Spot]:
    """Return the spots of the sections' titles: -1 for the first one, and on downwards."""
    return [Spot(nth, 0, nth + 1, LEFT - 1, -1 - (top + nth)) for nth in range(shown)]


def _holds(row: RoomRow, width: int) -> bool:
    """Tell whether a row's note has room beside its words."""
    return cell_len(row.words) + 3 + cell_len(row.note) <= width


def _row(row: RoomRow, name: int, width: int, palette: Palette) -> list[Text]:
    quiet, plain = style(palette.quiet), style(palette.text)
    if row.drawn is not None:
        return [row.drawn]
    if row.heading:
        return [fitted(row.name, width, style(palette.text, bold=True))]
    if not row.name:
        return [fitted(line.plain.rstrip(), width, plain) for line in wrapped(row.words, width)]
    adds = row.enter is not None and row.name.endswith("…")
    label = fitted(row.name, name - 1, plain if adds else quiet)
    if row.enter is not None and not row.words:
        return [fitted(row.name, width, plain)]
    lines = []
    for nth, line in enumerate(wrapped(row.words, max(10, width - name))):
        start = label if nth == 0 else Text(" " * (name - 1))
        words = Text(line.plain.rstrip(), style=quiet if adds else plain)
        if row.note and _holds(row, width - name):
            words.append(f"   {row.note}", style=quiet)
        words.pad_right(max(0, width - name - words.cell_len))
        lines.append(Text.assemble(start, " ", words))
    return lines
