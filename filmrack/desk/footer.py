"""The footer: which keys do what here, from the registry."""

from __future__ import annotations

from collections.abc import Iterable

from rich.cells import cell_len
from rich.text import Text

from filmrack.desk.ink import fit, style
from filmrack.desk.keys import KEYS
from filmrack.desk.lines import Lines
from filmrack.desk.themes import PALETTES

_GAP = "   "
_RESTS = ("↑ ↓", "or type its number")
"""While Enter leaves a roll alone, be that shown: to another, or this one is named again."""
_SIGNS = {"question_mark": "?", "escape": "esc", "pageup": "pgup", "pagedown": "pgdn"}


class Footer(Lines):
    """One line of keys."""

    def __init__(self, keys: dict[str, str]) -> None:
        super().__init__(id="footer")
        self._of = {entry: sign(key) for key, entry in reversed(keys.items())}

    def draw(
        self, enter: str, following: str, escape: str, *, rests: bool = False, typed: str = ""
    ) -> None:
        """Show what Enter does now, which screen Tab goes to, and what Escape does, if anything;
        while Enter `rests`, how a roll is meant again, and what is `typed` when a lent one is back.

        On a narrow screen Escape gives way to what Enter does; whoever misses it asks for help.
        """
        palette = PALETTES[self.app.theme]
        width = max(1, self.content_size.width) + len(_GAP)  # the last gap may fall off
        now = {"next_screen": following, "back": escape}
        others = {
            entry.id: (self._of.get(entry.id, ""), now.get(entry.id, entry.words))
            for entry in KEYS
            if entry.footer
        }
        too_wide = enter and _cells([("enter", enter), *others.values()]) > width
        if too_wide or not escape:
            del others["back"]
        room = width - _cells(others.values()) - _cells([("enter", "")])
        parts = [("enter", fit(enter, room).rstrip())] if enter and room > 0 else []
        for each in ([_RESTS] if rests else []) + ([(f"“{typed}”", "it is back")] if typed else []):
            parts += [each] if _cells([*parts, each, *others.values()]) <= width else []
        line = Text()
        for key, words in (*parts, *others.values()):
            line.append(f"{key} ", style=style(palette.text, bold=True))
            line.append(f"{words}{_GAP}", style=style(palette.quiet))
        line.truncate(width - len(_GAP))
        self.show([line])


def _cells(parts: Iterable[tuple[str, str]]) -> int:
    """Return how wide keys are with what they do, and the gap behind each."""
    return sum(cell_len(key) + 1 + cell_len(words) + len(_GAP) for key, words in parts)


def sign(key: str) -> str:
    """Return a key as it is written on a keyboard."""
    return _SIGNS.get(key, key)
