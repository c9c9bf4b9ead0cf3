"""The archive of a term: who owes what before it can be closed, and where every sleeve stands."""

from __future__ import annotations

from rich.text import Text

from filmrack.desk.archive_drawing import (
    CHIPS,
    TERMS,
    counts_of,
    empty,
    head,
    heading,
    in_words,
    roll_row,
)
from filmrack.desk.archive_words import Words
from filmrack.desk.lines import Spot
from filmrack.desk.sentences import Said
from filmrack.desk.session import Now, Session
from filmrack.desk.shelf import Shelf
from filmrack.desk.steps import Question
from filmrack.desk.view import View
from filmrack.domain.roll import Roll
from filmrack.domain.schooldays import Term
from filmrack.store import archive, rolls
from filmrack.store.archive import Owed

_ELSEWHERE = frozenset({"tank", "rod", "box", "owner", "void"})
"""Where rolls are looked at on other screens."""


class ArchiveView(View):
    """A term's rolls by period and person; the line files, lends and hands back."""

    screen_id = "archive"
    stays = True

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.words = Words(session)
        self.owed: Owed = "all"
        self.term: str | None = None
        """The term that is shown; None for the one in force."""
        self.rank = 0
        self._top = 0
        self._above = 3
        """Rows above the list."""
        self._sought: int | None = None
        self._acted: int | None = None
        self._read: tuple[int, str] | None = None
        self._piles: list[archive.Pile] = []
        self._counts: dict[Owed, int] = {}
        self._shelf: Shelf | None = None

    def draw(self, now: Now) -> None:
        """Show the term, what it owes, and the rolls in sight."""
        if self._sought is not None:
            self._turn_to(self._sought)
        term = self._term(now)
        if term is None:
            self._shelf, self.selected = None, None
            words = ("No term has begun.", "Open one in Room, or with “term open”.")
            self.show(in_words(*words, self.palette))
            return
        shelf = self._reading(term.code)
        self._follow(shelf)
        self.rank = max(0, min(self.rank, shelf.rolls - 1))
        chosen = shelf.roll(self.rank) if shelf.rolls else None
        self.selected = chosen.id if chosen else None
        width = self.content_size.width
        at = f"{self.rank + 1} of {shelf.rolls}" if shelf.rolls else ""
        top = head(now.room, term, self._counts, self.owed, at, width=width, palette=self.palette)
        self._above = len(top.lines)
        lines, more = self._list(now, shelf, width)
        self.show([*top.lines, *lines], [*top.spots, *more])

    def move(self, key: str) -> None:
        """Move along the rolls, or with left and right to another question."""
        if key in ("left", "right"):
            names = [owed for owed, _ in CHIPS]
            step = 1 if key == "right" else -1
            self.ask(names[(names.index(self.owed) + step) % len(names)])
            return
        page = max(1, self._height() - 2)
        steps = {"up": -1, "down": 1, "page_up": -page, "page_down": page}
        if key in steps:
            self._go(self.rank + steps[key])
        elif key == "first":
            self._go(0)
        elif key == "last" and self._shelf is not None:
            self._go(self._shelf.rolls - 1)

    def select(self, roll: int) -> None:
        """Turn to a roll, in whatever term it is."""
        self.selected = self._sought = roll

    def choose(self, what: int) -> None:
        """Take a click: on a roll, on what is owed, or on a term."""
        if what >= 0:
            self._go(what)
        elif what > TERMS:
            self.ask(CHIPS[-what - 1][0])
        else:
            self.turn_to_term(self.session.file.room().terms[TERMS - what].code)

    def acts_on(self, what: int) -> bool:
        """Tell that only a roll is acted on by a second click."""
        return what >= 0

    def ask(self, owed: Owed) -> None:
        """Show only what owes this."""
        if owed != self.owed:
            self.owed, self.rank, self._top, self._shelf = owed, 0, 0, None

    def turn_to_term(self, code: str) -> None:
        """Show another term."""
        force = self.session.file.room().term_at(self.session.now)
        self.term = None if force is not None and force.code == code else code
        self.rank, self._top, self._shelf = 0, 0, None

    def enter_does(self) -> str | None:
        """Say into which binder Enter files."""
        roll, held = self._to_file(), self.words.binder
        if roll is None or held is None or not held.is_for(roll):
            return None
        without = "" if roll.sheets else ", without a contact sheet"
        return f"file in binder {held.number}{without}"

    def enter(self) -> Said | Question | None:
        """File the selected roll if that comes next; all else is left to its next step."""
        roll = self._to_file()
        return None if roll is None else self.words.file(roll)

    def _to_file(self) -> Roll | None:
        """Return the selected sleeve if filing comes next, as it does with a binder in hand."""
        roll, held = self._roll(), self.words.binder
        if roll is None or roll.place.kind != "sleeve":
            return None
        in_hand = held is not None and held.is_for(roll)
        return roll if roll.sheets or in_hand else None

    def acted_on(self, roll: int) -> None:
        """Stay at a roll that is still shown; else the next one takes its place."""
        self._acted = roll

    def back(self) -> bool:
        """Put the binder down, else show all again."""
        if self.words.binder is not None:
            self.words.binder = None
            return True
        if self.owed == "all" and self.term is None:
            return False
        self.ask("all")
        self.term, self._shelf = None, None
        return True

    def takes(self, text: str) -> bool:
        """Take what is owed, a term, a period, a binder, and words for the selected roll."""
        return self._place(text) is not None or self.words.understands(text)

    def take(self, text: str) -> Said | Question | None:
        """Go where the line says, or do what it says with the selected roll."""
        place = self._place(text)
        if place is None:
            return self.words.say(text, self._roll())
        kind, value = place
        if kind == "owed":
            self.ask(next(owed for owed, words in CHIPS if words == value))
        elif kind == "term":
            self.turn_to_term(value)
        elif self._shelf is not None:
            rank = self._shelf.first_of(int(value))
            if rank is None:
                return Said("Archive", "nothing is there to show")
            self._go(rank)
        return Said("")

    def hint(self) -> str:
        """Say what can be typed here."""
        held = self.words.binder
        if held is not None:
            return f"binder {held} in hand: scan sleeve after sleeve; esc puts it down"
        return "← → what is owed; a name, a binder, lend, hand back, discard, note"

    def _place(self, text: str) -> tuple[str, str] | None:
        """Return what a line names of this screen: what is owed, a term, or a period."""
        line = " ".join(text.casefold().split())
        chip = {"borrowed": "out", "no contact": "no contact sheet"}.get(line, line)
        if chip in {words for _, words in CHIPS}:
            return "owed", chip
        room = self.session.file.room()
        if line.upper() in {term.code for term in room.terms}:
            return "term", line.upper()
        named = line.startswith((f"{room.period_word.casefold()} ", "period "))
        period = room.period_named(line) if named else None
        return None if period is None else ("period", str(period.number))

    def _term(self, now: Now) -> Term | None:
        terms = now.room.terms
        shown = next((term for term in terms if term.code == self.term), None)
        return shown or now.room.term_at(now.at) or (terms[0] if terms else None)

    def _reading(self, code: str) -> Shelf:
        conn = self.session.file.conn
        if self._read != (self.session.stamp, code):
            if self._acted is None:
                self._acted = self.selected
            self._piles = archive.piles(conn, code)
            self._counts = counts_of(self._piles)
            self._shelf = None
            self._read = self.session.stamp, code
        if self._shelf is None:
            self._shelf = Shelf(conn, code, self.owed, self._piles)
        return self._shelf

    def _turn_to(self, number: int) -> None:
        self._sought = None
        roll = rolls.by_id(self.session.file.conn, number)
        if roll.place.kind in _ELSEWHERE:
            return  # the list stays where it was
        self.turn_to_term(roll.term)
        rank = self._reading(roll.term).rank_of(roll)
        if rank is None:
            self.ask("all")
            rank = self._reading(roll.term).rank_of(roll)
        self.rank = rank or 0

    def _follow(self, shelf: Shelf) -> None:
        if self._acted is not None:
            rank = shelf.rank_of(rolls.by_id(self.session.file.conn, self._acted))
            self.rank = self.rank if rank is None else rank
            self._acted = None

    def _go(self, rank: int) -> None:
        if self._shelf is not None and self._shelf.rolls:
            self.rank = max(0, min(rank, self._shelf.rolls - 1))
            chosen = self._shelf.roll(self.rank)
            self.selected = chosen.id if chosen else None

    def _roll(self) -> Roll | None:
        if self.selected is None or self._shelf is None:
            return None
        return rolls.by_id(self.session.file.conn, self.selected)

    def _height(self) -> int:
        return max(1, self.content_size.height - self._above)

    def _list(self, now: Now, shelf: Shelf, width: int) -> tuple[list[Text], list[Spot]]:
        if not shelf.rolls:
            return empty(shelf.term, self.owed, self.palette), []
        height = self._height()
        here = shelf.row_of(self.rank)
        above = min(2, height - 1)  # a heading stays in sight above its first roll
        self._top = min(max(self._top, here - height + 1), max(0, here - above))
        self._top = max(0, min(self._top, shelf.rows - height))
        lines: list[Text] = []
        spots: list[Spot] = []
        for row in shelf.between(self._top, self._top + height):
            if row is None:
                lines.append(Text(""))
            elif row.roll is None:
                count = shelf.period_count(row.pile.period)
                lines.append(heading(row, now.room, count, width=width, palette=self.palette))
            else:
                top = len(lines)
                spots.append(Spot(top + self._above, 0, top + self._above + 1, width, row.rank))
                lines.append(
                    roll_row(
                        row,
                        now,
                        named=row.begins or top == 0,
                        chosen=row.rank == self.rank,
                        width=width,
                        palette=self.palette,
                    )
                )
        return lines, spots
