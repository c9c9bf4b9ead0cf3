"""The pages that lie over the archive of a term: its report, its figures, what is handed back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.archive.term_figures import term_figures
from filmrack.desk.archive.term_report import PageLine, hand_back_lines, report_lines
from filmrack.desk.ink import style
from filmrack.desk.lines import MOVES
from filmrack.desk.now import Now
from filmrack.desk.rows_in_sight import more_below
from filmrack.desk.session import Session
from filmrack.desk.themes import Palette
from filmrack.domain.refusal import FileTrouble
from filmrack.domain.schooldays import Term
from filmrack.store.figures import figures
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.trouble import damage_in

_PAGES = ("report", "figures", "hand-back list")


class TermPages:
    """Draws these pages; one that was read is kept for the hour, or until the file changes.

    A page is read beside the desk, on a connection of its own: `beside` does some work in a thread
    and has the screen drawn when it is done.
    """

    def __init__(self, session: Session, beside: Callable[[Callable[[], None]], None]) -> None:
        self._session = session
        self._beside = beside
        self.name = ""
        """The page that lies there: one of _PAGES, or none."""
        self._first = 0
        self._kept: _PageRead | None = None
        self._reading: _PageAsked | None = None
        """What is being read in a thread."""
        self._since = session.now

    def lay(self, name: str) -> None:
        """Lay a page there from its beginning, or take it away."""
        assert name in ("", *_PAGES)
        self.name, self._first = name, 0

    def turn(self, key: str, page: int) -> None:
        """Take a key: up, down, page_up, page_down, first, last; `page` is in rows."""
        lines = len(self._kept.lines) if self._kept else 0
        own = {"page_up": -page, "page_down": page, "first": -self._first, "last": lines}
        self._first = max(0, self._first + {**MOVES, **own}.get(key, 0))

    def lines(self, now: Now, term: Term, size: tuple[int, int], palette: Palette) -> list[Text]:
        """Return the rows in sight of the page for a term; `size` is their width and number.

        While it is read they say so, unless the same page lies there as it was a moment ago.
        Raises what its reading has raised.
        """
        hour = now.at.replace(minute=0, second=0, microsecond=0)
        asked = _PageAsked(self.name, term, size, palette, self._session.stamp, hour)
        if (self._kept is None or self._kept.asked != asked) and self._reading != asked:
            self._reading, self._since = asked, now.at
            self._beside(partial(self._read, asked, now))
        if self._kept is None or not self._kept.asked.looks_like(asked):
            seconds = int((now.at - self._since).total_seconds())
            words = f"Reading {self.name} of {term.code}, {seconds} s … Esc leaves it."
            return [Text(words, style=style(palette.quiet))]
        if self._kept.trouble is not None:
            raise self._kept.trouble
        lines, height = self._kept.lines, size[1]
        self._first = max(0, min(self._first, len(lines) - height))
        shown = lines[self._first : self._first + height]
        below = len(lines) - self._first - height
        if below > 0 and height > 1:
            shown[-1] = more_below(below + 1, size[0], palette)
        return [line if isinstance(line, Text) else line() for line in shown]

    def _read(self, asked: _PageAsked, now: Now) -> None:
        """Read a page in a thread; one that nobody waits for any more is let go."""
        path = self._session.path
        try:
            with damage_in(path), open_file(path, write=False) as file:
                lines = _lines_of(file, asked, now)
            read = _PageRead(asked, lines)
        except FileTrouble as trouble:
            read = _PageRead(asked, [], trouble)
        if self._reading == asked:
            self._kept, self._reading = read, None


class _PageAsked(NamedTuple):
    """A page that is wanted: how it looks, and of what moment it is."""

    page: str
    term: Term
    size: tuple[int, int]
    """Its width, and how many rows of it are in sight."""
    palette: Palette
    stamp: int
    """Changes whenever the file does."""
    hour: datetime

    def looks_like(self, other: _PageAsked) -> bool:
        """Tell whether it is the same page, if of another moment."""
        return self._replace(stamp=other.stamp, hour=other.hour) == other


def _lines_of(file: DarkroomFile, asked: _PageAsked, now: Now) -> list[PageLine]:
    width, _ = asked.size
    match asked.page:
        case "figures":
            told = figures(file, asked.term, now.at)
            return [*term_figures(told, asked.term, *asked.size, asked.palette)]
        case "report":
            return report_lines(file, now, asked.term, width, asked.palette)
        case _:
            return hand_back_lines(file, now, asked.term, width, asked.palette)


class _PageRead(NamedTuple):
    """A page that was read: its lines, or what went wrong."""

    asked: _PageAsked
    lines: list[PageLine]
    trouble: FileTrouble | None = None
