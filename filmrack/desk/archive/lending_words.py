"""Lending at the desk, in one line or by questions; whom and until when is said before Enter."""

from __future__ import annotations

import re
from datetime import date

from filmrack.acts import lending
from filmrack.desk.archive.replies import archive_headline, done
from filmrack.desk.question import Question
from filmrack.desk.registry import called_alike, is_no_answer
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.clock import day_words
from filmrack.domain.counted import counted
from filmrack.domain.loans import LoanLine, due_back, loan_line, loan_words, no_school
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store.borrowing import borrower, borrower_meant

_LEND = re.compile(r"(?i)^lend (to )?(?=.)")
"""What a hand types once more before the name that the line asks for."""


def _refuse_lent(session: Session, roll: Roll) -> None:
    """Raise Refused for a sleeve that somebody has, before it is asked who borrows it."""
    if roll.loan is not None and roll.place.kind == "out":
        raise Refused(
            f"{roll.number} is {lent_words(session, roll)}: type “{roll.number} end loan” when it"
            " is back, then lend it"
        )


def lend(session: Session, roll: Roll, line: str) -> Said | Question:
    """Lend a roll as a line says: `Ms Novak 4 dec`; without a day by the room's rule.

    Raises Refused for a day that is none, and a name that can be several people's.
    """
    today = session.file.room().timetable.local_date(session.now)
    said = loan_line(line, today)
    if not said.who:
        _refuse_lent(session, roll)
        day = f" until {day_words(said.until, today)}" if said.until else ""
        whose = archive_headline(session, roll)
        prompt = f"who borrows it{day}? A name{'' if day else ', and a day if not the usual one'}"

        def answer(text: str) -> Said | Question:
            more = loan_line(_LEND.sub("", text), today)
            if not more.who:
                raise Refused("who borrows it is not said: type a name, or press Esc")
            until = more.until or said.until
            behind = f" until {until}" if until else ""
            return lend(session, roll, f"{_quoted(more.who, more.quoted)}{behind}")

        words = "type who borrows it, as juniper or juniper 4 dec"
        return Question(prompt, answer, headline=whose, words=words)
    whom = borrower_meant(session.file.conn, said)
    is_ours = isinstance(whom, str) and (bool(called_alike(whom)) or is_no_answer(whom))
    if is_ours and not said.quoted and not session.closed_words(roll):
        raise Refused(
            f"“{whom}” is taken for no guest, for the desk itself has that word: type the name"
            " in “quotes” if somebody is called so"
        )
    try:
        return _lent(session, roll, said)
    except lending.NearGuest as near:
        return _which_guest(session, roll, said, near.guest)


def _lent(session: Session, roll: Roll, said: LoanLine) -> Said:
    lent = lending.lend_as_said(session.file, session.hand(), roll.id, said)
    assert lent.loan is not None
    who, is_guest = borrower(session.file.conn, lent), lent.loan.person is None
    words = _words(session, f"{who}, a guest" if is_guest else who, lent.loan.due)
    # Its next step is the end of that loan: one Enter too many must not be it.
    told = done(session, roll, f"lent {words}{_by_the_rule(session, said)}")
    return told._replace(rests=True)


def _which_guest(session: Session, roll: Roll, said: LoanLine, guest: str) -> Question:
    """Ask whether a name that is almost a guest's is theirs, or a second guest's."""

    def answer(text: str) -> Said | Question:
        if not text.strip():
            return _lent(session, roll, LoanLine(guest, said.until, quoted=True))
        until = f" until {said.until}" if said.until else ""
        return lend(session, roll, f"{text}{until}")

    return Question(
        f"Enter: {guest}; somebody else: the name in “quotes”; esc lends nothing",
        answer,
        headline=f"Is “{said.who}” {guest}?",
        words=f"{guest} has film on loan now. Nothing is lent yet: for another guest type the name"
        f" again, as “{said.who}” in quotes",
        does=f"lend to {guest}",
    )


def lent_words(session: Session, roll: Roll) -> str:
    """Return by whom a lent roll is borrowed and until when."""
    assert roll.loan is not None
    who = borrower(session.file.conn, roll)
    return loan_words(roll.loan, who, session.file.room(), session.now)


def foretell_loan(session: Session, line: str) -> str:
    """Return to whom and until when a line would lend. Raises Refused as `lend` does."""
    room, now = session.file.room(), session.now
    said = loan_line(line.rstrip(", "), room.timetable.local_date(now))
    due = said.until or due_back(room, now)
    rule = _by_the_rule(session, said)
    if not said.who:
        return f"lend to whom? Due {day_words(due, room.timetable.local_date(now))}{rule}"
    whom = borrower_meant(session.file.conn, said)
    who = f"{whom}, a guest" if isinstance(whom, str) else whom.full
    return f"lend {_words(session, who, due)}{rule}"


def _by_the_rule(session: Session, said: LoanLine) -> str:
    """Return where the day of a loan comes from that was lent without one."""
    days = session.file.room().rules.loan_school_days
    return "" if said.until else f", {counted(days, 'school day')} from today"


def _words(session: Session, who: str, due: date) -> str:
    room = session.file.room()
    today = room.timetable.local_date(session.now)
    return f"to {who}, due {day_words(due, today)}{no_school(due, room)}"


def _quoted(who: str, quoted: bool) -> str:
    return f"“{who}”" if quoted else who
