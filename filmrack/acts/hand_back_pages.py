"""The pages of the last week of a term: what is to be handed back to whom."""

from __future__ import annotations

from datetime import datetime

from filmrack.acts.end_of_term import hand_back_list
from filmrack.acts.inscriptions import owners_of, period_title, printed_borrower, printed_name
from filmrack.domain.loans import due_words
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.printing import HandBackList, HandBackRow, Page
from filmrack.store.borrowing import borrowers
from filmrack.store.file import DarkroomFile


def hand_back_pages(file: DarkroomFile, asked: str, moment: datetime) -> list[Page]:
    """Return a list for each period of a term, the one in force where none is asked for.

    Names stand as on a student desk: the given name and an initial. Raises Refused when nothing
    is to be handed back.
    """
    room = file.room()
    term, groups = hand_back_list(file, asked or None, moment)
    if not groups:
        raise Refused(f"nothing of term {term} is to be handed back: name another term")
    some = [roll for _, _, rolls in groups for roll in rolls]
    owners, lent = owners_of(file, some), borrowers(file.conn, some, short=True)
    by_period: dict[int | None, list[tuple[tuple[bool, str, str], HandBackRow]]] = {}
    for period, person, rolls in groups:
        owner = owners.get(person)
        order = (owner is None, owner.family if owner else "", owner.known_as if owner else "")
        for roll in rolls:
            note = ""
            if roll.loan is not None:
                whom = printed_borrower(lent[roll.id])
                note = f"{whom}, {due_words(roll.loan, room, moment)}"
            row = HandBackRow(_named(owner) if owner else "", roll.number, str(roll.place), note)
            by_period.setdefault(period, []).append((order, row))
    return [
        HandBackList(
            term,
            period_title(room, period) or f"no {room.period_word}",
            tuple(row for _, row in sorted(rows, key=lambda each: (each[0], each[1].roll))),
        )
        for period, rows in by_period.items()
    ]


def _named(owner: Person) -> str:
    """Return whom a row names, as on a student desk, in what the font writes."""
    name, initial = printed_name(owner)
    return f"{name} {initial}." if initial else name
