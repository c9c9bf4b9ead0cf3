"""The figures of a term as a picture: week by week, and the days from dryer to sleeve.

Every bar bears its number, and every row its words; nothing is told by colour alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from rich.style import Style
from rich.text import Text

from filmrack.desk.archive.bars import bars
from filmrack.desk.ink import fit, fitted, style
from filmrack.desk.themes import Palette
from filmrack.domain.counted import counted
from filmrack.domain.schooldays import Term
from filmrack.store.figures import Figures, Week

_LABEL = 17
_WIDEST, _NARROWEST = 6, 4
_LEAST_DAY = 5
"""Cells of a day, into which the word “more” goes."""

_LOW = 24
"""Rows from which what was left behind and how sweeps agreed have bars, not only numbers."""

_NONE = "·"
"""Stands for 0, which draws no bar."""

_LAST_DAY = 14
"""Days of which each has its bar; what took longer shares one."""


class _Frame(NamedTuple):
    width: int
    height: int
    palette: Palette

    @property
    def low(self) -> bool:
        return self.height < _LOW

    def row(self, label: str, cells: Text, edge: str = "│") -> Text:
        """Return one row: its words at the left, then what is drawn."""
        line = Text.assemble(
            (f"{fit(label, _LABEL - 2)} ", style(self.palette.quiet)),
            (edge, style(self.palette.rule)),
            cells,
        )
        line.truncate(self.width)
        return line

    def ground(self, cells: int) -> Text:
        """Return the line on which bars stand."""
        return self.row("", Text("─" * cells, style=style(self.palette.rule)), "└")

    def rows(self, label: str, lines: Sequence[Text]) -> list[Text]:
        """Return rows with their words beside the last one, which stands on the ground."""
        last = len(lines) - 1
        return [self.row(label if nth == last else "", each) for nth, each in enumerate(lines)]


def term_figures(
    figures: Figures, term: Term, width: int, height: int, palette: Palette
) -> list[Text]:
    """Return the figures of a term in at most `height` lines of `width` cells."""
    frame = _Frame(width, height, palette)
    strong = style(palette.text, bold=True)
    title = Text(fit(_title(figures, term, width), width).rstrip(), style=strong)
    if not figures.rolls:
        quiet = style(palette.quiet)
        return [title, Text(""), Text("The first roll that hangs begins the picture.", quiet)]
    weeks, cells = _in_sight(figures.weeks, width)
    # What the rows below and above the two charts leave for them, two thirds for the weeks.
    spare = height - (9 if frame.low else 18)
    tall = max(3, min(9, spare * 3 // 5))
    short = max(3, min(6, spare - tall))
    gap = [] if frame.low else [Text("")]
    return [
        title,
        *gap,
        *_weeks(weeks, cells, tall, frame),
        *gap,
        *_days(figures, short, frame),
    ]


def _title(figures: Figures, term: Term, width: int) -> str:
    """Return what the term comes to: of what was left behind, the newest week first and apart."""
    title = f"Term {term.code}: {counted(figures.rolls, 'roll')} hung, {_behind(figures.weeks)}"
    median = figures.median_days
    sleeved = "" if median is None else f", half sleeved within {counted(median, 'day')}"
    return title + sleeved if len(title + sleeved) <= width else title


def _behind(weeks: Sequence[Week]) -> str:
    """Return `3 left behind in the week of 16 Nov, 8 before`."""
    before = sum(week.left_behind for week in weeks[:-1])
    newest = weeks[-1] if weeks else None
    if newest is None or not before + newest.left_behind:
        return "none left behind"
    week = f"the week of {newest.monday.day} {newest.monday:%b}"
    older = f", {before} before" if before else ""
    return f"{newest.left_behind or 'none'} left behind in {week}{older}"


def _in_sight(weeks: Sequence[Week], width: int) -> tuple[Sequence[Week], int]:
    """Return the latest weeks that have room, and the cells of each."""
    space = width - _LABEL
    cells = max(_NARROWEST, min(_WIDEST, space // len(weeks)))
    return weeks[-(space // cells) :], cells


def _weeks(weeks: Sequence[Week], cells: int, tall: int, frame: _Frame) -> list[Text]:
    palette = frame.palette
    text = style(palette.text)
    rolls = [float(week.rolls) for week in weeks]
    behind = [float(week.left_behind) for week in weeks]
    right = [None if week.accuracy is None else 100 * week.accuracy for week in weeks]
    hung = [_number(week.rolls, cells) for week in weeks]
    upright = bars(rolls, tall, cells, style(palette.wet), words=hung, text=text)
    lines = frame.rows("rolls a week", upright)
    lines += [frame.ground(len(weeks) * cells), *_dates(weeks, cells, frame)]
    numbers = [_number(week.left_behind, cells) for week in weeks]
    percent = ["" if each is None else f"{each:.0f}" for each in right]
    if frame.low:
        lines.append(frame.row("left behind", _cells(numbers, cells, style(palette.left)), " "))
        lines.append(frame.row("sweep agreed, %", _cells(percent, cells, text), " "))
        return lines
    left_ink, right_ink = style(palette.left), style(palette.dry)
    lines.append(Text(""))
    most = max([*behind, 4.0])
    lines += frame.rows(
        "left behind", bars(behind, 3, cells, left_ink, most=most, words=numbers, text=text)
    )
    lines.append(frame.ground(len(weeks) * cells))
    lines += frame.rows(
        "sweep agreed, %", bars(right, 3, cells, right_ink, most=100, words=percent, text=text)
    )
    lines.append(frame.ground(len(weeks) * cells))
    return lines


def _number(number: int, cells: int) -> str:
    if not number:
        return _NONE
    return str(number) if len(str(number)) < cells else "+"


def _dates(weeks: Sequence[Week], cells: int, frame: _Frame) -> list[Text]:
    """Return the Monday of each week, and the month where it begins."""
    quiet = style(frame.palette.quiet)
    months = [f"{weeks[0].monday:%b}"]
    for before, week in pairwise(weeks):
        months.append(f"{week.monday:%b}" if week.monday.month != before.monday.month else "")
    return [
        frame.row("Monday", _cells([str(week.monday.day) for week in weeks], cells, quiet), " "),
        frame.row("", _cells(months, cells, quiet), " "),
    ]


def _days(figures: Figures, short: int, frame: _Frame) -> list[Text]:
    palette = frame.palette
    quiet, text = style(palette.quiet), style(palette.text)
    taken = figures.days_to_sleeve
    if not taken:
        return [Text("No roll of this term is sleeved yet.", style=quiet)]
    space = frame.width - _LABEL
    days = min(_LAST_DAY, max(taken), space // _LEAST_DAY - 2)
    longer = sum(rolls for day, rolls in taken.items() if day > days)
    values = [float(taken.get(day, 0)) for day in range(days + 1)]
    labels = [str(day) for day in range(days + 1)]
    if longer:
        values.append(float(longer))
        labels.append("more")
    cells = max(_LEAST_DAY, min(_WIDEST, space // len(values)))
    words = [_number(round(value), cells) for value in values]
    return [
        *frame.rows(
            "rolls sleeved",
            bars(values, short, cells, style(palette.touch), words=words, text=text),
        ),
        frame.ground(len(values) * cells),
        frame.row("days from dryer", _cells(labels, cells, quiet), " "),
    ]


def _cells(words: Sequence[str], cells: int, how: Style) -> Text:
    return Text("").join(
        fitted(word.center(cells - 1 - (cells >= _WIDEST)), cells, how) for word in words
    )
