"""Where somebody looks on the screen Room: a section or an entry in it, and a row of that."""

from __future__ import annotations

from filmrack.desk.lines import MOVES
from filmrack.desk.question import Question
from filmrack.desk.room.row import Reply, RoomPlace, RoomRow
from filmrack.desk.room.sections import SECTIONS, RowsFor, rows_at
from filmrack.desk.said import Said
from filmrack.domain.refusal import Refused


class Looking:
    """Keeps the place that is looked at, the rows that stand there, and which one is selected."""

    def __init__(self) -> None:
        self.section = 0
        self.inside = False
        """Whether the rows are looked at, and not the list of sections."""
        self.entry: tuple[str, ...] = ()
        """The entry of a list that is open, see `RoomPlace`; empty at the section's own rows."""
        self.at = 0
        """The selected row; of a section's rows, those that do something."""
        self.top = 0
        """The first line that is shown."""
        self.rows: list[RoomRow] = []
        self.page: RowsFor | None = None
        """What the rows were made for; None before they are first shown."""
        self._opened_from = 0
        """The row from which the entry was opened."""
        self._made_for: tuple[object, ...] = ()

    @property
    def place(self) -> RoomPlace:
        """Return the section or the entry that is looked at."""
        return RoomPlace(SECTIONS[self.section].id, self.entry)

    @property
    def row(self) -> RoomRow | None:
        """Return the selected row, or None at the sections and where there is nothing to do."""
        return self.rows[self.at] if self.inside and self.choices else None

    @property
    def choices(self) -> list[int]:
        """Return the rows that can be selected: those that do something."""
        return [nth for nth, row in enumerate(self.rows) if row.enter is not None]

    def read(self, page: RowsFor) -> bool:
        """Make the rows anew where something they tell is another; tell whether they are.

        They tell no seconds: what hangs on time is as of the minute.
        """
        stamp = page.changing.session.stamp
        made_for = (stamp, page.now.room, page.width, page.palette, page.now.at.minute)
        is_new = self._made_for != (*made_for, self.place)
        if is_new:
            self.page = page
            try:
                self.rows = rows_at(self.place, page)
            except Refused:  # the entry is there no more
                self.back()
                self.rows = rows_at(self.place, page)
            self._made_for = (*made_for, self.place)
        if self.choices and self.at not in self.choices:
            self.at = min(self.choices, key=lambda nth: abs(nth - self.at))
        return is_new

    def move(self, key: str) -> None:
        """Choose a section, or a row in it; without rows to choose, scroll."""
        step = MOVES.get(key, 0)
        if key == "left":
            self.back()
        elif key == "right":
            self.go_in()
        elif not self.inside:
            self.go_to(max(0, min(len(SECTIONS) - 1, self.section + step)))
        elif self.choices:
            nth = self.choices.index(self.at) if self.at in self.choices else 0
            self.at = self.choices[max(0, min(len(self.choices) - 1, nth + step))]
        else:
            self.top += step

    def go_in(self) -> None:
        """Look at the rows of the section."""
        if not self.inside:
            self.inside, self.at, self.top = True, 0, 0

    def go_to(self, section: int) -> None:
        """Look at a section in their list."""
        self.section, self.inside, self.entry = section, False, ()
        self.at = self.top = 0

    def go_to_row(self, section: int, entry: tuple[str, ...], nth: int) -> None:
        """Select a row wherever it stands."""
        self.section, self.inside, self.entry = section, True, entry
        self.at, self.top = nth, 0

    def select(self, nth: int) -> None:
        """Select a row of those that stand here."""
        self.inside, self.at = True, nth

    def back(self) -> bool:
        """Leave an entry, or a section's rows; False at the list of sections."""
        if self.entry:
            self.entry, self.at, self.top = (), self._opened_from, 0
            return True
        was_inside, self.inside = self.inside, False
        return was_inside

    def follow(self, reply: Reply) -> Said | Question:
        """Open the entry that a row leads to; what it answers or asks stays so."""
        if isinstance(reply, Question):
            return reply._replace(of_row=True)
        if isinstance(reply, Said):
            return reply
        self._opened_from, self.entry, self.at, self.top = self.at, reply.entry, 0, 0
        return Said("")
