"""The board: this and the last period's rolls, for everyone to read from where they stand."""

from __future__ import annotations

from typing import NamedTuple

from rich.text import Text

from filmrack.desk.ink import fitted, short_name, state_style, state_word, style
from filmrack.desk.lines import Spot
from filmrack.desk.now import Now
from filmrack.desk.view import View
from filmrack.domain.attention import Standing

_COLUMN = 37
"""Cells of a column of names: the board takes as many as it needs, and as fit."""

_WIDEST = 56
"""Cells beyond which a name and its place would stand too far apart to be read together."""

_PAGE_SECONDS = 8
"""How long each page stands where all do not fit: nobody presses anything at the board."""


class BoardView(View):
    """Who has a roll on its way, where it is and one word for how it is; nothing to press."""

    screen_id = "board"
    shows_card = False

    def escape_does(self) -> str:
        """Nothing is let go of: no roll is selected here."""
        return ""

    def draw(self, now: Now) -> None:
        """Show the rolls of this class, then those of the last one, then who else waits."""
        width, height = self.content_size.width, max(4, self.content_size.height)
        blocks = [_Block(title, some) for title, some in _groups(now)]
        most = max(1, width // _COLUMN)
        columns = next((n for n in range(1, most) if _rows(blocks, n, 2) <= height), most)
        airy = 2 if _rows(blocks, columns, 2) <= height else 1
        cell = min(_WIDEST, width // columns)
        lines: list[Text] = []
        spots: list[Spot] = []
        for block in blocks:
            lines.append(Text(block.title, style=style(self.palette.text, bold=True)))
            if not block.some:
                lines.append(Text("nothing on its way", style=style(self.palette.quiet)))
            for row in block.rows(columns):
                top = len(lines)
                lines.append(Text(""))
                for nth, each in enumerate(row):
                    lines[-1].append_text(self._entry(now, each, cell))
                    left = nth * cell
                    spots.append(Spot(top, left, top + 1, left + cell, each.roll.id))
                lines += [Text("")] * (airy - 1)
            if airy == 1 or not block.some:
                lines.append(Text(""))
        if not now.hanging and not now.tank:
            lines += self._empty()
        self._show_page(now, lines, spots, height)

    def _empty(self) -> list[Text]:
        quiet = style(self.palette.quiet)
        return [
            Text("No roll is on its way.", style=style(self.palette.text, bold=True)),
            Text("Load one with dry hands: scan or type its owner, then its clip.", style=quiet),
        ]

    def _show_page(self, now: Now, lines: list[Text], spots: list[Spot], height: int) -> None:
        while lines and not lines[-1].plain:
            lines.pop()
        if len(lines) <= height:
            self.show(lines, spots)
            return
        room = height - 1
        pages = -(-len(lines) // room)
        page = int(now.at.timestamp()) // _PAGE_SECONDS % pages
        top = page * room
        shown = lines[top : top + room]
        shown += [Text("")] * (room - len(shown))
        words = f"page {page + 1} of {pages}; it turns by itself"
        moved = [
            Spot(each.top - top, each.left, each.bottom - top, each.right, each.what)
            for each in spots
            if top <= each.top < top + room
        ]
        self.show([*shown, Text(words, style=style(self.palette.quiet))], moved)

    def _entry(self, now: Now, each: Standing, cell: int) -> Text:
        palette, roll = self.palette, each.roll
        in_tank = roll.place.kind == "tank"
        text = style(palette.text, bold=True)
        return Text.assemble(
            fitted(f"{roll.clip or '–'}".rjust(3), 5, text),
            fitted(short_name(now.owner(roll)), max(8, cell - 23), text),
            fitted("in tank" if in_tank else f"rod {roll.place.number}", 9, style(palette.quiet)),
            fitted("" if in_tank else state_word(each), 7, state_style(each, palette)),
        )


class _Block(NamedTuple):
    """A class with its rolls, the names running down each column."""

    title: str
    some: list[Standing]

    def rows(self, columns: int) -> list[list[Standing]]:
        per_column = -(-len(self.some) // columns)
        return [self.some[nth::per_column] for nth in range(per_column)]


def _rows(blocks: list[_Block], columns: int, airy: int) -> int:
    """Return how many rows all blocks take, the last blank one left out."""
    each = [1 + airy * max(1, len(block.rows(columns))) + (airy == 1) for block in blocks]
    return sum(each) - 1


def _groups(now: Now) -> list[tuple[str, list[Standing]]]:
    """Return the rolls of the class that is on, of the one before, and whose else wait."""
    shown = [*now.hanging, *now.tank]
    timetable, word = now.room.timetable, now.room.period_word
    on_now = None if now.class_on is None else now.class_on.meeting
    last = timetable.last_meeting_before(on_now.starts if on_now else now.at)
    groups: list[tuple[str, list[Standing]]] = []
    taken: set[int] = set()
    for meeting, when in ((on_now, "now"), (last, f"the last {word}")):
        if meeting is None:
            continue
        period = now.room.period(meeting.period)
        some = [
            each
            for each in shown
            if each.roll.period == meeting.period and each.roll.id not in taken
        ]
        taken |= {each.roll.id for each in some}
        name = period.name if period else "class"
        groups.append((f"{name}, {when}", _by_name(now, some)))
    rest = [each for each in shown if each.roll.id not in taken]
    waiting = [each for each in rest if each.left_behind or each.state != "dry"]
    if waiting:
        groups.append((f"Other {word}s", _by_name(now, waiting)))
    return groups


def _by_name(now: Now, some: list[Standing]) -> list[Standing]:
    return sorted(some, key=lambda each: short_name(now.owner(each.roll)).casefold())
