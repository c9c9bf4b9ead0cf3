"""Lending at the desk, in one line or by questions; whom and until when is said before Enter."""

from __future__ import annotations

import re
from datetime import date

from filmrack.acts import lending
from filmrack.desk.archive.replies import archive_headline, done
from filmrack.desk.archive.whose_roll import Several, among
from filmrack.desk.question import Question
from filmrack.desk.registry import called_alike, is_no_answer
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.clock import day_words
from filmrack.domain.counted import counted
from filmrack.domain.journey import why_not
from filmrack.domain.loans import (
    LoanLine,
    due_back,
    loan_line,
    loan_words,
    no_school,
    refuse_a_part,
    refuse_no_name,
)
from filmrack.domain.names import Person
from filmrack.domain.refusal import Hopeless, Refused
from filmrack.domain.roll import Roll
from filmrack.store.borrowing import borrower, borrower_meant, called_within, guests_like

_LEND = re.compile(r"(?i)^lend (to )?(?=.)")
"""What a hand types once more before the name that the line asks for."""


def _refuse_what_cannot_be_lent(session: Session, roll: Roll) -> None:
    """Raise Refused for a roll that is not at hand, before it is asked who borrows it."""
    if session.closed_words(roll):
        return  # the act says that in its own words
    if roll.loan is not None and roll.place.kind == "out":
        raise Hopeless(
            f"{roll.number} is {lent_words(session, roll)}: type “{roll.number} end loan” when it"
            " is back, then lend it"
        )
    if why := why_not(roll, "lend"):
        raise Hopeless(why)


def lend(session: Session, roll: Roll, line: str) -> Said | Question:
    """Lend a roll as a line says: `Ms Novak 4 dec`; without a day by the room's rule.

    A guest who has nothing on loan yet is asked about. Raises Refused for a day that is none, and
    a name that can be several people's.
    """
    _refuse_what_cannot_be_lent(session, roll)
    return _lend(session, roll, _loan_line(session, line))


def lend_which(session: Session, several: Several, line: str) -> Question:
    """Ask which roll of somebody is lent. Raises Refused for a line that lends to nobody."""
    said = _loan_line(session, line)
    if said.who:
        borrower_meant(session.file.conn, said)

    def answer(text: str) -> Said | Question:
        roll = among(session, several.rolls, text.strip())
        if roll is None:
            raise Refused(
                f"{text.strip()[:20]} is none of them: type one of {several.numbers}, or press Esc,"
                " and lend it by its own number"
            )
        return lend(session, roll, line)

    return Question(
        "its number, or scan it; Esc lends nothing",
        answer,
        headline=f"Which roll of {several.whose}?",
        words=f"{several.numbers} can be lent. Nothing is lent yet",
        kind="R",
    )


def _loan_line(session: Session, line: str) -> LoanLine:
    timetable = session.file.room().timetable
    return loan_line(line, timetable.local_date(session.now), timetable.days)


def _lend(session: Session, roll: Roll, said: LoanLine) -> Said | Question:
    """Lend a roll to whom a line means, or ask who borrows it, or whether a guest does."""
    if not said.who:
        return _ask_who(session, roll, said)
    whom = borrower_meant(session.file.conn, said)
    # In a closed term nothing is lent to anybody: the act says so.
    if not session.closed_words(roll) and _is_new_guest(session, said, whom):
        return _ask_of_new_guest(session, roll, said)
    try:
        return _lent(session, roll, said)
    except lending.NearGuest as near:
        return _ask_which_guest(session, roll, said, near.guest)


def _is_new_guest(session: Session, said: LoanLine, whom: Person | str) -> bool:
    """Tell whether a name is that of a guest who has nothing on loan: it may be mistyped.

    A name in quotes is no question. Raises Refused for one that is hardly a guest's.
    """
    if said.quoted or not isinstance(whom, str):
        return False
    if called_alike(whom) or is_no_answer(whom):
        raise Refused(
            f"“{whom}” is taken for no guest, for the desk itself has that word: type the name in"
            " “quotes” if somebody is called so"
        )
    refuse_a_part(whom)
    if guests_like(session.file.conn, whom):
        return False
    refuse_no_name(whom)
    return True


def _ask_who(session: Session, roll: Roll, said: LoanLine) -> Question:
    """Ask who borrows a roll; a day that was said already stands."""
    today = session.file.room().timetable.local_date(session.now)
    day = f" until {day_words(said.until, today)}" if said.until else ""

    def answer(text: str) -> Said | Question:
        more = _loan_line(session, _LEND.sub("", text))
        if not more.who:
            raise Refused("who borrows it is not said: type a name, or press Esc")
        return _lend(session, roll, more._replace(until=more.until or said.until))

    return Question(
        f"who borrows it{day}? A name{'' if day else ', and a day if not the usual one'}",
        answer,
        headline=archive_headline(session, roll),
        words="type who borrows it, as “juniper” or “juniper 4 dec”",
    )


def _ask_of_new_guest(session: Session, roll: Roll, said: LoanLine) -> Question:
    """Ask whether a name that nobody has is a guest's: it may be mistyped, or mean something else.

    With it stand the roll and the day, for a line that was read wrongly ends here.
    """
    room = session.file.room()
    due = said.until or due_back(room, session.now)
    day = day_words(due, room.timetable.local_date(session.now))
    person = called_within(session.file.conn, said.who)
    words = "no student has that name" if person is None else f"{person.full} is somebody else"
    return Question(
        "Enter lends it; Esc lends nothing",
        lambda _: _lent(session, roll, said._replace(quoted=True)),
        headline=f"{archive_headline(session, roll)}: lend to {said.who}, a guest, until {day}?",
        words=f"{words}, and nothing is lent yet",
        does=f"lend to {said.who}",
        bare=True,
    )


def _ask_which_guest(session: Session, roll: Roll, said: LoanLine, guest: str) -> Question:
    """Ask whether a name that is almost a guest's is theirs, or a second guest's."""

    def answer(text: str) -> Said | Question:
        if not text.strip():
            return _lent(session, roll, LoanLine(guest, said.until, quoted=True))
        more = _loan_line(session, text)
        return _lend(session, roll, more._replace(until=more.until or said.until))

    return Question(
        "Enter: yes; somebody else: the name in “quotes”; Esc: nothing",
        answer,
        headline=f"Is “{said.who}” {guest}?",
        words=f"{guest} has film on loan now. Nothing is lent yet: for another guest type the name"
        f" again, as “{said.who}” in quotes",
        does=f"lend to {guest}",
    )


def _lent(session: Session, roll: Roll, said: LoanLine) -> Said:
    """Lend a roll to whom a line means, and say to whom and until when."""
    lent = lending.lend_as_said(session.file, session.hand(), roll.id, said)
    assert lent.loan is not None
    who, is_guest = borrower(session.file.conn, lent), lent.loan.person is None
    words = _words(session, f"{who}, a guest" if is_guest else who, lent.loan.due)
    # Its next step is the end of that loan: one Enter too many must not be it.
    told = done(session, roll, f"lent {words}{_by_the_rule(session, said)}{_sleeves(roll)}")
    back = f"When it is back: “{lent.serial:04d} end loan”; “borrowed” lists all"
    return told._replace(words=f"{told.words}. {back}", rests=True)


def _sleeves(roll: Roll) -> str:
    """Return that all sleeves of a roll go together; empty for one alone."""
    many = len(roll.pages)
    if many < 2:
        return ""
    return ", with both its sleeves" if many == 2 else f", with all {many} sleeves"


def lent_words(session: Session, roll: Roll) -> str:
    """Return by whom a lent roll is borrowed and until when."""
    assert roll.loan is not None
    who = borrower(session.file.conn, roll)
    return loan_words(roll.loan, who, session.file.room(), session.now)


def foretell_loan(session: Session, line: str) -> str:
    """Return to whom and until when a line would lend. Raises Refused as `lend` does."""
    room, now = session.file.room(), session.now
    said = _loan_line(session, line.rstrip(", "))
    due = said.until or due_back(room, now)
    rule = _by_the_rule(session, said)
    if not said.who:
        return f"lend to whom? Due {day_words(due, room.timetable.local_date(now))}{rule}"
    whom = borrower_meant(session.file.conn, said)
    _is_new_guest(session, said, whom)  # refuses what Enter would refuse
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
