"""A widget that shows lines of text as they are given, and tells what a click was on."""

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from rich.segment import Segment
from rich.style import Style
from rich.text import Text
from textual import events
from textual.geometry import Region
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from filmrack.domain.names import harmless

MOVES = {"up": -1, "down": 1, "page_up": -10, "page_down": 10, "first": -9999, "last": 9999}
"""How many rows each key goes in a list; the ends of the list stop it."""


class Spot(NamedTuple):
    """A part of the lines that stands for something: rows and columns, ends not included."""

    top: int
    left: int
    bottom: int
    right: int
    what: int


Piece = tuple[str, Style]
"""Words in one style."""


class PiecedRow(NamedTuple):
    """A line of many pieces side by side, which a Text would take several times as long to draw."""

    pieces: tuple[Piece, ...]

    @property
    def plain(self) -> str:
        """Return its words."""
        return "".join(words for words, _ in self.pieces)


class Lines(Widget):
    """Lines of text, drawn one by one; typed text in them is never read as markup."""

    class Picked(Message):
        """A spot was clicked; `again` when it was the second click on it."""

        def __init__(self, what: int, *, again: bool) -> None:
            super().__init__()
            self.what = what
            self.again = again

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._lines: Sequence[Text | PiecedRow] = ()
        self._strips: dict[int, Strip] = {}
        self._ground: Style | None = None
        self._spots: Sequence[Spot] = ()
        self._from = 0
        self.begin: Callable[[], None] | None = None
        """Called once before the first row is rendered: sizes are known then, so what is drawn
        now is on the first frame already."""

    def show(
        self,
        lines: Sequence[Text | PiecedRow],
        spots: Sequence[Spot] = (),
        *,
        keep: int | None = None,
    ) -> None:
        """Show lines; `keep` is a row that stays in sight where there are more than fit."""
        height = max(1, self.size.height)
        first = min(self._from, max(0, len(lines) - height))
        if keep is not None:
            first = min(max(first, keep - height + 2), max(0, keep - 1))
        first = max(0, first)
        before, moved = self._lines, first != self._from or len(lines) != len(self._lines)
        self._lines, self._spots, self._from = lines, spots, first
        if moved:
            self._strips.clear()
            self.refresh()
            return
        for row, (old, new) in enumerate(zip(before, lines, strict=True)):
            if old != new:
                self._strips.pop(row, None)
                if first <= row < first + height:
                    self.refresh(Region(0, row - first, self.size.width, 1))

    def render_line(self, y: int) -> Strip:
        """Return one row of the screen."""
        if self.begin is not None:
            begin, self.begin = self.begin, None
            begin()
        row = y + self._from
        known = self._strips.get(row)
        width = self.size.width
        if known is not None and known.cell_length == width:
            return known
        # Worked out from all that lies under this widget, it is the same for each of its rows.
        ground = self._ground = self._ground or self.rich_style
        if row >= len(self._lines):
            return Strip.blank(width, ground)
        strip = Strip(self._segments(self._lines[row], ground)).adjust_cell_length(width, ground)
        self._strips[row] = strip
        return strip

    def _segments(self, line: Text | PiecedRow, ground: Style) -> Iterable[Segment]:
        if isinstance(line, PiecedRow):
            return [Segment(harmless(words), ground + how) for words, how in line.pieces]
        # Rich drops the style of a text without spans; appended to another it becomes a span.
        text = Text().append_text(line)
        text.plain = harmless(text.plain)
        return Segment.apply_style(text.render(self.app.console, end=""), ground)

    def notify_style_update(self) -> None:
        """Draw anew in other colours."""
        self._strips.clear()
        self._ground = None
        super().notify_style_update()

    def on_resize(self, _: events.Resize) -> None:
        """Draw anew at another width."""
        self._strips.clear()

    def on_click(self, event: events.Click) -> None:
        """Tell which spot was clicked."""
        offset = event.get_content_offset(self)
        if offset is None:
            return
        x, y = offset.x, offset.y + self._from
        for spot in self._spots:
            if spot.top <= y < spot.bottom and spot.left <= x < spot.right:
                self.post_message(self.Picked(spot.what, again=event.chain > 1))
                return
