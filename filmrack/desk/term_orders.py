"""What a line does with a whole term: opened, closed, reopened, shelved in; not its rolls."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from filmrack.desk.archive_orders import Order
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.shelving_words import shelve
from filmrack.desk.term_closing import TermClosing
from filmrack.desk.term_opening import open_term
from filmrack.desk.term_words import reopen_term


class TermOrders:
    """Does what one desk says of terms; of a term that is being closed it knows for how long."""

    def __init__(
        self,
        session: Session,
        beside: Callable[[Callable[[], None]], object],
        tell: Callable[[Said, bool], object],
    ) -> None:
        """`beside` and `tell` as `TermClosing` takes them."""
        self._session = session
        self._closing = TermClosing(session, beside, tell)

    def do(self, order: Order, shown: str) -> Said | Question | None:
        """Do what is said of a term, the one shown where none is named; None for one of its pages.

        Raises Refused as each of these does.
        """
        match order.verb:
            case "close term":
                return self._closing.ask(order.rest or shown)
            case "reopen term":
                return reopen_term(self._session, order.rest or shown)
            case "open term":
                return open_term(self._session, order.rest)
            case "shelve":
                return shelve(self._session, order.rest, shown)
            case _:
                return None

    def goes_on(self, now: datetime) -> str:
        """Return that a term is being closed; empty for none."""
        return self._closing.goes_on(now)
