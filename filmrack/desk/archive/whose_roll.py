"""Which roll is meant of somebody: one to lend, `lend mara to Ms Novak`, or one of several."""

from __future__ import annotations

from filmrack.desk.session import Session
from filmrack.domain.counted import listed
from filmrack.domain.journey import why_not
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import rolls, search

_TOLD = 6
"""So many rolls are told by their numbers."""


class Several(Refused):
    """Somebody has several rolls that can be lent: which one must be said first."""

    def __init__(self, whose: str, there: list[Roll]) -> None:
        self.whose = whose
        self.rolls = there
        self.numbers = _numbers(there)
        """These rolls by their numbers, as a sentence names them."""
        super().__init__(
            f"{whose} has {len(there)} rolls that can be lent, {self.numbers}, and nothing is lent"
            f" yet: type which one, as {there[0].number}"
        )


def lendable_roll_of(session: Session, name: str) -> Roll:
    """Return the one roll of somebody that can be lent.

    Raises Refused for a name that is nobody's or several people's, for somebody without such a
    roll, and Several where it can be one of several.
    """
    try:
        person = search.who(session.file.conn, name)
    except Refused as refused:
        raise Refused(f"{refused}; whose film is lent stands first, or its number") from None
    theirs = rolls.of_person(session.file.conn, person.number)
    there = [roll for roll in theirs if not (why_not(roll, "lend") or session.closed_words(roll))]
    if len(there) == 1:
        return there[0]
    if there:
        raise Several(person.full, there)
    others = f", only {_numbers(theirs)}" if theirs else ""
    raise Refused(
        f"{person.full} has no roll that can be lent{others}: a sleeve at hand can, in a term that"
        " is open"
    )


def among(session: Session, some: list[Roll], typed: str) -> Roll | None:
    """Return which of some rolls is typed or scanned, `162` for `26F-0162` too; None for another.

    Raises Refused for what is no roll's number.
    """
    meant = [roll for roll in some if typed.lstrip("0") == str(roll.serial)]
    roll = meant[0] if len(meant) == 1 else search.which(session.file.conn, typed)
    return next((each for each in some if each.id == roll.id), None)


def _numbers(some: list[Roll]) -> str:
    return listed([f"{roll.number} ({roll.place})" for roll in some], _TOLD)
