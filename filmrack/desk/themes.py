"""Colours: daylight, dim, and the terminal's own sixteen. State is a word first, a colour second.

Each pair that is shown together is held to 4.5:1 (text) or 3:1 (marks) by a test, as WCAG 2.2
asks.
"""

from typing import NamedTuple

from textual.theme import Theme


class Palette(NamedTuple):
    """The colours of one theme, as Rich and Textual read them."""

    name: str
    dark: bool
    ground: str
    panel: str
    text: str
    quiet: str
    rule: str
    """Marks that only guide the eye."""
    wet: str
    flip: str
    touch: str
    dry: str
    left: str
    chosen: str
    """The ground of what is selected."""

    def state(self, state: str | None) -> str:
        """Return the colour of a state's word."""
        return {"wet": self.wet, "flip": self.flip, "touch": self.touch, "dry": self.dry}.get(
            state or "", self.quiet
        )


DIM = Palette(
    name="dim",
    dark=True,
    ground="#12161b",
    panel="#1c222a",
    text="#e8ebef",
    quiet="#9ba6b2",
    rule="#4a5460",
    wet="#74aee6",
    flip="#f4a261",
    touch="#c3a6f5",
    dry="#e3c466",
    left="#ff8f85",
    chosen="#2d3a49",
)
DAYLIGHT = Palette(
    name="daylight",
    dark=False,
    ground="#f7f5f0",
    panel="#ebe7de",
    text="#1b2026",
    quiet="#575f69",
    rule="#aba698",
    wet="#1f5f9f",
    flip="#9c3d06",
    touch="#5f3aa6",
    dry="#7a5400",
    left="#b01e16",
    chosen="#d5dde8",
)
TERMINAL = Palette(
    name="terminal",
    dark=True,
    ground="ansi_default",
    panel="ansi_default",
    text="ansi_default",
    quiet="ansi_white",
    rule="ansi_bright_black",
    wet="ansi_bright_cyan",
    flip="ansi_bright_magenta",
    touch="ansi_bright_green",
    dry="ansi_bright_yellow",
    left="ansi_bright_red",
    chosen="ansi_default",
)
PALETTES = {palette.name: palette for palette in (DIM, DAYLIGHT, TERMINAL)}


def theme_after(name: str) -> str:
    """Return the name of the colours that come next."""
    names = list(PALETTES)
    return names[(names.index(name) + 1) % len(names)]


def theme(palette: Palette) -> Theme:
    """Return a palette as Textual's theme."""
    return Theme(
        name=palette.name,
        primary=palette.wet,
        secondary=palette.quiet,
        warning=palette.flip,
        error=palette.left,
        success=palette.dry,
        accent=palette.touch,
        foreground=palette.text,
        background=palette.ground,
        surface=palette.ground,
        panel=palette.panel,
        dark=palette.dark,
        variables={
            "quiet": palette.quiet,
            "rule": palette.rule,
            "chosen": palette.chosen,
        },
    )
