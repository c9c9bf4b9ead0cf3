"""What the archive shows: a term, which of its rolls, and which of these is selected."""

from __future__ import annotations

from filmrack.desk.archive.roll_list import RollList
from filmrack.desk.archive.term_shown import TermShown
from filmrack.desk.archive.which_rolls import WHICH_ROLLS
from filmrack.desk.session import Session
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.domain.schooldays import Term
from filmrack.store import rolls
from filmrack.store.archive import WhichRolls

_ELSEWHERE = frozenset({"tank", "rod", "box", "owner"})
"""Where rolls are looked at on other screens."""


class ArchiveShown:
    """Turns the list of rolls and the term together: a roll is selected in the list of its term."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self.term = TermShown(session)
        self.list = RollList(session)
        self._sought: int | None = None
        """A roll to turn to with the next reading."""
        self._on_its_way = False
        """Whether it is turned to also where another screen shows it."""
        self._any_term = True
        """Whether it is turned to also in another term than the one that is shown."""

    def seek(self, roll: int, *, on_its_way: bool = False, any_term: bool = True) -> None:
        """Turn to a roll with the next reading; not to one that another screen shows, unless rolls
        `on_its_way` to the archive are meant as well, and to one of another term only for
        `any_term`.
        """
        self._sought, self._on_its_way, self._any_term = roll, on_its_way, any_term

    def show_only(self, which: WhichRolls) -> None:
        """Show only what owes this."""
        self._sought = None
        self.list.show_only(which)

    def show_next(self, step: int) -> None:
        """Show what is counted before or behind what is shown now; the ends meet."""
        names = [which for which, _ in WHICH_ROLLS]
        self.show_only(names[(names.index(self.list.which_rolls) + step) % len(names)])

    def turn_to_term(self, code: str, *, chosen: bool = False) -> None:
        """Show another term; one that was chosen is shown whole."""
        self.term.turn_to(code, chosen=chosen)
        if chosen:
            self.list.show_only("all")
        self.list.begin()

    def put_down(self) -> None:
        """Leave no roll selected, and the term that one was only found in."""
        self._sought = None
        self.leave_found_term()
        self.list.is_selected = False

    def leave_found_term(self) -> None:
        """Show the term in force, unless another one was asked for and not just a roll of it."""
        if self.term.turned and not self.term.chosen:
            self.turn_back()

    def begin(self) -> None:
        """Show the term in force, all of it; what was selected of that is selected still."""
        if self.term.turned:
            self.turn_back()
        selected = self.roll(self.list.selected)
        if self.list.which_rolls != "all":
            self.list.show_all(selected)

    def turn_back(self) -> None:
        """Show the term in force again."""
        self.term.turn_back()
        self.list.begin()

    def read(self, room: Room) -> Term | None:
        """Turn to what is sought, and read the term then shown; None before there is one."""
        if self._sought is not None:
            roll, self._sought = rolls.by_id(self._session.file.conn, self._sought), None
            kind, term = roll.place.kind, self.term.of(room)
            here = self._any_term or (term is not None and term.code == roll.term)
            if here and kind != "void" and (self._on_its_way or kind not in _ELSEWHERE):
                self.turn_to_term(roll.term)
                self.list.turn_to(roll)
        term = self.term.of(room)
        if term is None:
            self.list.put_down()
            return None
        self.list.read(term.code)
        self.term.look(term)
        return term

    def acted_on(self, roll: int, room: Room) -> None:
        """Stay at a roll that an act was done to, or at the one that takes its place."""
        self.list.acted_on(roll)
        term = self.term.of(room)
        if term is not None:
            self.list.read(term.code)

    def roll(self, number: int | None) -> Roll | None:
        """Return the roll of a number, where a list is shown that it may be selected in."""
        if number is None or self.list.shelf is None:
            return None
        return rolls.by_id(self._session.file.conn, number)
