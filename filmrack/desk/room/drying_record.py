"""The drying record as a picture: what touch checks found, and how likely film is dry by then.

Every shape says by itself what it is: tacky ▲, dry ●, each on a row of its own, several in one
place as a figure; nothing is told by colour alone.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from rich.style import Style
from rich.text import Text

from filmrack.desk.ink import fit, style
from filmrack.desk.themes import Palette
from filmrack.domain.counted import counted
from filmrack.domain.course import LIKELY
from filmrack.domain.dryer import flipped_after
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.learning import LEAST_ROLLS, LEAST_TACKY, SURE, Learned
from filmrack.domain.touch import TimedCheck

_LEAST_WIDTH, _LEAST_HEIGHT = 36, 8
_LABEL = 10
_STEPS = "▁▂▃▄▅▆▇█"
_TICKS = (1, 2, 5, 10, 20, 30, 60)
_LONGEST = 120.0


class _Axis(NamedTuple):
    """Minutes over so many cells, from 0 at the left."""

    minutes: float
    cells: int

    def cell(self, minutes: float) -> int:
        """Return the cell of a moment; what lies beyond is in the last one."""
        return min(self.cells - 1, max(0, int(minutes / self.minutes * self.cells)))

    def middle(self, cell: int) -> float:
        """Return the minutes at the middle of a cell."""
        return (cell + 0.5) * self.minutes / self.cells


def drying_record(
    learned: Learned,
    rolls: Sequence[Sequence[TimedCheck]],
    width: int,
    height: int,
    palette: Palette,
) -> list[Text]:
    """Return what a dryer has taught as `height` lines of `width` cells.

    `rolls` are its checked rolls that count, each by its checks. The axis is in minutes under the
    fan of a roll flipped halfway; a check stands at the minutes its roll had had by that measure.
    Less than 36 × 8 is drawn as 36 × 8.
    """
    width, height = max(width, _LEAST_WIDTH), max(height, _LEAST_HEIGHT)
    checks = [check for roll in rolls for check in roll]
    spans = [
        (
            name,
            learned.posterior.fan_minutes(LIKELY, flip),
            learned.posterior.fan_minutes(SURE, flip),
        )
        for name, flip in (("flipped", learned.flip), ("unflipped", math.inf))
    ]
    longest = max([spans[-1][2], 10.0, *(dryer_minutes(check.a, check.b) for check in checks)])
    axis = _Axis(min(longest, _LONGEST) * 1.05, width - _LABEL)
    quiet = style(palette.quiet)
    below = [
        *(_marks(checks, axis, dry=dry, palette=palette) for dry in (False, True)),
        _ticks(axis, palette),
        *(_span(name, likely, sure, axis, palette) for name, likely, sure in spans),
        Text(fit(_wanted(len(rolls), checks, learned), width), style=quiet),
    ]
    head = Text(fit(_head(len(rolls), checks), width), style=style(palette.text, bold=True))
    return [head, *_curve(learned, axis, height - len(below) - 1, palette), *below]


def _head(rolls: int, checks: Sequence[TimedCheck]) -> str:
    if not checks:
        return "No touch check yet: common practice"
    tacky = sum(not check.dry for check in checks)
    return f"{counted(rolls, 'roll')}: {tacky} tacky ▲, {len(checks) - tacky} dry ●"


def _wanted(rolls: int, checks: Iterable[TimedCheck], learned: Learned) -> str:
    if learned.proven:
        return "Enough for “dry” by estimate"
    tacky = sum(not check.dry for check in checks)
    wanted = [
        counted(LEAST_ROLLS - rolls, "more roll") if rolls < LEAST_ROLLS else "",
        f"{LEAST_TACKY - tacky} more tacky" if tacky < LEAST_TACKY else "",
    ]
    return f"Wanted: {', '.join(each for each in wanted if each) or 'more found dry'}"


def _curve(learned: Learned, axis: _Axis, rows: int, palette: Palette) -> list[Text]:
    """Draw P(dry) of a roll that is flipped in time, in eighths of a row."""
    eighths = [
        round(rows * 8 * learned.posterior.p_dry(*flipped_after(learned.flip, x)))
        for x in map(axis.middle, range(axis.cells))
    ]
    lines = []
    for row in range(rows):
        under = (rows - 1 - row) * 8
        cells = "".join(_level(each - under) for each in eighths)
        label = "100 % dry" if row == 0 else "50 % dry" if rows > 2 and row == rows // 2 else ""
        lines.append(_row(label, cells, style(palette.wet), palette))
    return lines


def _level(eighths: int) -> str:
    return " " if eighths <= 0 else _STEPS[min(8, eighths) - 1]


def _marks(checks: Iterable[TimedCheck], axis: _Axis, *, dry: bool, palette: Palette) -> Text:
    found = Counter(
        axis.cell(dryer_minutes(check.a, check.b)) for check in checks if check.dry == dry
    )
    shape = "●" if dry else "▲"
    cells = "".join(
        " " if not found[cell] else shape if found[cell] == 1 else _figure(found[cell])
        for cell in range(axis.cells)
    )
    ink = style(palette.dry if dry else palette.flip, bold=True)
    return _row("dry ●" if dry else "tacky ▲", cells, ink, palette)


def _figure(number: int) -> str:
    return str(number) if number < 10 else "+"


def _ticks(axis: _Axis, palette: Palette) -> Text:
    room = math.ceil(axis.minutes * 7 / axis.cells)
    step = next((each for each in _TICKS if each >= room), _TICKS[-1])
    cells = [" "] * axis.cells
    for minutes in range(0, int(axis.minutes) + 1, step):
        text, at = str(minutes), axis.cell(minutes)
        if at + len(text) <= axis.cells:
            cells[at : at + len(text)] = text
    return _row("minutes", "".join(cells), style(palette.quiet), palette, "└")


def _span(name: str, likely: float, sure: float, axis: _Axis, palette: Palette) -> Text:
    """Draw from where film is as likely dry as not to where it is dry 19 times in 20."""
    start, end = axis.cell(likely), axis.cell(sure)
    line = " " * start + "├" + "─" * max(0, end - start - 1) + "┤"
    words = f"50 % {likely:.0f}, 95 % {sure:.0f}"
    if len(line) + 1 + len(words) <= axis.cells:
        line += f" {words}"
    elif len(words) + 1 <= start:
        line = f"{words:>{start - 1}} {line[start:]}"
    else:
        inner, words = end - start - 1, f" {likely:.0f}–{sure:.0f} "
        if inner >= len(words):
            line = line[: start + 1] + words.center(inner, "─") + "┤"
        else:
            line += words.rstrip()
    return _row(name, fit(line, axis.cells), style(palette.text), palette, " ")


def _row(label: str, cells: str, ink: Style, palette: Palette, edge: str = "│") -> Text:
    return Text.assemble(
        (f"{label:>{_LABEL - 1}}", style(palette.quiet)), (edge, style(palette.rule)), (cells, ink)
    )
