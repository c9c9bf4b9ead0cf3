"""Why a roll may not be meant to be filed where a line says: asked before it is filed there."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.acts.inscriptions import period_title
from filmrack.desk.session import Session
from filmrack.domain.roll import Place, Roll
from filmrack.store.binders import binder_period, binders_of

SHEET_FIRST = "if one was made, press Esc and type “contact” first"


class Doubts(NamedTuple):
    """What speaks against a binder that was typed; all empty for nothing."""

    new: bool = False
    """Whether there is no binder of that number yet, but others."""
    whose: str = ""
    """The period whose binder it is, where that is another one's than the roll's."""
    own: str = ""
    """The roll's own period then; empty where it has none."""
    no_sheet: bool = False
    """Whether the roll has no contact sheet yet."""

    def words(self, called: str, term: str) -> str:
        """Return them as a sentence without its stop; `called` is what the binder is called."""
        own = f", and this roll is {self.own}'s" if self.own else ""
        said = [
            f"there is none of that number yet in term {term}" if self.new else "",
            f"{called} is {self.whose}'s{own}" if self.whose else "",
            f"it has no contact sheet yet: {SHEET_FIRST}" if self.no_sheet else "",
        ]
        return "; ".join(each for each in said if each)


def whose_else(session: Session, roll: Roll, number: int) -> str:
    """Return the period whose binder it is where that is not the roll's; else nothing."""
    period = binder_period(session.file.conn, roll.term, number)
    if period is None or period == roll.period:
        return ""
    return period_title(session.file.room(), period)


def doubts_of(session: Session, roll: Roll, number: int) -> Doubts:
    """Return what speaks against filing a roll there; nothing in a closed term, where nothing is
    filed, and of one that stands there already.
    """
    if session.closed_words(roll) or roll.place == Place("binder", number):
        return Doubts()
    known = binders_of(session.file.conn, roll.term)
    whose = whose_else(session, roll, number)
    return Doubts(
        new=bool(known) and all(each.number != number for each in known),
        whose=whose,
        own=period_title(session.file.room(), roll.period) if whose else "",
        no_sheet=roll.place.kind == "sleeve" and not roll.sheets,
    )
