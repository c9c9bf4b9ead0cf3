"""The footer: which keys do what here, from the registry."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.ink import style
from filmrack.desk.lines import Lines
from filmrack.desk.registry import KEYS
from filmrack.desk.themes import PALETTES

_SIGNS = {"question_mark": "?", "escape": "esc", "pageup": "pgup", "pagedown": "pgdn"}


class Footer(Lines):
    """One line of keys."""

    def __init__(self, keys: dict[str, str]) -> None:
        super().__init__(id="footer")
        self._of = {entry: sign(key) for key, entry in reversed(keys.items())}

    def draw(self, enter: str, following: str) -> None:
        """Show what Enter does now, and which screen Tab goes to."""
        palette = PALETTES[self.app.theme]
        parts = [("enter", enter)] if enter else []
        for entry in KEYS:
            if entry.footer:
                words = following if entry.id == "next_screen" else entry.words
                parts.append((self._of.get(entry.id, ""), words))
        line = Text()
        for key, words in parts:
            line.append(f"{key} ", style=style(palette.text, bold=True))
            line.append(f"{words}   ", style=style(palette.quiet))
        line.truncate(max(1, self.content_size.width))
        self.show([line])


def sign(key: str) -> str:
    """Return a key as it is written on a keyboard."""
    return _SIGNS.get(key, key)
