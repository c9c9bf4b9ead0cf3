"""The board: this and the last period's rolls, for everyone to read from where they stand."""

from __future__ import annotations

from itertools import zip_longest

from rich.text import Text

from filmrack.desk.ink import fitted, short_name, state_style, state_word, style
from filmrack.desk.lines import Spot
from filmrack.desk.session import Now
from filmrack.desk.view import View
from filmrack.domain.attention import Standing

_COLUMN = 44
"""Cells of a column of names: the board takes as many as fit."""


class BoardView(View):
    """Who has a roll on its way, where it is and one word for how it is; nothing to press."""

    screen_id = "board"
    shows_card = False

    def draw(self, now: Now) -> None:
        """Show the rolls of this class, then those of the last one."""
        width, height = self.content_size.width, self.content_size.height
        groups = _groups(now)
        rows = sum(len(some) + 2 for _, some in groups)
        columns = max(1, min(width // _COLUMN, -(-rows // max(1, height))))
        airy = rows * 2 <= height * columns
        lines: list[Text] = []
        spots: list[Spot] = []
        for title, some in groups:
            lines.append(Text(title, style=style(self.palette.text, bold=True)))
            if not some:
                lines.append(Text("nothing on its way", style=style(self.palette.quiet)))
            per_column = -(-len(some) // columns) or 1
            stacks = [some[n : n + per_column] for n in range(0, len(some), per_column)]
            cell = width // columns
            for row in zip_longest(*stacks):
                lines.append(Text(""))
                for nth, each in enumerate(row):
                    if each is None:
                        continue
                    spot = len(lines) - 1, nth * cell
                    lines[-1].append_text(self._entry(now, each, cell))
                    spots.append(Spot(spot[0], spot[1], spot[0] + 1, spot[1] + cell, each.roll.id))
                if airy:
                    lines.append(Text(""))
            lines.append(Text(""))
        self.show(lines, spots)

    def _entry(self, now: Now, each: Standing, cell: int) -> Text:
        palette, roll = self.palette, each.roll
        name = short_name(now.owner(roll))
        clip = f"{roll.clip}" if roll.clip else ""
        where = f"rod {roll.place.number}" if roll.place.kind == "rod" else str(roll.place)
        word = state_word(each) or ("tank" if roll.place.kind == "tank" else "")
        space = max(8, cell - 26)
        return Text.assemble(
            fitted(clip.rjust(3), 5, style(palette.text, bold=True)),
            fitted(name, space, style(palette.text, bold=True)),
            fitted("" if word == "tank" else where, 9, style(palette.quiet)),
            fitted(word if word != "tank" else "in the tank", 12, state_style(each, palette)),
        )


def _groups(now: Now) -> list[tuple[str, list[Standing]]]:
    """Return the rolls of the class that is on and of the one before, and who was left behind."""
    shown = [*now.hanging, *now.tank]
    timetable = now.room.timetable
    last = timetable.last_meeting_before(now.meeting.starts if now.meeting else now.at)
    groups: list[tuple[str, list[Standing]]] = []
    taken: set[int] = set()
    for meeting, when in ((now.meeting, "now"), (last, "before")):
        if meeting is None:
            continue
        period = now.room.period(meeting.period)
        some = [
            each
            for each in shown
            if each.roll.period == meeting.period and each.roll.id not in taken
        ]
        taken |= {each.roll.id for each in some}
        some.sort(key=lambda each: short_name(now.owner(each.roll)))
        groups.append((f"{period.name if period else 'class'}, {when}", some))
    rest = [each for each in shown if each.roll.id not in taken and each.left_behind]
    if rest:
        groups.append(("left behind by others", rest))
    return groups
