"""The right part of the sweep: a figure to read from a step away, sentences, lists of rolls."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from rich.text import Text

from filmrack.desk.ink import fitted, short_name, style, wrapped
from filmrack.desk.now import Now
from filmrack.desk.sweep.figures import large, small
from filmrack.desk.themes import Palette
from filmrack.domain.attention import Standing
from filmrack.domain.roll import Roll
from filmrack.store.findings import Finding

_ENTRY = 38
"""Cells of one roll in a list; as many columns are made as fit, fewer where one is wider."""


class SweepPage:
    """The right part of the screen, row by row."""

    def __init__(
        self, now: Now, palette: Palette, width: int, *, roomy: bool, is_asked: bool
    ) -> None:
        self.now = now
        self.is_asked = is_asked
        """Something is asked that Enter answers: what else could be typed waits."""
        self.roomy = roomy
        """Whether all is said that could be typed. On a low screen the strips themselves go first:
        they tell which clips should be there and what is not dry, the empty line asks for others,
        and what is typed seldom stands in the help.
        """
        self.width = width
        self.rows: list[Text] = []
        self._lists: list[tuple[int, str]] = []
        """The row where each list begins, and what it is of."""
        self._palette = palette
        self._strong = style(palette.text, bold=True)
        self._plain = style(palette.text)
        self._quiet = style(palette.quiet)

    def title(self, words: str) -> None:
        """Say in bold what this is about."""
        self.rows.append(Text(words, style=self._strong))
        if self.roomy:
            self.rows.append(Text(""))

    def figure(self, number: int, what: str, keys: Sequence[tuple[str, str]]) -> None:
        """Show a number large, beside it what it counts and which key does what."""
        keys = [each for each in keys if each[0] == "Enter"] if self.is_asked else keys
        figure = large(number) if self.roomy else small(number)
        span = max(len(row) for row in figure) + 3
        beside = [Text(row.plain, style=self._strong) for row in wrapped(what, self.width - span)]
        if self.roomy:
            beside.append(Text(""))
        widest = max((len(key) for key, _ in keys), default=0)
        for key, words in keys:
            rows = wrapped(words, self.width - span - widest - 2)
            for nth, row in enumerate(rows):
                name = key if nth == 0 else ""
                head = (f"{name:<{widest}}  ", self._strong)
                beside.append(Text.assemble(head, (row.plain, self._plain)))
        for nth in range(max(len(figure), len(beside))):
            digits = figure[nth] if nth < len(figure) else ""
            row = Text.assemble((f"{digits:<{span}}", style(self._palette.dry, bold=True)))
            if nth < len(beside):
                row.append_text(beside[nth])
            self.rows.append(row)
        self.rows.append(Text(""))

    def ask(self, words: str) -> None:
        """Ask what is to be looked at before a key is pressed."""
        self.rows += [Text(row.plain, style=self._strong) for row in wrapped(words, self.width)]
        self.rows.append(Text(""))

    def caution(self, *sentences: str) -> None:
        """Say what to beware of, each in rows of its own; nothing for no words."""
        rows = [row for words in sentences for row in wrapped(words, self.width)]
        for row in rows:
            row.stylize(style(self._palette.flip, bold=True))
        self.rows += [*rows, Text("")] if rows else []

    def remark(self, words: str) -> None:
        """Say something in passing; nothing for no words."""
        if words:
            self.rows += [*wrapped(words, self.width), Text("")]

    def list_of(self, heading: str, entries: Iterable[Text]) -> None:
        """Show a list in as many columns as fit; nothing for an empty one."""
        listed = list(entries)
        if not listed:
            return
        widest = max(_ENTRY, *(entry.cell_len + 1 for entry in listed))
        columns = max(1, self.width // widest)
        self._lists.append((len(self.rows), f"{len(listed)} {re.split('[,:;.]', heading)[0]}"))
        high = -(-len(listed) // columns)
        self.rows += [Text(row.plain, style=self._quiet) for row in wrapped(heading, self.width)]
        for nth in range(high):
            row = Text("")
            for entry in listed[nth::high]:
                entry.truncate(self.width // columns - 1, overflow="ellipsis")
                entry.append(" " * (self.width // columns - entry.cell_len))
                row.append_text(entry)
            self.rows.append(row)
        self.rows.append(Text(""))

    def below(self, row: int) -> str:
        """Return which lists begin at a row or behind it, with how many each is of."""
        below = [name for first, name in self._lists if first >= row]
        return ", ".join(below) or "more"

    def hanging(self, each: Standing, box: int | None, *, own_box: int | None) -> Text:
        """Return a roll that hangs: whose, how it is, and where it goes if not to the own box."""
        entry = self._who(each.roll)
        state = each.state or ""
        how = style(self._palette.state(state), bold=state != "wet")
        entry.append_text(fitted(state, 6, how))
        if box is None or box != own_box:
            words = "no box" if box is None else f"to box {box}"
            entry.append(words, style=style(self._palette.flip, bold=True))
        return entry

    def found(self, each: Finding, *, own_box: int | None) -> Text:
        """Return a roll that was found: whose, and where it is now; another's box stands out."""
        entry = self._who(each.roll)
        here = own_box in (None, each.roll.place.number) and each.roll.place.kind == "box"
        how = self._quiet if here else style(self._palette.flip, bold=True)
        entry.append(f"{each.roll.place}", style=how)
        return entry

    def sentence(self, roll: Roll, words: str) -> Text:
        """Return a roll with some words about it."""
        entry = self._who(roll)
        entry.append(words, style=self._plain)
        return entry

    def _who(self, roll: Roll) -> Text:
        name = short_name(self.now.owner(roll))
        return Text.assemble(
            fitted(f"{roll.clip or '–'}".rjust(4), 6, self._strong),
            fitted(name, 13, self._plain),
            " ",
        )
