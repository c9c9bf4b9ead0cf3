"""Taking in a roster: people and the periods they are in for a term."""

from __future__ import annotations

import sqlite3
from datetime import datetime
from typing import NamedTuple

from filmrack.acts.group import Hand
from filmrack.acts.listing import keep_listed
from filmrack.domain.enrolling import Enrolling, enrolling
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.roster import Roster
from filmrack.store import people, roster, terms
from filmrack.store.file import DarkroomFile
from filmrack.store.lists import Rows, key_of_person, read_rows

_MOST_PEOPLE = 9999
"""Codes of people have four digits."""


class Rostered(NamedTuple):
    """How many people a roster added, changed and left as they were; what was refused and why."""

    term: str
    added: int
    updated: int
    unchanged: int
    left: int
    refused: tuple[tuple[int, str], ...]


def take_roster(
    file: DarkroomFile,
    hand: Hand,
    read: Roster,
    *,
    term: str | None = None,
    period: int | None = None,
    others_left: bool = False,
) -> Rostered:
    """Add or update the people of a roster and enrol them; the same roster again changes nothing.

    `term` is a term's code, else the one in force; `period` is for rows that name none. With
    `others_left`, who is in one of the roster's periods and not on it is kept as having left,
    unless a line was refused. All of it is one act on the ledger, which can be taken back.

    Raises Refused without a term, and for a closed one.
    """
    with file.writing() as conn:
        room = file.room()
        code = _open_term(conn, room, hand.at, term)
        plan = _plan(conn, room, read, code, period)
        changed = [one.person.number for one in (*plan.updated, *plan.absent)]
        before: Rows = read_rows(conn, map(key_of_person, changed))
        for one in plan.added:
            number = people.add(conn, one.person)
            before[key_of_person(number)] = None
            _enrol(conn, number, code, one.period)
        for one in plan.updated:
            people.rename(conn, one.person)
            roster.mark_left(conn, one.person.number, None)
            _enrol(conn, one.person.number, code, one.period)
        if others_left and not read.refused:
            for one in plan.absent:
                roster.mark_left(conn, one.person.number, hand.at)
        keep_listed(conn, room, hand, before)
    return _told(plan, read, code, others_left=others_left)


def would_take_roster(
    file: DarkroomFile,
    now: datetime,
    read: Roster,
    *,
    term: str | None = None,
    period: int | None = None,
    others_left: bool = False,
) -> Rostered:
    """Return what `take_roster` would do, and refuse what it would refuse; nothing is changed."""
    room = file.room()
    code = _open_term(file.conn, room, now, term)
    plan = _plan(file.conn, room, read, code, period)
    return _told(plan, read, code, others_left=others_left)


def _plan(
    conn: sqlite3.Connection, room: Room, read: Roster, term: str, period: int | None
) -> Enrolling:
    def number_of(text: str) -> int | None:
        found = room.period_named(text)
        return None if found is None else found.number

    plan = enrolling(read.rows, roster.everyone(conn, term), number_of, period)
    free = _MOST_PEOPLE - roster.highest(conn)
    if len(plan.added) > free:
        raise Refused(
            f"the file has room for {max(free, 0)} more people and the roster has"
            f" {len(plan.added)} new ones: take in a smaller one"
        )
    return plan


def _told(plan: Enrolling, read: Roster, term: str, *, others_left: bool) -> Rostered:
    return Rostered(
        term,
        len(plan.added),
        len(plan.updated),
        len(plan.unchanged),
        len(plan.absent) if others_left and not read.refused else 0,
        tuple(sorted((*read.refused, *plan.refused))),
    )


def _open_term(conn: sqlite3.Connection, room: Room, now: datetime, code: str | None) -> str:
    term = room.term_meant(code, now).code
    terms.refuse_closed(conn, term)
    return term


def _enrol(conn: sqlite3.Connection, person: int, term: str, period: int | None) -> None:
    if period is not None:
        people.enrol(conn, person, term, period)
