"""Help: what this screen is for, every key, every sentence of the line, and the cautions."""

from __future__ import annotations

from rich.text import Text
from textual import events

from filmrack.desk.footer import sign
from filmrack.desk.ink import style, wrapped
from filmrack.desk.lines import Lines
from filmrack.desk.registry import COMMANDS, KEYS, SCREENS, SENTENCES, open_to, screen_entry
from filmrack.desk.themes import PALETTES
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
        from filmrack.printing import CAUTIONS  # the desk opens without what prints

        palette = PALETTES[self.app.theme]
        width = max(30, min(100, self.content_size.width or 76))
        strong, quiet = style(palette.text, bold=True), style(palette.quiet)
        screen = screen_entry(screen_id)
        lines = [Text(f"{screen.title}: {screen.purpose}", style=strong), Text("")]

        def two(rows: list[tuple[str, str]], title: str) -> None:
            lines.append(Text(title, style=strong))
            for name, words in rows:
                first, *more = wrapped(words, width - _NAMES)
                head = Text(f"  {name:<{_NAMES - 2}}", style=style(palette.text))
                if len(name) > _NAMES - 4:  # too long to stand beside its words
                    lines.append(head)
                    head = Text(" " * _NAMES)
                lines.append(head.append(first.plain, quiet))
                lines.extend(Text(" " * _NAMES + row.plain, style=quiet) for row in more)
            lines.append(Text(""))

        if screen.says:
            two(list(screen.says), f"On {screen.title} alone")
        two(list(SENTENCES), "Type it, or scan it")
        two([(c.words, c.does) for c in COMMANDS if open_to(c, by)], "Words")
        two(
            [(s.title, s.purpose) for s in SCREENS if open_to(s, by)],
            "Screens, by their name or with Tab",
        )
        by_id: dict[str, list[str]] = {}
        for key, key_id in self._keys.items():
            by_id.setdefault(key_id, []).append(sign(key))
        two([(", ".join(by_id.get(k.id, [])), k.words) for k in KEYS], "Keys")
        lines.append(Text("Take care", style=strong))
        for caution in CAUTIONS:
            lines += [Text(f"  {row.plain}", style=quiet) for row in wrapped(caution, width - 2)]
        self.page = lines
        height = self.content_size.height or len(lines)  # before it is laid out all is shown
        self.at = max(0, min(self.at, len(lines) - height))
        shown = lines[self.at : self.at + height]
        if self.at + height < len(lines):
            shown[-1] = Text("↓ more below, with the arrows", style=strong)
        self.show(shown)
