"""Which rows of a list are in sight where not all of them fit, and how it says that it goes on."""

from __future__ import annotations

from typing import NamedTuple

from rich.cells import cell_len
from rich.text import Text

from filmrack.desk.ink import fitted, style
from filmrack.desk.themes import Palette


class InSight(NamedTuple):
    """The rows of a list that are drawn, from `first` to `end`, not included, all from 0; `below`
    is how many more there are, for the row behind them to say.
    """

    first: int
    end: int
    below: int


def in_sight(first: int, at: int, many: int, height: int, *, above: int = 0) -> InSight:
    """Return which of `many` rows are drawn in `height` rows.

    They begin at `first`, as they did before, as long as row `at` and so many rows above it are
    among them. Where the list goes on, its last row is kept for saying so; not where it is the
    only one.
    """
    room = max(1, height - 1)
    lead = min(above, room - 1)
    moved = min(max(first, at - room + 1), max(0, at - lead))
    first = max(0, min(moved, many - height))
    if many - first <= height or height < 2:
        return InSight(first, min(first + height, many), 0)
    return InSight(first, first + room, many - first - room)


def more_below(many: int, width: int, palette: Palette) -> Text:
    """Return the last row of a list that goes on below it: how many more there are, and, where
    there is room, how they are come to.
    """
    words = f"↓ {many} more below"
    whole = f"{words}, with the arrows"
    shown = whole if cell_len(whole) <= width else words
    return fitted(shown, width, style(palette.text, bold=True))
