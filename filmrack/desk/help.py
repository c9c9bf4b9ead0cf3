"""Help: what this screen is for, every key, every sentence of the line, and the cautions."""

from __future__ import annotations

from collections.abc import Sequence

from rich.text import Text
from textual import events

from filmrack.desk.footer import sign
from filmrack.desk.ink import style, wrapped
from filmrack.desk.keys import KEYS
from filmrack.desk.lines import Lines
from filmrack.desk.registry import (
    COMMANDS,
    SCREENS,
    SENTENCES,
    ScreenEntry,
    open_to,
    screen_entry,
)
from filmrack.desk.rows_in_sight import more_below
from filmrack.desk.themes import PALETTES, Palette
from filmrack.desk.view import View
from filmrack.domain.student_desk import By

_NAMES = 32
"""Cells of the first column."""


class Help(Lines):
    """A page over the screen; the arrows scroll it, Escape closes it."""

    def __init__(self, keys: dict[str, str]) -> None:
        super().__init__(id="help")
        self._keys = keys
        self.at = 0
        """The first row that is shown."""
        self.page: list[Text] = []
        """All rows."""

    def on_resize(self, _: events.Resize) -> None:
        """Ask to be drawn anew: how much fits is another now."""
        self.post_message(View.Laid())

    def draw(self, screen_id: str, by: By) -> None:
        """Show the help of a screen."""
        palette = PALETTES[self.app.theme]
        width = max(30, min(100, self.content_size.width or 76))
        lines = self.page = self._page(screen_entry(screen_id), by, palette, width)
        height = self.content_size.height or len(lines)  # before it is laid out all is shown
        self.at = max(0, min(self.at, len(lines) - height))
        shown = lines[self.at : self.at + height]
        below = len(lines) - self.at - height
        if below > 0:
            shown[-1] = more_below(below + 1, width, palette)
        self.show(shown)

    def _page(self, screen: ScreenEntry, by: By, palette: Palette, width: int) -> list[Text]:
        """Return all rows: what the screen is for, what can be typed, the keys, the cautions."""
        from filmrack.printing import CAUTIONS  # the desk opens without what prints

        strong, quiet = style(palette.text, bold=True), style(palette.quiet)
        screens = [(each.title, each.purpose) for each in SCREENS if open_to(each, by)]
        tables: list[tuple[str, Sequence[tuple[str, str]]]] = [
            (f"On {screen.title} alone", screen.says),
            ("Type it, or scan it", SENTENCES),
            ("Words", [(each.words, each.does) for each in COMMANDS if open_to(each, by)]),
            ("Screens, by their name or with Tab", screens),
            ("Keys", self._keys_and_words()),
        ]
        lines = [Text(f"{screen.title}: {screen.purpose}", style=strong), Text("")]
        for title, rows in tables:
            if rows:
                lines += [Text(title, style=strong), *_table(rows, palette, width), Text("")]
        lines.append(Text("Take care", style=strong))
        for caution in CAUTIONS:
            lines += [Text(f"  {row.plain}", style=quiet) for row in wrapped(caution, width - 2)]
        return lines

    def _keys_and_words(self) -> list[tuple[str, str]]:
        by_id: dict[str, list[str]] = {}
        for key, key_id in self._keys.items():
            by_id.setdefault(key_id, []).append(sign(key))
        return [(", ".join(by_id.get(entry.id, [])), entry.words) for entry in KEYS]


def _table(rows: Sequence[tuple[str, str]], palette: Palette, width: int) -> list[Text]:
    """Return rows of what is typed and what it means, in two columns."""
    quiet = style(palette.quiet)
    lines: list[Text] = []
    for name, words in rows:
        first, *more = wrapped(words, width - _NAMES)
        head = Text(f"  {name:<{_NAMES - 2}}", style=style(palette.text))
        if len(name) > _NAMES - 4:  # too long to stand beside its words
            lines.append(head)
            head = Text(" " * _NAMES)
        lines.append(head.append(first.plain, quiet))
        lines += [Text(" " * _NAMES + row.plain, style=quiet) for row in more]
    return lines
