"""What a line does with a whole term: opened, closed, reopened, shelved in; not its rolls."""

from __future__ import annotations

from filmrack.desk.archive.orders import Order
from filmrack.desk.archive.shelving_words import shelve
from filmrack.desk.archive.term_closing import TermClosing, reopen_term
from filmrack.desk.archive.term_opening import open_term
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session


def done_with_term(
    session: Session, closing: TermClosing, order: Order, shown: str
) -> Said | Question | None:
    """Do what is said of a term, the one shown where none is named; None for one of its pages.

    Raises Refused as each of these does.
    """
    match order.verb:
        case "close term":
            return closing.ask(order.rest or shown)
        case "reopen term":
            return reopen_term(session, order.rest or shown)
        case "open term":
            return open_term(session, order.rest)
        case "shelve":
            return shelve(session, order.rest, shown)
        case _:
            return None
