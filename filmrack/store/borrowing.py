"""Who borrows: a person of the school, or a guest by the name that was typed."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable

from filmrack.domain.asking import code_in
from filmrack.domain.names import Person, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import people, search

NOBODY = "somebody whose name is wiped"


def borrower_named(conn: sqlite3.Connection, text: str) -> Person | str:
    """Return the one person of the school who is meant, or the text as a guest's name.

    Raises Refused where several people can be meant, for the number or code of none, and for a
    name that is nobody's but nearly somebody's: an act is never done by a guess.
    """
    typed = " ".join(text.split())
    try:
        return search.who(conn, typed)
    except Refused:
        number = typed.casefold().removeprefix("person").strip()
        if code_in(typed) or number.isdecimal() or people.with_words(conn, tokens(typed), limit=1):
            raise
    near = search.nearly(conn, typed)
    if near:
        raise Refused(
            f"{typed[:40]!r} is nobody here, but {near[0].full} is nearly called so: type the name"
            " again, a guest's in “quotes”"
        )
    return typed


def borrowers(
    conn: sqlite3.Connection, some: Iterable[Roll], *, short: bool = False
) -> dict[int, str]:
    """Return who has borrowed each roll that is lent, by roll.

    With `short` people of the school stand there as every desk may show them.
    """
    lent = {roll.id: roll.loan for roll in some if roll.loan is not None}
    if not lent:
        return {}
    persons = people.read_people(conn, (loan.person for loan in lent.values() if loan.person))
    notes = people.read_notes(conn, [loan.note for loan in lent.values() if loan.note])
    names = {n: person.short if short else person.full for n, person in persons.items()}
    return {
        roll: names.get(loan.person or 0) or notes.get(loan.note or 0) or NOBODY
        for roll, loan in lent.items()
    }


def borrower(conn: sqlite3.Connection, roll: Roll) -> str:
    """Return the borrower's full name; empty for a roll that is not lent."""
    return borrowers(conn, [roll]).get(roll.id, "")
