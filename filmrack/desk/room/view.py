"""Room: what the room is and what its dryer has taught; every setting is changed here."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.lines import MOVES
from filmrack.desk.now import Now
from filmrack.desk.question import Question
from filmrack.desk.room.drawing import (
    LEFT,
    MARK,
    Drawn,
    beside,
    drawn,
    foot,
    more_below,
    section_spots,
    sections,
    spots,
    window,
)
from filmrack.desk.room.finding import (
    Found,
    Label,
    can_be_a_name,
    found,
    labels,
    labels_of,
    the_one,
)
from filmrack.desk.room.people import row_of
from filmrack.desk.room.row import Changing, Reply, RoomPlace, RoomRow, is_name, is_value
from filmrack.desk.room.sections import SECTIONS, RowsFor, rows_at, section_called
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.view import View
from filmrack.domain.refusal import Refused

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
        self.changing = Changing(session)
        self._section = 0
        self._inside = False
        self._entry: tuple[str, ...] = ()
        self._at = 0
        """The selected row; of a section's rows, those that do something."""
        self._came_from = 0
        self._top = 0
        self._rows: list[RoomRow] = []
        self._page: RowsFor | None = None
        self._labels: tuple[object, list[Label]] = (None, [])
        """The rows of every section, and what they were read for."""
        self._known: tuple[object, ...] = ()
        """What the rows were read for."""
        self._drawn = Drawn([], [])
        self._drawn_for: tuple[object, ...] = ()

    @property
    def place(self) -> RoomPlace:
        """Return where somebody looks."""
        return RoomPlace(SECTIONS[self._section].id, self._entry)

    @property
    def row(self) -> RoomRow | None:
        """Return the selected row, or None at the sections and where there is nothing to do."""
        return self._rows[self._at] if self._inside and self._choices else None

    @property
    def _choices(self) -> list[int]:
        return [nth for nth, row in enumerate(self._rows) if row.enter is not None]

    def draw(self, now: Now) -> None:
        """Show the sections, and the rows of the chosen one."""
        width, height = self.content_size.width or 76, max(1, self.content_size.height)
        room = max(20, width - LEFT)
        self._read(now, room - MARK)
        if self._choices and self._at not in self._choices:
            self._at = min(self._choices, key=lambda nth: abs(nth - self._at))
        at = self._at if self.row is not None else None
        if self._drawn_for != (self._known, at):
            self._drawn_for = (self._known, at)
            self._drawn = drawn(self._rows, at, room, self.palette)
        shown = self._drawn
        below = foot(self._rows, shown, at, room, self.palette)
        fits = max(1, height - len(below))
        if len(shown.lines) > fits:
            fits = max(1, fits - 1)
        self._top = window(shown, at, self._top, fits)
        end = self._top + fits
        part = slice(self._top, end)
        right = shown.lines[part]
        if len(shown.lines) > fits:
            right += [more_below(shown, end, room, self.palette)]
        if below:
            right += [Text("")] * (height - len(below) - len(right)) + below
        left, first = sections(
            now.room, self._section, height, self.palette, row_chosen=at is not None
        )
        lines = beside(left, right, height)
        mine = spots(shown.of[part], self._rows, room)
        self.show(lines, [*section_spots(first, len(left)), *mine])

    def move(self, key: str) -> None:
        """Choose a section, or a row in it; without rows to choose, scroll."""
        if key == "left":
            self.back()
        elif key == "right":
            self._go_in()
        elif not self._inside:
            self._go_to(max(0, min(len(SECTIONS) - 1, self._section + MOVES.get(key, 0))))
        elif self._choices:
            at = self._choices.index(self._at) if self._at in self._choices else 0
            self._at = self._choices[max(0, min(len(self._choices) - 1, at + MOVES.get(key, 0)))]
        else:
            self._top += MOVES.get(key, 0)

    def select(self, roll: int) -> None:
        """Leave rolls to other screens."""

    def choose(self, what: int) -> None:
        """Take a click on a section or a row."""
        if what < 0:
            self._go_to(-1 - what)
        elif what < len(self._rows):
            self._inside, self._at = True, what

    def enter_does(self) -> str | None:
        """Return what Enter does here."""
        if not self._inside:
            return "go in"
        return "" if self.row is None else self.row.does

    def enter(self) -> Said | Question | None:
        """Go in, or do what the selected row says."""
        self.session.refuse_students(_NOT_YOURS)
        if not self._inside:
            self._go_in()
            return Said("")
        if self.row is None or self.row.enter is None:
            return Said("")
        return self._follow(self.row.enter())

    def back(self) -> bool:
        """Leave an entry, or a section's rows."""
        if self._entry:
            self._entry, self._at = (), self._came_from
            self._top = 0
            return True
        was_inside, self._inside = self._inside, False
        return was_inside

    def escape_does(self) -> bool:
        """Tell whether somebody looks at rows, which it leaves."""
        return self._inside

    def takes(self, text: str) -> bool:
        """Take a section's title, what a row is called, a value, `remove`, a name among People."""
        if section_called(text, self.session.file.room()) is not None:
            return True
        row = self.row
        if row is not None and text.casefold() == "remove":
            return True
        return (
            self._is_value(text)
            or self._person(text) is not None
            or self._found(text) is not None
            or (self._is_named and can_be_a_name(self.session, text))
        )

    def take(self, text: str) -> Said | Question | None:
        """Go to a section, ask whether a value is meant for the selected row, or remove what it is
        of.
        """
        self.session.refuse_students(_NOT_YOURS)
        called = section_called(text, self.session.file.room())
        if called is not None:
            self._go_to(called)
            self._go_in()
            return Said("")
        row = self.row
        if row is not None and text.casefold() == "remove":
            if row.remove is None:
                raise Refused("nothing is removed by that: select a row of a list first")
            return row.remove()
        if row is not None and row.take is not None and self._is_value(text):
            return self._follow(row.take(text))
        person = self._person(text)
        if person is not None:
            self._inside, self._at = True, person
            return Said("")
        meant = self._found(text)
        if meant is not None:
            return self._take_at(the_one(text, meant, self.place), meant.rest)
        if row is not None and row.take is not None:
            return self._follow(row.take(text))
        return Said("")

    def hint(self) -> str:
        """Say what can be typed here."""
        if not self._inside:
            return "↑ ↓ a section, → or enter goes in; or a word: rules, backup, catch up"
        row = self.row
        if row is None:
            scrolls = len(self._drawn.lines) > max(1, self.content_size.height)
            return f"{'↑ ↓ scroll, ' if scrolls else ''}← goes back; backup, catch up, passphrase"
        if row.take is not None and row.field is not None and row.field.kind not in _ASKED_FIRST:
            return "its new value, or enter to be asked; ← goes back"
        more = "; remove takes it away" if row.remove is not None else ""
        return f"enter: {row.does}{more}; ← goes back"

    def _read(self, now: Now, width: int) -> None:
        """Read the rows anew when the file, the place or the width is another."""
        known = (self.session.stamp, now.room, self.place, width, self.palette, now.at.minute)
        if self._known == known:
            return
        page = self._page = RowsFor(self.changing, now, width, self.palette)
        try:
            self._rows = rows_at(self.place, page)
        except Refused:
            self.back()
            self._rows = rows_at(self.place, page)
        self._known = (*known[:2], self.place, *known[3:])

    def _follow(self, reply: Reply) -> Said | Question:
        if isinstance(reply, Question):
            return reply._replace(of_row=True)
        if not isinstance(reply, RoomPlace):
            return reply
        self._came_from, self._entry, self._at, self._top = self._at, reply.entry, 0, 0
        return Said("")

    def _go_in(self) -> None:
        if not self._inside:
            self._inside, self._at, self._top = True, 0, 0

    def _go_to(self, section: int) -> None:
        self._section, self._inside, self._entry = section, False, ()
        self._at = self._top = 0

    @property
    def _is_named(self) -> bool:
        row = self.row
        return row is not None and row.take is not None and is_name(row.field)

    def _is_value(self, text: str) -> bool:
        row = self.row
        if row is None or row.field is None or row.take is None:
            return False
        return is_value(self.changing, row.field, text)

    def _found(self, text: str) -> Found | None:
        """Return the rows that a line means, of what is shown or of any section."""
        if self._page is None:
            return None
        known = (self.session.stamp, self._page.now.room)
        if self._labels[0] != known:
            self._labels = (known, labels(self._page))
        here = labels_of(self._section, self._entry, self._rows) if self._entry else []
        return found(self.session, text, [*here, *self._labels[1]])

    def _take_at(self, label: Label, rest: str) -> Said | Question:
        """Select a row and ask for it, with what was typed behind its name as its value."""
        self._section, self._inside, self._entry = label.section, True, label.entry
        self._at, self._top = label.nth, 0
        row = label.row
        if rest and row.take is not None:
            return self._follow(row.take(rest))
        assert row.enter is not None
        reply = row.enter()
        if rest and isinstance(reply, Question):
            reply = reply._replace(given=rest)
        said = self._follow(reply)
        if not rest or not isinstance(reply, RoomPlace) or self._page is None:
            return said
        within = labels_of(self._section, self._entry, rows_at(self.place, self._page))
        meant = found(self.session, rest, within)
        if meant is not None and meant.labels:
            return self._take_at(the_one(rest, meant, self.place), meant.rest)
        name = next((one for one in within if is_name(one.row.field)), None)
        if name is None:
            raise Refused(f"select what of it “{rest[:30]}” is: then press Enter, and type it")
        return self._take_at(name, rest)

    def _person(self, text: str) -> int | None:
        on_people = SECTIONS[self._section].id == "people" and not self._entry
        return row_of(text, self._rows) if on_people else None
