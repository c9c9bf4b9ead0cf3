"""A person's names, and whether they are still here.

Each change is on the ledger and can be taken back.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from filmrack.acts.group import Hand
from filmrack.acts.listing import keep_listed
from filmrack.domain.names import Person, clean
from filmrack.domain.refusal import Refused
from filmrack.store import people, roster, terms
from filmrack.store.file import DarkroomFile
from filmrack.store.lists import key_of_person, read_rows


def rename(
    file: DarkroomFile,
    hand: Hand,
    number: int,
    *,
    given: str | None = None,
    family: str | None = None,
    called: str | None = None,
) -> Person:
    """Give a person the name they ask for; the former one is found and shown no more.

    What is None stays; an empty `called` takes the called-by name away. A given or family name
    stands from now on: the next roster does not change it back. Raises Refused for a person who is
    not there, when no name is left, or nothing was named.
    """
    if given is None and family is None and called is None:
        raise Refused("nothing was changed because no name was given: say the new one")
    with _one(file, hand, number) as conn:
        person = people.person_meant(conn, number)
        if given is not None:
            person = person._replace(given=clean(given, "the given name"))
        if family is not None:
            person = person._replace(family=clean(family, "the family name"))
        if called is not None:
            person = person._replace(called=clean(called, "the called-by name") or None)
        if not person.given:
            raise Refused("a person needs a given name: write the one they go by")
        if person.called == person.given:
            person = person._replace(called=None)
        people.rename(conn, person)
        if given is not None or family is not None:
            roster.let_name_stand(conn, number)
    return person


def leave(file: DarkroomFile, hand: Hand, number: int) -> Person:
    """Keep that a person has left: their rolls stay theirs, new ones are not offered to them.

    Raises Refused for a person who is not there.
    """
    with _one(file, hand, number) as conn:
        person = people.person_meant(conn, number)
        roster.mark_left(conn, number, hand.at)
    return person


def come_back(file: DarkroomFile, hand: Hand, number: int) -> Person:
    """Keep that a person who had left is here again. Raises Refused for one who is not there."""
    with _one(file, hand, number) as conn:
        person = people.person_meant(conn, number)
        roster.mark_left(conn, number, None)
    return person


def move(file: DarkroomFile, hand: Hand, number: int, period: int) -> Person:
    """Put a person in another period for the term in force.

    Raises Refused for a person who is not there, without a term that is open, and for a period that
    the room has not.
    """
    with _one(file, hand, number) as conn:
        person = people.person_meant(conn, number)
        room = file.room()
        if period not in {one.number for one in room.periods}:
            names = ", ".join(one.name for one in room.periods)
            raise Refused(f"there is no {room.period_word} {period}: the room has {names}")
        term = room.term_meant(None, hand.at)
        terms.refuse_closed(conn, term.code)
        people.enrol(conn, number, term.code, period)
    return person


@contextmanager
def _one(file: DarkroomFile, hand: Hand, number: int) -> Iterator[sqlite3.Connection]:
    """Hold the file for a change of one person, and keep what it changed."""
    with file.writing() as conn:
        before = read_rows(conn, [key_of_person(number)])
        yield conn
        keep_listed(conn, file.room(), hand, before)
