"""Opening a term: a change of the room, on the ledger like any other."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from filmrack.acts.group import Hand
from filmrack.acts.refitting import change_room
from filmrack.domain.clock import span_words
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.schooldays import Term
from filmrack.domain.termcode import term_code, usual_term
from filmrack.domain.timetable import Timetable
from filmrack.store.file import DarkroomFile


def open_term(
    file: DarkroomFile,
    hand: Hand,
    text: str,
    *,
    starts: date | None = None,
    ends: date | None = None,
) -> Term:
    """Open a term by its code; rolls are numbered in it from its first day on.

    Without dates S is January to June and F July to December, from the day after a term that is
    still running then. Raises Refused for a code that is none or taken, for dates within another
    term, and when the dates of another letter are not given.
    """
    code = term_code(text)
    room = change_room(file, hand, lambda room: _with_term(room, code, hand.at, starts, ends))
    return room.term_of(code)


def _with_term(
    room: Room, code: str, now: datetime, starts: date | None, ends: date | None
) -> Room:
    if code in {term.code for term in room.terms}:
        raise Refused(f"term {code} is open already: change its dates on the screen Room")
    term = _term(code, room.timetable.local_date(now), starts, ends)
    if starts is None:
        running = [one for one in room.terms if one.starts <= term.starts <= one.ends < term.ends]
        if running:
            last = max(one.ends for one in running)
            term = Term(term.code, last + timedelta(days=1), term.ends)
    for other in room.terms:
        if term.starts <= other.ends and other.starts <= term.ends:
            raise Refused(
                f"term {code} cannot be from {span_words(term.starts, term.ends)} because"
                f" {other.code} is from {span_words(other.starts, other.ends)}: give other dates"
            )
    days = room.timetable.days._replace(terms=(*room.terms, term))
    timetable = Timetable(room.timetable.zone, room.timetable.plans, days)
    return room._replace(timetable=timetable)


def _term(code: str, today: date, starts: date | None, ends: date | None) -> Term:
    usual = usual_term(code, today)
    if usual is None and (starts is None or ends is None):
        raise Refused(f"nobody knows when term {code} is: give its first and its last day")
    first = starts or (usual.starts if usual else today)
    last = ends or (usual.ends if usual else today)
    return Term(code, first, last)
