"""Closing and reopening a term at the desk; what it costs is said before Enter.

A copy of the file is made first, beside the desk, which goes on meanwhile.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from filmrack.acts import closing
from filmrack.acts.group import Hand
from filmrack.desk.archive.term_words import lent_beside, still_lent, what_is_open
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.counted import counted, listed
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.roll import Roll
from filmrack.domain.termreport import TermReport
from filmrack.store import terms
from filmrack.store.borrowing import borrowers
from filmrack.store.file import open_file
from filmrack.store.keeping import with_the_way_back
from filmrack.store.trouble import damage_in

_NO_REASONS = frozenset({"y", "yes", "n", "no", "ok", "okay", "sure", "true", "false", "enter"})

_MOST_BORROWERS = 4
"""Borrowers that are named before the rest is counted."""


class Closing(NamedTuple):
    """A term that is being closed: its file is copied first, which takes a while."""

    path: Path
    hand: Hand
    code: str
    why: str

    def done(self) -> tuple[Said, bool]:
        """Close it, on a connection of its own; return what came of it, and whether nothing did."""
        code, title = self.code, f"Term {self.code}"
        try:
            with damage_in(self.path), open_file(self.path, write=True) as file:
                closed = closing.close_term(file, self.hand, code, self.why)
                lent = still_lent(terms.by_place(file.conn, code))
        except Refused as refused:
            return Said(title, str(refused)), True
        except FileTrouble as trouble:
            return Said("The file", with_the_way_back(trouble, self.hand.now)), True
        left = f", {counted(len(closed.left_open), 'roll')} left open" if closed.left_open else ""
        words = (
            f"closed{left}{lent}: nothing of it can be changed now. The file as it was:"
            f" {closed.backup.file}"
        )
        return Said(title, f"{words}. Wrong? Type “reopen term {code}”", done=True), False

    def goes_on(self, now: datetime) -> str:
        """Return what is going on, and for how long."""
        seconds = int((now - self.hand.now).total_seconds())
        return f"closing term {self.code}: a copy of the file is made first, {seconds} s …"


class TermClosing:
    """Asks whether to close a term, and closes it in a thread, since its file is copied first."""

    def __init__(
        self,
        session: Session,
        beside: Callable[[Callable[[], None]], object],
        tell: Callable[[Said, bool], object],
    ) -> None:
        """`beside` does work in a thread; `tell` takes what came of it, and whether nothing did."""
        self._session = session
        self._beside = beside
        self._tell = tell
        self._closing: Closing | None = None

    def ask(self, code: str) -> Said | Question:
        """Close a term, if it is said so. Raises Refused while another one is being closed."""
        if self._closing is not None:
            raise Refused(f"{self._session.being_done}: wait for it")
        return close_term(self._session, code, self._begin)

    def goes_on(self, now: datetime) -> str:
        """Return that a term is being closed; empty for none."""
        return self._closing.goes_on(now) if self._closing else ""

    def _begin(self, wanted: Closing) -> None:
        self._closing = wanted
        self._session.being_done = f"term {wanted.code} is being closed"

        def work() -> None:
            said, refused = wanted.done()
            self._closing, self._session.being_done = None, ""
            self._tell(said, refused)

        self._beside(work)


def close_term(session: Session, code: str, begin: Callable[[Closing], None]) -> Question:
    """Ask for one Enter to close a term, or why rolls are left; `begin` is told to close it then.

    Raises Refused for a term that is not there or closed.
    """
    file = session.file
    term = file.room().term_of(code).code
    if term in terms.closed(file.conn):
        raise Refused(f"term {term} is closed already: “reopen term {term}” opens it")
    report = closing.report_on(file, term)
    hanging = what_is_open(_in_the_dryer(report.places))

    def answer(why: str) -> Said:
        if why.strip().casefold() in _NO_REASONS:
            raise Refused(
                f"term {term} stays open, for “{why.strip()}” does not say why rolls are left: type"
                " the reason in a few words, such as “taken home”, or press Esc"
            )
        reason = f"{hanging}: {why}" if hanging and why.strip() else why
        begin(Closing(session.path, session.hand(), term, reason))
        return Said(f"Term {term}", "is being closed, after a copy of the file is made")

    price = _price(session, term, report)
    if not report.open_rolls:
        return _question_when_all_is_put_away(term, price, answer)
    ask_why = _ask_why(term, report, price, answer)
    return _film_first(term, report, ask_why) if hanging else ask_why


def _price(session: Session, term: str, report: TermReport) -> str:
    """Return what closing a term costs, for what is borrowed and for all of it."""
    return (
        f"{_loans(session, report.out, term)}From then on its"
        f" {counted(report.rolls, 'roll')} cannot be changed, until “reopen term {term}”:"
        " none is flipped, touched or taken. A copy of the file is made first"
    )


def _question_when_all_is_put_away(
    term: str, price: str, answer: Callable[[str], Said]
) -> Question:
    """Ask for one Enter to close a term of which nothing is left."""
    return Question(
        f"Enter closes term {term}; Esc leaves it open",
        answer,
        headline=f"Close term {term}?",
        words=price,
        does=f"close term {term}",
        bare=True,
    )


def _ask_why(term: str, report: TermReport, price: str, answer: Callable[[str], Said]) -> Question:
    """Ask why rolls are left that are not put away."""
    left = len(report.open_rolls)
    return Question(
        f"why {'is it' if left == 1 else 'are they'} left? Esc leaves it open",
        answer,
        headline=f"Close term {term} with {counted(left, 'roll')} not put away yet?",
        words=f"{what_is_open(report.places)}. To close all the same, type why. {price}",
        verbatim=True,
    )


def _film_first(term: str, report: TermReport, ask_why: Question) -> Question:
    """Ask for the number of rolls in the dryer before it is asked why these are left."""
    in_dryer = _in_the_dryer(report.places)
    hanging, many = what_is_open(in_dryer), sum(in_dryer.values())
    beside = what_is_open({kind: n for kind, n in report.places.items() if kind not in in_dryer})
    also = (f"Also not put away: {beside}" if beside else "", lent_beside(report.places))
    more = ". ".join(each for each in (*also, "Who: “term report”") if each)

    def over_film(text: str) -> Question:
        if text.strip() != str(many):
            raise Refused(
                f"term {term} stays open, for {hanging}: take that film down first, or type {many}"
                " to close over it"
            )
        return ask_why

    return Question(
        f"Esc leaves it open; {many} closes it over {'this roll' if many == 1 else 'these rolls'}",
        over_film,
        headline=f"Film first: {hanging}",
        words=f"once term {term} is closed, nobody can flip it, touch it or take it down. Press Esc"
        " and empty the dryer: type “sweep”. To close over it all the same, type how many:"
        f" {many}. {more}",
    )


def _in_the_dryer(places: Mapping[str, int]) -> dict[str, int]:
    """Return how many rolls are in tanks and on rods, by these two kinds of place."""
    return {kind: places[kind] for kind in ("tank", "rod") if places.get(kind)}


def reopen_term(session: Session, code: str) -> Said:
    """Reopen a closed term. Raises Refused for one that is not there or not closed."""
    term = closing.reopen_term(session.file, session.hand(), code)
    words = f"open again: its rolls can be changed. “close term {term}” closes it"
    return Said(f"Term {term}", words, done=True)


def foretell_closing(session: Session, code: str) -> str:
    """Return what closing a term would come to. Raises Refused for one that is not there."""
    term = session.file.room().term_of(code).code
    if term in terms.closed(session.file.conn):
        return f"term {term} is closed already"
    places = terms.by_place(session.file.conn, term)
    hanging, left = what_is_open(_in_the_dryer(places)), what_is_open(places)
    if hanging:
        return f"close term {term}: film first, {hanging}"
    if left:
        return f"close term {term}: it asks why, for {left}"
    return f"close term {term}: every roll is accounted for"


def _loans(session: Session, lent: Sequence[Roll], term: str) -> str:
    """Return what closing a term means for what is borrowed; empty where nothing is."""
    if not lent:
        return ""
    names = list(dict.fromkeys(borrowers(session.file.conn, lent).values()))
    one = len(lent) == 1
    return (
        f"{'1 roll is' if one else f'{len(lent)} rolls are'} still borrowed, by"
        f" {listed(names, _MOST_BORROWERS)}: end {'that loan' if one else 'these loans'} first, or"
        f" “reopen term {term}” when {'it comes' if one else 'they come'} back. "
    )
