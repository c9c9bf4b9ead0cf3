"""The screen Boxes: which box is open, which of its rolls is selected, and what comes of keys."""

from __future__ import annotations

from datetime import datetime

from rich.text import Text

from filmrack.desk.boxes.drawing import heading, roll_row, shelf
from filmrack.desk.boxes.period_boxes import OWNERS, PeriodBox, period_boxes
from filmrack.desk.boxes.words import box_title, what_lies_in
from filmrack.desk.lines import MOVES, Spot
from filmrack.desk.now import Now
from filmrack.desk.places_typed import box_typed
from filmrack.desk.rows_in_sight import in_sight, more_below
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.view import View
from filmrack.domain.roll import PLACES
from filmrack.domain.student_desk import may
from filmrack.store.standings import Seen
from filmrack.store.waiting import to_be_sleeved

_LEAST_ROLLS = 4
"""Rows of rolls at least below the heading of the open box, if it has as many."""


class BoxesView(View):
    """The boxes side by side, and the rolls of the open one below."""

    screen_id = "boxes"
    rests_after = PLACES
    shows = frozenset({"box", "owner"})
    stays = True

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._number: int | None = OWNERS
        """The number of the open box."""
        self._was_opened = False
        """Whether a box was opened yet: at first it is the fullest with something urgent."""
        self._row = 0
        """The row of the selected roll in it; kept when that roll goes, for what takes its place.
        """
        self._first = 0
        """The first roll of it in sight."""
        self._empty_handed = False
        """Whether no roll is selected though some lie there: a click opened the box, or the one
        that was selected was let go or went elsewhere.
        """
        self._last_selected: int | None = None
        """The roll that was selected when the screen was drawn last."""
        self._reading: tuple[tuple[int, datetime], Seen] | None = None
        """What was read of the file last, and the state and the minute it was read for."""

    def draw(self, now: Now) -> None:
        """Show the boxes, then what lies in the open one."""
        boxes = self._read(now)
        opened = self._open_box(boxes)
        width = max(20, self.content_size.width)
        lines, spots = shelf(boxes, opened, width, self.palette)
        lines += [Text(""), *heading(now.room, opened, width, self.palette)]
        many = len(opened.rolls)
        height = self.content_size.height or len(lines) + many  # not laid out yet, all is shown
        # Where not all of it fits the boxes give way: the heading says whose rolls those are.
        hidden = max(0, len(lines) + min(many, _LEAST_ROLLS) - height)
        lines = lines[hidden:]
        spots = [s._replace(top=s.top - hidden, bottom=s.bottom - hidden) for s in spots]
        row = self._row_in(opened)
        at = self._first if row is None else row
        sight = in_sight(self._first, at, many, height - len(lines))
        self._first = sight.first
        for each in opened.rolls[sight.first : sight.end]:
            is_selected = each.roll.id == self.selected
            spots.append(Spot(len(lines), 0, len(lines) + 1, width, each.roll.id))
            lines.append(roll_row(now, each, width, self.palette, is_selected=is_selected))
        if sight.below:
            lines.append(more_below(sight.below, width, self.palette))
        self.show(lines, spots)

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

    def _open_box(self, boxes: list[PeriodBox]) -> PeriodBox:
        """Return the box that is open, with a roll in it selected if there is one: the box of the
        selected roll, else the one that was open, at first the fullest with something urgent.
        """
        holding = next((box for box in boxes if self._row_in(box) is not None), None)
        if holding is not None:
            self._number, self._was_opened = holding.number, True
        elif not self._was_opened and any(box.rolls for box in boxes):
            fullest = max(boxes, key=lambda box: (box.urgent, len(box.rolls)))
            self._number, self._was_opened = fullest.number, True
        known = (box for box in boxes if self._was_opened and box.number == self._number)
        opened = next(known, boxes[0])
        self._number = opened.number
        row = self._row_in(opened)
        if row is not None:
            self._row, self._empty_handed = row, False
        elif not self._empty_handed:
            # When another desk took it away, the next one takes its place: that is not for Enter.
            went_away = self._last_selected is not None and self.selected == self._last_selected
            self.resting = self.resting or went_away
            self._row = max(0, min(self._row, len(opened.rolls) - 1))
            self.selected = opened.rolls[self._row].roll.id if opened.rolls else None
        self._last_selected = self.selected
        return opened

    def _row_in(self, box: PeriodBox) -> int | None:
        ids = [each.roll.id for each in box.rolls]
        return ids.index(self.selected) if self.selected in ids else None

    def move(self, key: str) -> None:
        """Left and Right go from box to box, the others from roll to roll."""
        boxes = self._read(self.session.look())
        opened = self._open_box(boxes)
        if key in ("left", "right"):
            nth = boxes.index(opened) + (1 if key == "right" else -1)
            beside = boxes[max(0, min(nth, len(boxes) - 1))]
            if beside.number != self._number:
                self._open(beside)
        elif opened.rolls and key in MOVES:
            step = 0 if self._empty_handed else MOVES[key]
            self._row = max(0, min(len(opened.rolls) - 1, self._row + step))
            self.selected = opened.rolls[self._row].roll.id

    def keep(self, roll: int) -> None:
        """Keep a roll on the card that went elsewhere: an arrow selects what took its place."""
        super().keep(roll)
        self._empty_handed = True

    def way_to_next(self) -> str:
        """Say how the next roll of the stack is come to."""
        opened = self._open_box(self._read(self.session.look()))
        if not opened.rolls or not may(self.session.by, "sleeve"):
            return ""
        where = "here" if opened.number == OWNERS else "in this box"
        return f"↓ and Enter: the next roll {where}"

    def put_down(self) -> None:
        """Let go of the roll; an arrow selects it again."""
        super().put_down()
        self.selected, self._empty_handed = None, True

    def _open(self, box: PeriodBox, *, empty_handed: bool = False) -> None:
        """Open a box, with the first roll in it selected unless `empty_handed`."""
        self._number, self._was_opened, self._row, self._first = box.number, True, 0, 0
        self._empty_handed = empty_handed
        self.selected = box.rolls[0].roll.id if box.rolls and not empty_handed else None

    def take(self, text: str) -> Said | None:
        """Open the box that was typed, and say what lies in it."""
        boxes = self._read(now := self.session.look())
        number = box_typed(text, now.room)
        box = next((each for each in boxes if each.number == number), None)
        if box is None:
            return None
        self._open(box)
        self.resting = False
        words = what_lies_in(self.session, now, box)
        return Said(box_title(now.room, box), words, select=self.selected)

    def choose(self, what: int) -> None:
        """Take a click: on a roll it selects that, on a box it opens it and selects none."""
        if what >= 0:
            self.select(what)
        else:
            self._open(self._read(self.session.look())[-1 - what], empty_handed=True)

    def enters_on_second_click(self, what: int) -> bool:
        """Only on a roll is a second click Enter."""
        return what >= 0

    def hint(self) -> str:
        """Say how to get about."""
        if self.resting and self._empty_handed:
            return "↓ the next roll   ← → another box   or a name, a clip, a scan"
        return "← → another box   ↑ ↓ another roll   or a name, a clip, a scan"
