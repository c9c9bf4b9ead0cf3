"""Numbers as bars of block characters: upright with the number above, or lying."""

from __future__ import annotations

from collections.abc import Sequence

from rich.style import Style
from rich.text import Text

_STEPS = " ▁▂▃▄▅▆▇█"
_ACROSS = " ▏▎▍▌▋▊▉█"

_AIRY = 6
"""Cells of a bar from which its gap is of two."""


def bar(value: float, most: float, cells: int) -> str:
    """Return a lying bar; every value above 0 is seen, if by one eighth of a cell."""
    eighths = _eighths(value, most, cells * 8)
    full, rest = divmod(eighths, 8)
    return "█" * full + (_ACROSS[rest] if rest else "")


def bars(
    values: Sequence[float | None],
    rows: int,
    cells: int,
    ink: Style,
    *,
    most: float | None = None,
    words: Sequence[str] | None = None,
    text: Style | None = None,
) -> list[Text]:
    """Return `rows` lines of bars that are `cells` wide each, with their gap.

    `most` is the value of a full bar, else the greatest one. `words` stand above the bars, else
    the values as whole numbers; a number that has no bar stands on the ground. None is no value.
    Every value above 0 is seen, if by one eighth of a row.
    """
    top = most if most is not None else max([each for each in values if each] or [1])
    eighths = [_eighths(each, top, (rows - 1) * 8) for each in values]
    said = words if words is not None else ["" if v is None else f"{v:g}" for v in values]
    wide = cells - 1 if cells < _AIRY else cells - 2
    lines = []
    for row in range(rows):
        under = (rows - 1 - row) * 8
        line = Text()
        for each, word in zip(eighths, said, strict=True):
            full = (each + 7) // 8
            if full == rows - 1 - row:
                line.append(word.center(wide).ljust(cells)[:cells], style=text or ink)
            else:
                step = _STEPS[max(0, min(8, each - under))]
                line.append((step * wide).ljust(cells), style=ink)
        lines.append(line)
    return lines


def _eighths(value: float | None, most: float, full: int) -> int:
    if not value:
        return 0
    return max(1, min(full, round(value / most * full)))
