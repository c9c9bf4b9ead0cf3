"""The archive of a term: who owes what before it can be closed, and where every sleeve stands."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from rich.text import Text

from filmrack.desk.archive.lines_typed import LinesTyped
from filmrack.desk.archive.overview import TERMS, head
from filmrack.desk.archive.replies import selected_instead
from filmrack.desk.archive.roll_list import Frame
from filmrack.desk.archive.roll_orders import RollOrders
from filmrack.desk.archive.rows import in_words
from filmrack.desk.archive.shown import ArchiveShown
from filmrack.desk.archive.term_closing import TermClosing
from filmrack.desk.archive.term_pages import TermPages
from filmrack.desk.archive.term_status import foreseen, status
from filmrack.desk.archive.which_rolls import WHICH_ROLLS
from filmrack.desk.hit_order import Listed
from filmrack.desk.now import Now
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.view import View
from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.schooldays import Term
from filmrack.store.archive import WhichRolls

_ROOMY = 20  # rows from which an empty one stands above the list


class ArchiveView(View):
    """A term's rolls by period and person; the line files, lends and hands back."""

    screen_id = "archive"
    stays = True

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.orders = RollOrders(session)
        self.shown = ArchiveShown(session)
        self.list = self.shown.list
        self.pages = TermPages(session, self._beside)
        self._foreseen = ""
        self._term_closing = TermClosing(session, partial(self.run_worker, thread=True), self._told)
        self._typed = LinesTyped(session, self.shown, self.orders, self._term_closing, self._lay)
        self._above = 3
        """Rows above the list."""

    def listed(self) -> Listed:
        """Return the rolls that are shown, and the term that somebody turned to."""
        return Listed(self.list.lists, self.shown.term.asked_for)

    @property
    def which_rolls(self) -> WhichRolls:
        """Return what the rolls that are shown owe."""
        return self.list.which_rolls

    def draw(self, now: Now) -> None:
        """Show the term, what it owes, and the rolls in sight; or one of its pages."""
        term = self.shown.read(now.room)
        self.selected = self.list.selected
        if term is None:
            words = ("No term has begun.", "Open one in Room, or with “term open”.")
            self.show(in_words(*words, self.palette))
            return
        width, height = self.content_size.width, self.content_size.height
        if self.pages.name:
            self.show(self.pages.lines(now, term, (width, height), self.palette))
            return
        shelf = self.list.shelf
        selects = shelf is not None and self.selected is not None
        at = f"roll {self.list.rank + 1} of {shelf.rolls}" if shelf and selects else ""
        top = head(
            now.room,
            term,
            self.list.counts,
            self.which_rolls,
            at,
            width=width,
            palette=self.palette,
        )
        lines = [*top.lines, *self._status(now, term, width)]
        lines += [Text("")] if height >= _ROOMY and lines[-1].plain else []
        self._above = len(lines)
        frame = Frame(self._above, height - self._above, width, self.palette)
        rows, more = self.list.draw(now, frame)
        self.show([*lines, *rows], [*top.spots, *more])

    def move(self, key: str) -> None:
        """Move along the rolls, or with left and right to others of the term."""
        page = max(1, self.content_size.height - self._above - 2)
        if self.pages.name:
            self.pages.turn(key, page)
            return
        if key in ("left", "right"):
            self.shown.show_next(1 if key == "right" else -1)
            return
        self.list.move(key, page)
        self.chosen = self.selected = self.list.selected

    def select(self, roll: int) -> None:
        """Turn to a roll, in whatever term it is; a page that lies over the rolls is put away."""
        self._lay("")
        self.chosen, self.selected = None, roll
        self.shown.seek(roll)

    def carry(self, roll: int) -> None:
        """Turn to a roll that was selected on the screen which was left, if it is of this term."""
        self._lay("")
        self.chosen, self.selected = None, roll
        self.shown.seek(roll, any_term=False)

    def turned_to(self) -> None:
        """Begin with the term in force and all of its rolls."""
        self.shown.begin()

    def turn_to(self, roll: int) -> None:
        """Turn to a roll that is still on its way too: card, Enter and list are about one roll."""
        self.select(roll)
        self.shown.seek(roll, on_its_way=True)

    def choose(self, what: int) -> None:
        """Take a click: on a roll, on which rolls are counted, or on a term."""
        if what >= 0:
            self.list.go(what)
            self.chosen = self.selected = self.list.selected
        elif what > TERMS:
            self.show_only(WHICH_ROLLS[-what - 1][0])
        else:
            code = self.session.file.room().terms[TERMS - what].code
            self.shown.turn_to_term(code, chosen=True)

    def enters_on_second_click(self, what: int) -> bool:
        """Tell that only a roll is acted on by a second click."""
        return what >= 0

    def show_only(self, which: WhichRolls) -> None:
        """Show only what owes this."""
        self._lay("")
        self.shown.show_only(which)

    def enter_does(self) -> str | None:
        """Say what Enter does where it is not just the roll's next step."""
        if self.pages.name or self.shown.term.closed is not None:
            return ""
        return None if self.resting else self.orders.enter_does(self._roll(), self.which_rolls)

    def enter(self) -> Said | Question | None:
        """Do what is in hand; all else is left to the next step."""
        if self.pages.name:
            return Said("")
        roll = self._roll()
        if roll is None:
            return None
        if self.shown.term.closed is not None:
            raise Refused(
                f"{roll.number} stays as it is because term {roll.term} is closed: reopen it first"
                f" with “reopen term {roll.term}”"
            )
        return None if self.resting else self.orders.enter(roll, self.which_rolls)

    def paper_in_hand(self) -> str:
        """Return the paper that was chosen here."""
        return self.orders.paper

    def foresee(self, text: str) -> None:
        """Show what the line that is being typed would do."""
        self._foreseen = self._typed.foretold(text, self._roll())

    def acted_on(self, roll: int) -> str:
        """Stay at a roll that is still shown; or return which is selected instead."""
        was = self.selected
        self.shown.acted_on(roll, self.session.file.room())
        self.selected = self.list.selected
        if self.chosen is not None:  # an arrow began this: Enter goes down the list
            self.chosen = self.selected
        return selected_instead(self.session, roll, was, self.selected)

    def back(self) -> bool:
        """Put away what lies topmost, down to an empty term; its roll stays selected."""
        if self.pages.name:
            self._lay("")
        elif self.orders.in_hand():
            self.orders.put_down()
        elif self.which_rolls != "all":
            self.resting |= not self.list.show_all(self._roll())
        elif self.shown.term.turned and self.selected is None:
            self.resting = True
            self.shown.turn_back()
        else:
            return False
        return True

    def put_down(self) -> None:
        """Let go of the roll; an arrow selects it again."""
        super().put_down()
        self.shown.put_down()
        self.selected = None

    def escape_does(self) -> str:
        """Say that what lies over the rolls, or is in hand, or narrows them is taken away, or the
        selection; and that the term in force is gone back to.
        """
        if self.pages.name:
            return "back"
        if self.orders.in_hand() or self.which_rolls != "all" or self.selected is not None:
            return "clear"
        return "back" if self.shown.term.turned else ""

    def reads(self, text: str) -> str:
        """Return `close term` for the beginning of it, which closes the dryer elsewhere."""
        return "close term" if folded(text) == "close" else text

    def takes(self, text: str) -> bool:
        """Take which rolls, a term, a period, a binder, a paper, and words for rolls and terms."""
        return self._typed.understands(text)

    def take(self, text: str) -> Said | Question | None:
        """Go where the line says, and let Enter rest; or do what it says: Enter is about what is
        selected then.
        """
        self._foreseen, self.chosen = "", None
        place = self._typed.place_named(text)
        # Who asked to see a list has not read its first row yet.
        self.resting = place is not None
        if place is None:
            return self._typed.say(text, self._roll())
        said = self._typed.turn_to(place)
        if self.list.shelf is not None:
            self.selected = self.list.selected
        return said

    def mark(self) -> str:
        """Show the binder or the paper in hand as long as it is."""
        return self.orders.mark

    def hint(self) -> str:
        """Say what can be typed here."""
        if self.pages.name:
            return "↑ ↓ turn the page; Esc puts it away"
        back = self.shown.term.way_back
        pages = "term report" if back else "figures, term report, close term"
        return self.orders.in_hand() or f"{back}← → which rolls; a name, lend, shelve, {pages}"

    def _beside(self, work: Callable[[], None]) -> None:
        """Do some reading in a thread, then be drawn anew."""

        def done() -> None:
            work()
            self.post_message(self.Laid())

        self.run_worker(done, thread=True)

    def _told(self, said: Said, refused: bool) -> None:
        self.post_message(self.Told(said, refused=refused))

    def _lay(self, page: str) -> None:
        """Lay a page over the rolls and the card, or take it away."""
        self.pages.lay(page)
        self.shows_card = not page

    def _status(self, now: Now, term: Term, width: int) -> list[Text]:
        goes_on = self._foreseen or self._term_closing.goes_on(now.at)
        if goes_on:
            return foreseen(goes_on, width=width, palette=self.palette)
        places = self.list.places
        return status(
            now, term, self.shown.term, places, self.which_rolls, width=width, palette=self.palette
        )

    def _roll(self) -> Roll | None:
        return self.shown.roll(self.selected)
