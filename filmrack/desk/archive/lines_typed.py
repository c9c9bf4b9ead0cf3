"""What a line that is typed on the screen Archive does: it turns to something, or is an order for
the selected roll, for another one, or for a term.
"""

from __future__ import annotations

from collections.abc import Callable

from filmrack.desk.archive.foresight import foretold
from filmrack.desk.archive.orders import Order, order_if_readable
from filmrack.desk.archive.roll_orders import RollOrders
from filmrack.desk.archive.shown import ArchiveShown
from filmrack.desk.archive.term_closing import TermClosing
from filmrack.desk.archive.term_orders import done_with_term
from filmrack.desk.archive.which_rolls import Named, named
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.roll import Roll


class LinesTyped:
    """Reads lines and does what they say; `lay` puts a page over the rolls, or takes it away."""

    def __init__(
        self,
        session: Session,
        shown: ArchiveShown,
        orders: RollOrders,
        closing: TermClosing,
        lay: Callable[[str], None],
    ) -> None:
        self._session = session
        self._shown = shown
        self._orders = orders
        self._closing = closing
        self._lay = lay

    def understands(self, text: str) -> bool:
        """Tell whether a line says which rolls, is a term, a period, a binder, a paper, or an order
        for a roll or a term.
        """
        if self.place_named(text) is not None or self._orders.understands(text):
            return True
        return order_if_readable(text) is not None

    def place_named(self, text: str) -> Named | None:
        """Return what a line alone turns to: which rolls, a term, a period."""
        return named(text, self._session.file.room())

    def foretold(self, text: str, selected: Roll | None) -> str:
        """Return what a line would do; empty for nothing that is to be said of it."""
        term = self._shown.term.of(self._session.file.room())
        return foretold(self._orders, text, selected, term.code) if term else ""

    def turn_to(self, place: Named) -> Said:
        """Show what was named, in the term that was asked for; no page lies over it any more."""
        self._lay("")
        self._shown.leave_found_term()
        self._shown.read(self._session.file.room())
        shelf = self._shown.list.shelf
        if place.which is not None:
            self._shown.show_only(place.which)
        elif place.term is not None:
            self._shown.turn_to_term(place.term, chosen=True)
        elif place.period is not None and shelf is not None:
            rank = shelf.first_of(place.period)
            if rank is None:
                return Said("Archive", "nothing is there to show")
            self._shown.list.go(rank)
        return Said("")

    def say(self, text: str, selected: Roll | None) -> Said | Question:
        """Do what an order says, with the selected roll where it names none.

        Raises Refused when it cannot be meant.
        """
        order = order_if_readable(text)
        if order is None or self._orders.understands(text):
            return self._orders.say(text, selected)
        self._shown.leave_found_term()
        return self._with_term(order)

    def _with_term(self, order: Order) -> Said | Question:
        """Do what is done with a term, the one shown where none is named; or lay a page of it."""
        room = self._session.file.room()
        term = self._shown.term.of(room)
        done = done_with_term(self._session, self._closing, order, term.code if term else "")
        if done is not None:
            return done
        if order.rest:
            self._shown.turn_to_term(room.term_of(order.rest).code)
        self._lay(order.verb)
        return Said("")
