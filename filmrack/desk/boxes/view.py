"""The period boxes: who lies in them and since when, and what is with its owner."""

from __future__ import annotations

from datetime import datetime
from itertools import zip_longest

from rich.style import Style
from rich.text import Text

from filmrack.desk.boxes.period_boxes import OWNERS, PeriodBox, period_boxes, why_words
from filmrack.desk.boxes.words import (
    box_title,
    nothing_in,
    remark,
    since,
    what_lies_in,
    whys_of,
)
from filmrack.desk.ink import fit, fitted, select, short_name, style, wrapped
from filmrack.desk.lines import MOVES, Spot
from filmrack.desk.now import Now
from filmrack.desk.places_typed import box_typed
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.view import View
from filmrack.domain.attention import Standing
from filmrack.domain.counted import counted
from filmrack.domain.roll import PLACES
from filmrack.domain.student_desk import may
from filmrack.store.standings import Seen
from filmrack.store.waiting import to_be_sleeved

_WIDEST = 14
_NARROWEST = 9
_GAP = 1


class BoxesView(View):
    """The boxes side by side, and the rolls of the chosen one below."""

    screen_id = "boxes"
    rests_after = PLACES
    shows = frozenset({"box", "owner"})
    stays = True

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._box: int | None = OWNERS
        self._begun = False
        """Whether a box was chosen yet: at first it is the fullest with something urgent."""
        self._row = 0
        self._empty_handed = False
        """No roll is selected: after a click on the box alone, and when the one that was left."""
        self._marked: int | None = None
        """The roll that the marker stood at."""
        self._reading: tuple[tuple[int, datetime], Seen] | None = None

    def draw(self, now: Now) -> None:
        """Show the boxes, then what lies in the chosen one."""
        boxes = self._read(now)
        chosen = self._chosen(boxes)
        width = max(20, self.content_size.width)
        lines, spots = self._boxes(boxes, chosen, width)
        lines.append(Text(""))
        lines += self._heading(now, chosen, width)
        keep = None
        for each in chosen.rolls:
            row = len(lines)
            lines.append(self._roll(now, each, width))
            spots.append(Spot(row, 0, row + 1, width, each.roll.id))
            if each.roll.id == self.selected:
                keep = row
        self.show(lines, spots, keep=keep)

    def _read(self, now: Now) -> list[PeriodBox]:
        seen = self._seen(now)
        now.people.update(seen.people)
        return period_boxes(now.room, seen)

    def _seen(self, now: Now) -> Seen:
        """Return the reading of the file; judged anew each minute, since nothing here hurries."""
        key = self.session.stamp, now.at.replace(second=0, microsecond=0)
        if self._reading is None or self._reading[0] != key:
            self._reading = key, to_be_sleeved(self.session.file, now.at)
        return self._reading[1]

    def _chosen(self, boxes: list[PeriodBox]) -> PeriodBox:
        """Return the box that is shown, and keep a roll in it selected if there is one."""
        holding = next((box for box in boxes if self._row_in(box) is not None), None)
        if holding is not None:
            self._box, self._begun = holding.number, True
        elif not self._begun and any(box.rolls for box in boxes):
            fullest = max(boxes, key=lambda box: (box.urgent, len(box.rolls)))
            self._box, self._begun = fullest.number, True
        known = (box for box in boxes if self._begun and box.number == self._box)
        chosen = next(known, boxes[0])
        self._box = chosen.number
        row = self._row_in(chosen)
        if row is not None:
            self._row, self._empty_handed = row, False
        elif not self._empty_handed:
            # Its place is taken by the next one, when another desk took it away: not for Enter.
            self.resting = self.resting or self.selected == self._marked is not None
            self._row = max(0, min(self._row, len(chosen.rolls) - 1))
            self.selected = chosen.rolls[self._row].roll.id if chosen.rolls else None
        self._marked = self.selected
        return chosen

    def _row_in(self, box: PeriodBox) -> int | None:
        ids = [each.roll.id for each in box.rolls]
        return ids.index(self.selected) if self.selected in ids else None

    def _boxes(
        self, boxes: list[PeriodBox], chosen: PeriodBox, width: int
    ) -> tuple[list[Text], list[Spot]]:
        cell = max(_NARROWEST, min(_WIDEST, width // len(boxes)))
        per_row = max(1, width // cell)
        longest = max(len(f"{len(box.rolls)}  {why_words(box, cell - _GAP)}") for box in boxes)
        beside = longest < cell - _GAP
        lines: list[Text] = []
        spots: list[Spot] = []
        for first in range(0, len(boxes), per_row):
            some = boxes[first : first + per_row]
            top = len(lines)
            drawn = [self._box_of(box, cell - _GAP, chosen=box is chosen) for box in some]
            for nth, box in enumerate(some):
                drawn[nth] += self._below(box, cell - _GAP, beside=beside)
            for row in zip_longest(*drawn):
                line = Text("")
                for part in row:
                    line.append_text(part)
                    line.append(" " * _GAP)
                lines.append(line)
            for nth in range(len(some)):
                left = nth * cell
                spots.append(Spot(top, left, len(lines), left + cell - _GAP, -1 - (first + nth)))
        return lines, spots

    def _box_of(self, box: PeriodBox, width: int, *, chosen: bool) -> list[Text]:
        """Return a box as it stands on its shelf: open at the top, a dot for each roll in it."""
        palette = self.palette
        title = box.title if len(box.title) <= width else box.short
        head = Style(bold=True, reverse=chosen or None) + style(palette.text)
        wall = style(palette.text if chosen else palette.rule, bold=chosen)
        inside = width - 4
        dots = min(len(box.rolls), inside * 2)
        late = box.urgent
        rows: list[Text] = [Text.assemble((fit(title, width).rstrip(), head))]
        rows[0].append(" " * (width - rows[0].cell_len))
        for row in range(2):
            here = max(0, min(inside, dots - inside * (1 - row)))
            marked = max(0, min(here, late - inside * (1 - row)))
            line = Text.assemble(
                ("│ " if box.number is not OWNERS else "  ", wall),
                ("●" * marked, style(palette.left)),
                ("●" * (here - marked), style(palette.dry)),
                " " * (inside - here),
                (" │" if box.number is not OWNERS else "  ", wall),
            )
            rows.append(line)
        floor = "└" + "─" * (width - 2) + "┘" if box.number is not OWNERS else "─" * width
        rows.append(Text(floor, style=wall))
        return rows

    def _below(self, box: PeriodBox, width: int, *, beside: bool) -> list[Text]:
        """Return how many lie in a box and why one looks at it: on two rows unless `beside`."""
        palette = self.palette
        count = str(len(box.rolls)) if box.rolls else "empty"
        how = style(palette.text if box.rolls else palette.quiet)
        why, late = why_words(box, width), style(palette.left, bold=True)
        if beside:
            room = max(0, width - len(count) - 2)
            return [Text.assemble((f"{count}  ", how), fitted(why, room, late))]
        return [fitted(count, width, how), fitted(why, width, late)]

    def _heading(self, now: Now, chosen: PeriodBox, width: int) -> list[Text]:
        strong, quiet = style(self.palette.text, bold=True), style(self.palette.quiet)
        where = box_title(now.room, chosen)
        if not chosen.rolls:
            rows = wrapped(nothing_in(chosen), width)
            return [Text(where, style=strong), *(Text(row.plain, style=quiet) for row in rows)]
        whys = whys_of(chosen)
        count = f"   {counted(len(chosen.rolls), 'roll')} to cut and sleeve"
        last = f": {', '.join(whys)}" if whys else ", longest there first"
        how = style(self.palette.left, bold=True) if whys else quiet
        line = Text.assemble((where, strong), (count, quiet), (last, how))
        line.truncate(width, overflow="ellipsis")
        return [line]

    def _roll(self, now: Now, each: Standing, width: int) -> Text:
        palette, roll = self.palette, each.roll
        owner = now.owner(roll)
        chosen = roll.id == self.selected
        remarks = ", ".join(remark(now, each, why) for why, _ in each.why)
        name = max(14, min(30, width - 56))
        when = since(now, roll.since)
        line = Text.assemble(
            ("▸" if chosen else " ", style(palette.text, bold=True)),
            fitted(f"{roll.clip or '–'}".rjust(4), 6, style(palette.text, bold=True)),
            fitted(short_name(owner), name, style(palette.text, bold=chosen)),
            fitted(str(roll.film), 11, style(palette.quiet)),
            fitted(when, 12, style(palette.quiet)),
        )
        line.append_text(fitted(remarks, max(0, width - line.cell_len), self._urgent(each)))
        return select(line, palette) if chosen else line

    def _urgent(self, each: Standing) -> Style:
        why = each.why[0][0] if each.why else ""
        palette = self.palette
        color = {"in the wrong box": palette.flip, "unknown roll": palette.check}.get(
            why, palette.left
        )
        return style(color, bold=True)

    def move(self, key: str) -> None:
        """Left and Right go from box to box, the others from roll to roll."""
        boxes = self._read(self.session.look())
        chosen = self._chosen(boxes)
        if key in ("left", "right"):
            nth = boxes.index(chosen) + (1 if key == "right" else -1)
            self._open(boxes[max(0, min(nth, len(boxes) - 1))])
            return
        if chosen.rolls and key in MOVES:
            step = 0 if self._empty_handed else MOVES[key]
            self._row = max(0, min(len(chosen.rolls) - 1, self._row + step))
            self.selected = chosen.rolls[self._row].roll.id

    def keep(self, roll: int) -> None:
        """Keep a roll on the card that went elsewhere: an arrow selects what took its place."""
        super().keep(roll)
        self._empty_handed = True

    def goes_on(self) -> str:
        """Say how the next roll of the stack is come to."""
        chosen = self._chosen(self._read(self.session.look()))
        if not chosen.rolls or not may(self.session.by, "sleeve"):
            return ""
        where = "here" if chosen.number == OWNERS else "in this box"
        return f"↓ and Enter: the next roll {where}"

    def put_down(self) -> None:
        """Take the marker from the roll; an arrow sets it there again."""
        super().put_down()
        self.selected, self._empty_handed = None, True

    def _open(self, box: PeriodBox) -> None:
        if box.number != self._box:
            self._box, self._begun, self._row = box.number, True, 0
            self.selected = box.rolls[0].roll.id if box.rolls else None

    def take(self, text: str) -> Said | None:
        """Open the box that was typed, and say what lies in it."""
        boxes = self._read(now := self.session.look())
        number = box_typed(text, now.room)
        box = next((each for each in boxes if each.number == number), None)
        if box is None:
            return None
        self._box, self._begun, self._row, self._empty_handed = number, True, 0, False
        self.selected = box.rolls[0].roll.id if box.rolls else None
        self.resting = False
        words = what_lies_in(self.session, now, box)
        return Said(box_title(now.room, box), words, select=self.selected)

    def choose(self, what: int) -> None:
        """A click on a box opens it, a click on a roll selects it."""
        if what >= 0:
            self.select(what)
            return
        box = self._read(self.session.look())[-1 - what]
        self._box, self._begun, self._row = box.number, True, 0
        self.selected, self._empty_handed = None, True

    def acts_on(self, what: int) -> bool:
        """Only on a roll is a second click Enter."""
        return what >= 0

    def hint(self) -> str:
        """Say how to get about."""
        if self.resting and self._empty_handed:
            return "↓ the next roll   ← → another box   or a name, a clip, a scan"
        return "← → another box   ↑ ↓ another roll   or a name, a clip, a scan"
