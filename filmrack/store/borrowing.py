"""Who borrows: a person of the school, or a guest by the name that was typed."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable

from filmrack.domain.loans import LoanLine
from filmrack.domain.names import Person, begin_names, tokens
from filmrack.domain.roll import Entry, Roll
from filmrack.store import people
from filmrack.store.whoever import person_or_words

_OF_LATE = 20_000
"""Entries of the ledger in which a loan that has ended is looked for: a school writes fewer a term.
"""

NOBODY = "somebody whose name is wiped"


def borrower_meant(conn: sqlite3.Connection, said: LoanLine) -> Person | str:
    """Return the one person of the school whom a line means, or a guest by name.

    Raises Refused as `person_or_words` does; a name in quotes is a guest's.
    """
    return said.who if said.quoted else person_or_words(conn, said.who, "a guest's in “quotes”")


def guests_like(conn: sqlite3.Connection, name: str) -> list[str]:
    """Return the guests with a loan of whose names a name is a part, or that are part of it.

    Their spelling is how it was typed for the first of them.
    """
    words = set(tokens(name))
    rows = conn.execute(
        "SELECT n.text FROM loans l JOIN notes n ON n.id = l.note ORDER BY l.at, l.roll"
    ).fetchall()
    alike = {" ".join(tokens(row[0])): row[0] for row in reversed(rows)}
    known = [(set(folded.split()), text) for folded, text in alike.items()]
    return [text for there, text in known if words and (words <= there or there <= words)]


def guest_before(conn: sqlite3.Connection, name: str) -> str:
    """Return the guest of that name to whom something was lent of late; empty for nobody."""
    words = tokens(name)
    rows = conn.execute(
        "SELECT n.text FROM (SELECT id, act, detail FROM ledger ORDER BY id DESC LIMIT ?) e"
        " JOIN notes n ON n.id = json_extract(e.detail, '$.note') WHERE e.act = 'lend'"
        " ORDER BY e.id DESC",
        (_OF_LATE,),
    ).fetchall()
    return next((row[0] for row in rows if words and begin_names(words, row[0])), "")


def called_within(conn: sqlite3.Connection, name: str) -> Person | None:
    """Return somebody of the school of whose names one is a word of a guest's; None for nobody."""
    for word in tokens(name):
        for person in people.with_words(conn, [word]):
            if any(word in tokens(one) for one in person.single_names):
                return person
    return None


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


def lent_to(conn: sqlite3.Connection, entry: Entry, *, short: bool = False) -> str:
    """Return to whom an entry of the ledger lent, as that name is known today; empty for an entry
    of another kind.
    """
    if entry.act != "lend":
        return ""
    person, note = entry.detail.get("person"), entry.detail.get("note")
    if note is not None:
        return people.read_note(conn, note) or NOBODY
    known = people.read_people(conn, [person] if person else []).get(person or 0)
    if known is None:
        return NOBODY
    return known.short if short else known.full


def borrower(conn: sqlite3.Connection, roll: Roll) -> str:
    """Return the borrower's full name; empty for a roll that is not lent."""
    return borrowers(conn, [roll]).get(roll.id, "")
