"""The screen Room: what the room is, what its dryer has taught, and how each setting is changed."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.now import Now
from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.drawing import (
    LEFT,
    MARK,
    Drawn,
    beside,
    drawn,
    foot,
    rows_below,
    section_spots,
    sections,
    spots,
    window,
)
from filmrack.desk.room.lines_typed import RoomLines
from filmrack.desk.room.looking import Looking
from filmrack.desk.room.row import RoomPlace, RoomRow
from filmrack.desk.room.sections import RowsFor
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.view import View

_NOT_YOURS = "the room is the teacher's to change: ask the teacher"

_ASKED_FIRST = ("text", "texts", "term")
"""Kinds of values that could be anybody's name: they are asked for before they are typed."""


class RoomView(View):
    """Sections at the left; one of them, or an entry of one, beside them.

    Right or Enter goes in, Left or Escape out again. Enter asks for a row; a value typed at once
    is confirmed, for a number alone could have been meant for a clip.
    """

    screen_id = "room"
    shows_card = False

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._changing = Changing(session)
        self.looking = Looking()
        self._typed = RoomLines(self._changing, self.looking)
        self._drawn = Drawn([], [])
        self._drawn_at: int | None = None
        """The row that was selected when these were drawn."""

    @property
    def place(self) -> RoomPlace:
        """Return where somebody looks."""
        return self.looking.place

    @property
    def row(self) -> RoomRow | None:
        """Return the selected row, or None at the sections and where there is nothing to do."""
        return self.looking.row

    def draw(self, now: Now) -> None:
        """Show the sections, and the rows of the chosen one."""
        width, height = self.content_size.width or 76, max(1, self.content_size.height)
        looking, room = self.looking, max(20, width - LEFT)
        is_new = looking.read(RowsFor(self._changing, now, room - MARK, self.palette))
        at = looking.at if looking.row is not None else None
        if is_new or self._drawn_at != at:
            self._drawn = drawn(looking.rows, at, room, self.palette)
            self._drawn_at = at
        shown = self._drawn
        below = foot(looking.rows, shown, at, room, self.palette)
        fits = max(1, height - len(below))
        if len(shown.lines) > fits:
            fits = max(1, fits - 1)
        looking.top = window(shown, at, looking.top, fits)
        end = looking.top + fits
        part = slice(looking.top, end)
        right = shown.lines[part]
        if len(shown.lines) > fits:
            right += [rows_below(shown, end, room, self.palette)]
        if below:
            right += [Text("")] * (height - len(below) - len(right)) + below
        left, first = sections(
            now.room, looking.section, height, self.palette, row_chosen=at is not None
        )
        lines = beside(left, right, height)
        mine = spots(shown.of[part], looking.rows, room)
        self.show(lines, [*section_spots(first, len(left)), *mine])

    def move(self, key: str) -> None:
        """Choose a section, or a row in it; without rows to choose, scroll."""
        self.looking.move(key)

    def select(self, roll: int) -> None:
        """Leave rolls to other screens."""

    def choose(self, what: int) -> None:
        """Take a click on a section or a row."""
        if what < 0:
            self.looking.go_to(-1 - what)
        elif what < len(self.looking.rows):
            self.looking.select(what)

    def enter_does(self) -> str | None:
        """Return what Enter does here."""
        if not self.looking.inside:
            return "go in"
        return "" if self.row is None else self.row.does

    def enter(self) -> Said | Question | None:
        """Go in, or do what the selected row says."""
        self.session.refuse_students(_NOT_YOURS)
        if not self.looking.inside:
            self.looking.go_in()
        elif self.row is not None and self.row.enter is not None:
            return self.looking.follow(self.row.enter())
        return Said("")

    def back(self) -> bool:
        """Leave an entry, or a section's rows."""
        return self.looking.back()

    def escape_does(self) -> str:
        """Say that rows are left, where somebody looks at some."""
        return "back" if self.looking.inside else ""

    def takes(self, text: str) -> bool:
        """Take a section's title, what a row is called, a value, `remove`, a name among People."""
        return self._typed.takes(text)

    def take(self, text: str) -> Said | Question | None:
        """Do what a line says here. Raises Refused for what cannot be meant."""
        self.session.refuse_students(_NOT_YOURS)
        return self._typed.take(text)

    def hint(self) -> str:
        """Say what can be typed here."""
        if not self.looking.inside:
            return "↑ ↓ a section, → or Enter goes in; or a word: rules, backup, catch up"
        row = self.row
        if row is None:
            scrolls = len(self._drawn.lines) > max(1, self.content_size.height)
            return f"{'↑ ↓ scroll, ' if scrolls else ''}← goes back; backup, catch up, passphrase"
        if row.field is not None and row.field.kind not in _ASKED_FIRST:
            return "its new value, or Enter to be asked; ← goes back"
        more = "; remove takes it away" if row.remove is not None else ""
        return f"Enter: {row.does}{more}; ← goes back"
