"""What the desk answers, in letters that are read from a step away."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.ink import fit, style
from filmrack.desk.lines import Lines
from filmrack.desk.said import capital
from filmrack.desk.themes import PALETTES

LOW = 30
"""Rows of a screen below which nothing stands around the words."""

_AIRY = 2
"""Rows of words that have an empty row above and below; around more of them the map of eight rods
would lose the names at its strips while somebody reads."""


class Answer(Lines):
    """Lines above the line: whom it means, in two rows at most, and what happened or why not."""

    def __init__(self) -> None:
        super().__init__(id="answer")
        self.headline = ""
        self.words = ""
        self.refused = False

    def tell(self, headline: str, words: str = "", *, refused: bool = False) -> None:
        """Say something; an empty headline and no words take the answer away."""
        self.headline, self.words, self.refused = headline, words, refused
        self.display = bool(headline or words)
        self.draw()

    def draw(self) -> None:
        """Draw the answer in the colours in force."""
        palette = PALETTES[self.app.theme]
        width = max(1, self.content_size.width or self.app.size.width - 4)
        how = style(palette.left if self.refused else palette.text, bold=True)
        first, *more = Text(self.headline).wrap(self.app.console, width) or [Text()]
        below = fit(" ".join(row.plain.strip() for row in more), width).rstrip()
        lines = [Text(row, style=how) for row in (first.plain.rstrip(), below) if row]
        # A name as `Mara O.` brings its own stop to where a sentence ends.
        sentence = capital(self.words).replace(".. ", ". ")
        ending = "" if not sentence or sentence[-1] in ".!?…" else "."
        lines += [
            Text(row.plain, style=how if self.refused else style(palette.text))
            for row in Text(sentence + ending).wrap(self.app.console, width)
        ]
        around = 1 if len(lines) <= _AIRY and self.app.size.height >= LOW else 0
        self.styles.padding = (around, 2)
        self.styles.height = max(1, len(lines)) + 2 * around
        self.show(lines)
