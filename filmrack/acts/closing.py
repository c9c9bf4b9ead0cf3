"""Closing a term: all its rolls accounted for, a copy made, and then it is only read."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from filmrack.acts.group import Hand, one_group
from filmrack.domain.counted import listed
from filmrack.domain.journey import fold
from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Roll
from filmrack.domain.termreport import TermReport, term_report
from filmrack.store import ledger, people, rolls, terms
from filmrack.store.backup import Backup
from filmrack.store.file import DarkroomFile
from filmrack.store.keeping import keep
from filmrack.store.room import bump_stamp

NAMED = 10
"""Rolls that a refusal names before it counts the rest."""


class Closed(NamedTuple):
    """A term that is closed, the copy made before, and what was left open, if anything."""

    code: str
    backup: Backup
    left_open: tuple[Roll, ...]


def rolls_of_term(file: DarkroomFile, code: str, then: datetime | None = None) -> list[Roll]:
    """Return the rolls of a term by their numbers, now or as of a moment.

    Raises Refused for a term that is not there.
    """
    term = file.room().term_of(code).code
    if then is None:
        return rolls.of_term(file.conn, term)
    numbers = rolls.numbers_of_term(file.conn, term)
    told = (fold(ledger.of_roll(file.conn, number, until=then)) for number in numbers)
    return [roll for roll in told if roll is not None]


def report_on(file: DarkroomFile, code: str, then: datetime | None = None) -> TermReport:
    """Report on a term, now or as of a moment. Raises Refused for a term that is not there."""
    term = file.room().term_of(code).code
    if then is not None:
        return term_report(rolls_of_term(file, term, then))
    # Of a large term most is settled, and need only be counted.
    return term_report(terms.owing(file.conn, term), terms.settled(file.conn, term))


def close_term(file: DarkroomFile, hand: Hand, code: str, why: str = "") -> Closed:
    """Close a term, after a copy of the file is made in the folder `backups` beside it.

    From then on its rolls are only read. `why` says why rolls may be left open. Raises Refused
    for a term that is not there or closed, and while rolls are unaccounted for and no `why` is
    given, naming them; FileTrouble when the copy cannot be made. Nothing is closed then.
    """
    reason = clean(why, "the reason")
    term = file.room().term_of(code).code
    _refuse_unless_all_there(file, term, reason)
    made = keep(file, f"before-closing-{term}", hand.now)
    with one_group(file, hand) as group:
        # What a desk has done while the copy was made counts as well.
        left = _refuse_unless_all_there(file, term, reason)
        detail = Detail(term=term)
        if reason:
            detail["note"] = people.add_note(group.conn, reason)
        group.append("close", None, detail)
        group.refold_term(term)
        group.settle()
        bump_stamp(group.conn)
    return Closed(term, made, tuple(left))


def reopen_term(file: DarkroomFile, hand: Hand, code: str) -> str:
    """Reopen a closed term, so that its rolls can be changed again; return its code.

    Raises Refused for a term that is not there or not closed.
    """
    term = file.room().term_of(code).code
    with one_group(file, hand) as group:
        if term not in terms.closed(group.conn):
            raise Refused(f"term {term} is open already: change its rolls right away")
        group.append("reopen", None, Detail(term=term))
        group.refold_term(term)
        group.settle()
        bump_stamp(group.conn)
    return term


def _refuse_unless_all_there(file: DarkroomFile, term: str, reason: str) -> list[Roll]:
    if term in terms.closed(file.conn):
        raise Refused(f"term {term} is closed already: reopen it first to close it anew")
    left = report_on(file, term).open_rolls
    if left and not reason:
        named = listed([f"{roll.number} ({roll.place})" for roll in left], NAMED)
        are = "1 roll is" if len(left) == 1 else f"{len(left)} rolls are"
        raise Refused(
            f"term {term} stays open because {are} not put away yet, {named}: file them, hand"
            " them back, or say why they are left open"
        )
    return left
