"""Small pieces of text that every screen draws alike: names, states, times."""

from __future__ import annotations

from functools import lru_cache

from rich.cells import cell_len, set_cell_size
from rich.console import Console
from rich.style import Style
from rich.text import Text

from filmrack.desk.themes import Palette
from filmrack.domain.attention import Standing
from filmrack.domain.names import Person
from filmrack.domain.room import Rod, Room

_CONSOLE = Console(width=80)


@lru_cache(maxsize=256)
def style(color: str, *, bold: bool = False) -> Style:
    """Return a style; colours named `ansi_…` are the terminal's own."""
    return Style(color=color.removeprefix("ansi_"), bold=bold or None)


def ground(palette: Palette) -> Style:
    """Return the ground of what is selected; in the terminal's own colours, reversed."""
    if palette.chosen.startswith("ansi_"):
        return Style(reverse=True)
    return Style(bgcolor=palette.chosen)


def select(line: Text, palette: Palette, *, bold: bool = False) -> Text:
    """Return a line as the selected one; reversed, its words would be blocks of their colours."""
    if palette.chosen.startswith("ansi_"):
        return Text(line.plain, style=Style(reverse=True, bold=True))
    line.stylize(ground(palette) + Style(bold=bold or None))
    return line


def state_word(standing: Standing) -> str:
    """Return the one word for a hanging roll, short enough for its place on the map: wet, flip,
    touch, dry, or late when it is left behind.

    “Left” alone would say that it is gone, and “left behind” has no room there; the card of such a
    roll says both. Wet film is never called late: the word would ask to take it down.
    """
    if standing.left_behind and standing.state not in ("wet", "flip"):
        return "late"
    return standing.state or ""


def state_style(standing: Standing, palette: Palette) -> Style:
    """Return how a state's word is written: what wants a hand stands out."""
    if standing.left_behind:
        return style(palette.left, bold=True)
    wants_a_hand = standing.state in ("flip", "touch", "dry")
    return style(palette.state(standing.state), bold=wants_a_hand)


def fit(text: str, width: int) -> str:
    """Return a text in exactly so many cells, shortened visibly where it is longer."""
    if width <= 0:
        return ""
    if cell_len(text) <= width:
        return set_cell_size(text, width)
    return set_cell_size(text, width - 1).rstrip() + "…" if width > 1 else "…"


def padded(text: str, width: int) -> str:
    """Return a text in exactly so many cells, whatever is shortened."""
    cut = fit(text, width)
    return cut + " " * (width - cell_len(cut))


def fitted(text: str, width: int, how: Style) -> Text:
    """Return a styled text in exactly so many cells."""
    return Text(padded(text, width), style=how)


def short_name(person: Person | None) -> str:
    """Return a name as every desk may show it: `Mara O.`."""
    return "unknown" if person is None else person.short


def whose_rod(rod: Rod, room: Room) -> str:
    """Return whose film hangs on a rod: a period's name, or `anyone` as its setting says it."""
    period = room.period(rod.period)
    return "anyone" if period is None else period.name


def wrapped(text: str, width: int) -> list[Text]:
    """Return a text broken into lines of so many cells at most."""
    if text.isprintable() and 0 < cell_len(text) <= width:
        return [Text(text)]  # most are short: Rich takes ten times as long to see that
    return list(Text(text).wrap(_CONSOLE, max(1, width)))


def styled(text: str, width: int, how: Style) -> list[Text]:
    """Return a text broken into lines of so many cells at most, each in a style; none of an empty
    text.
    """
    return [Text(row.plain, style=how) for row in wrapped(text, width)] if text else []
