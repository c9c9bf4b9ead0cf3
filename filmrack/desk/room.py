"""Room: what the room is, what its dryer has taught, and how to keep and change it."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.dryingrecord import drying_record
from filmrack.desk.ink import style, wrapped
from filmrack.desk.lines import STEPS
from filmrack.desk.room_words import Section, sections
from filmrack.desk.session import Now, Session
from filmrack.desk.view import View

_TWO_COLUMNS = 96
_NAME = 15
_GAP = 4
_PICTURE = 12
"""Rows of a drying record."""


class RoomView(View):
    """The room in words, to read; it is changed by the room file and by the words it names."""

    screen_id = "room"
    shows_card = False

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._top = 0
        self._rows = 0

    def draw(self, now: Now) -> None:
        """Show the sections, in two columns where there is room."""
        width = self.content_size.width or 76
        told = sections(self.session, now)
        if width < _TWO_COLUMNS:
            lines = self._column(told, width)
        else:
            half = (width - _GAP) // 2
            left, right = _halves([(each, self._column([each], half)) for each in told])
            lines = _beside(left, right, half)
        self._rows = len(lines)
        self._top = max(0, min(self._top, len(lines) - max(1, self.content_size.height)))
        shown = lines[self._top :]
        height = self.content_size.height
        if len(shown) > height > 1:
            more = Text("↓ more below", style=style(self.palette.quiet))
            shown = [*shown[: height - 1], more]
        self.show(shown)

    def move(self, key: str) -> None:
        """Scroll."""
        self._top = max(0, min(self._rows, self._top + STEPS.get(key, 0)))

    def choose(self, what: int) -> None:
        """Take a click: there is nothing to select here."""

    def enter_does(self) -> str | None:
        """Return nothing: Enter alone changes no room."""
        return ""

    def hint(self) -> str:
        """Return what can be typed here."""
        return "backup, catch up, passphrase, lock, or a name"

    def _column(self, told: list[Section], width: int) -> list[Text]:
        strong = style(self.palette.text, bold=True)
        lines: list[Text] = []
        for section in told:
            lines.append(Text(section.title, style=strong))
            for name, words in section.rows:
                lines += self._row(name, words, width)
            for learned, rolls in section.records:
                lines.append(Text(""))
                lines += drying_record(learned, rolls, width, _PICTURE, self.palette)
            lines.append(Text(""))
        return lines

    def _row(self, name: str, words: str, width: int) -> list[Text]:
        quiet, plain = style(self.palette.quiet), style(self.palette.text)
        if not name:
            return [Text(row.plain, style=plain) for row in wrapped(words, width)]
        label = Text(name, style=quiet)
        label.truncate(_NAME - 1, overflow="ellipsis")
        rows = []
        for nth, row in enumerate(wrapped(words, max(10, width - _NAME))):
            start = label if nth == 0 else Text("")
            rows.append(
                Text.assemble(start, " " * (_NAME - start.cell_len), (row.plain.rstrip(), plain))
            )
        return rows


def _halves(told: list[tuple[Section, list[Text]]]) -> tuple[list[Text], list[Text]]:
    """Cut the sections into two columns of about the same height, in their order."""
    heights = [len(lines) for _, lines in told]
    total = sum(heights)
    cut = min(range(len(told) + 1), key=lambda nth: abs(2 * sum(heights[:nth]) - total))
    left = [line for _, lines in told[:cut] for line in lines]
    right = [line for _, lines in told[cut:] for line in lines]
    return left, right


def _beside(left: list[Text], right: list[Text], half: int) -> list[Text]:
    lines = []
    for nth in range(max(len(left), len(right))):
        one = left[nth] if nth < len(left) else Text("")
        other = right[nth] if nth < len(right) else Text("")
        lines.append(Text.assemble(one, " " * (half + _GAP - one.cell_len), other))
    return lines
