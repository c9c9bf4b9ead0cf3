"""What the line says of days without school: `day off 24 dec`, on whatever screen."""

from __future__ import annotations

from datetime import timedelta
from functools import partial

from filmrack.desk.question import Question
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.domain.clock import span_words
from filmrack.domain.counted import listed
from filmrack.domain.day_off import read_day_off, says_day_off, what_is_off
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import DayOff
from filmrack.domain.yes_or_no import yes_or_no

_NAMED = 2
"""Days off that an answer names before it counts the rest."""

_MANY = 15
"""School days, three weeks of them: more than that are asked about."""

_NOT_YOURS = "days off are the teacher's to set: ask the teacher"


def says_of_day_off(session: Session, text: str) -> bool:
    """Tell whether a line says that a day is off, or asks to say so."""
    return says_day_off(text, session.now.date())


def say_day_off(session: Session, text: str) -> Said | Question:
    """Add the day off that a line says, or ask which. Raises Refused on a student desk."""
    said = what_is_off(text)
    return _add(session, said) if said else ask_day_off(session)


def ask_day_off(session: Session) -> Question:
    """Ask for a day off: one line has its days, and its name where it has one."""
    session.refuse_students(_NOT_YOURS)
    return Question(
        "24 dec · 21 dec to 1 jan · friday staff training",
        partial(_add, session),
        headline="Which day is off, or which days?",
        words="a name may stand beside; nothing else is asked",
    )


def _add(session: Session, text: str) -> Said | Question:
    session.refuse_students(_NOT_YOURS)
    timetable = session.file.room().timetable
    today = timetable.local_date(session.now)
    term = timetable.days.term_in_force(today)
    off = read_day_off(text, today, term.starts if term else today)
    when = span_words(off.first, off.last)
    known = [k for k in timetable.days.days_off if k.first <= off.last and off.first <= k.last]
    around = next((k for k in known if k.first <= off.first and off.last <= k.last), None)
    if around is not None:
        within = "" if around[1:] == off[1:] else f", within {_called(around)}"
        raise Refused(f"{when} is off already{within}: nothing was changed")
    free = timetable.days.between(off.first - timedelta(days=1), off.last)
    return _ask_whether(session, off, free) if free > _MANY else _write(session, off)


def _ask_whether(session: Session, off: DayOff, free: int) -> Question:
    when = span_words(off.first, off.last)
    left = Said(f"Day off: {when}", "is not added: nothing was changed")

    def answer(text: str) -> Said:
        if text and not yes_or_no(text, f"Enter takes all {free} off, Esc leaves them"):
            return left
        return _write(session, off)

    return Question(
        "Enter: no school on all of them; Esc: leave it",
        answer,
        headline=f"{free} school days off?",
        words=f"{off.name}, {when}. Nothing is changed yet",
        does="take them off",
        left=left,
    )


def _write(session: Session, off: DayOff) -> Said:
    # Of the room only what changes it is imported here: a line is typed on every screen.
    from filmrack.acts.refitting import add_days_off

    days = session.file.room().timetable.days
    known = [k for k in days.days_off if k.first <= off.last and off.first <= k.last]
    add_days_off(session.file, session.hand(), [off])
    in_a_term = any(t.starts <= off.last and off.first <= t.ends for t in days.terms)
    words = "" if in_a_term else ". It lies outside every term, so it changes nothing yet"
    if known:
        words += f"; beside it stays {listed([_called(each) for each in known], _NAMED)}"
    when = span_words(off.first, off.last)
    return Said(f"Day off: {when}", f"{off.name}{words}. {WRONG}", done=True)


def _called(off: DayOff) -> str:
    return f"{off.name} {span_words(off.first, off.last)}"
