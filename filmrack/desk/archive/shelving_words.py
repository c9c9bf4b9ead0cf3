"""Shelving at the desk: binder in hand, sleeve after sleeve, an owner a line."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.acts import shelving
from filmrack.desk.archive.filed import file_in
from filmrack.desk.archive.shelving_place import ShelvingPlace, place_named, term_in
from filmrack.desk.archive.sleeve_names import (
    AS_WRITTEN,
    refuse_number,
    refuse_order,
    says_end,
    says_nobody,
    what_else,
)
from filmrack.desk.archive.term_opening import ask_to_open
from filmrack.desk.archive.whose_roll import among
from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.session import Session
from filmrack.desk.taking_back import undo
from filmrack.domain.counted import counted, listed
from filmrack.domain.names import Person, unquoted
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.termcode import term_code
from filmrack.store import labelling, people, rolls
from filmrack.store.terms import closed
from filmrack.store.whoever import person_or_words

_MOST_NAMED = 6
"""Numbers that the sum of a sitting names before it says from where to where."""


def shelve(session: Session, line: str, term: str) -> Question:
    """Take up a binder to shelve in: `3`, `26S-02`, `24F 2`, with the film behind it where it is
    another. A term from before this room kept a record is opened first, if that is meant.

    Raises Refused for what is no binder or no film, and for a closed term.
    """
    named = place_named(line, term)
    if named is None:
        of_term = term_in(line)
        here = of_term or term
        other = "" if of_term else ", or of another term, as 25F-03"
        prompt = f"which binder? A number of {here}{other}"
        wanted = "type the number of the binder, as 3 or 26F-03, or press Esc"
        return Question(prompt, lambda text: shelve(session, text, here), kind="A", wanted=wanted)
    room = session.file.room()
    if term_code(named.term) not in {each.code for each in room.terms}:
        return ask_to_open(session, named.term, lambda: _Sitting(session, named).ask())
    code = room.term_of(named.term).code
    if code in closed(session.file.conn):
        raise Refused(
            f"no sleeve is shelved in term {code} because it is closed: “reopen term {code}” first"
        )
    return _Sitting(session, named).ask()


def foretell_shelving(session: Session, line: str, term: str) -> str:
    """Return where a line would shelve. Raises Refused as `shelve` does."""
    named = place_named(line, term)
    if named is None:
        return "shelve sleeves without a history: in which binder?"
    what = f", film {named.film}" if named.film else ""
    where = session.binder(named.term, named.binder)
    if term_code(named.term) not in {each.code for each in session.file.room().terms}:
        return f"shelve in {where}{what}: term {named.term} is opened first, if you say so"
    return f"shelve in {where}{what}: then an owner for each sleeve"


class _Sitting(NamedTuple):
    """Sleeves that are shelved one after the other: where to, and which were so far."""

    session: Session
    place: ShelvingPlace
    shelved: tuple[str, ...] = ()
    others: frozenset[int] = frozenset()
    """People of whom it was said that the sleeve is another than those that wait to be filed."""

    def ask(self, done: Said | None = None) -> Question:
        """Ask whose the next sleeve is; `done` is what was said of the one before."""
        where = self._where
        term = self.place.term
        in_term = where if term in where else f"{where} of {term}"
        other = f". Another term: Esc, then “shelve {_a_year_before(term)} {self.place.binder}”"
        first = Said(
            capital(in_term),
            "Type whose the first sleeve is, as it says; “nobody” where it is not known"
            f"{'' if self.place.term_named else other}",
        )
        said = done or first
        return Question(
            f"{in_term}: whose is the next sleeve? A name, or “nobody”; Esc ends",
            self._answer,
            headline=said.headline,
            words=said.words,
            done=done is not None,
            kind="P",
            undoes=True,
            left=self._sum(),
            wanted="whose it is was not said, so nothing is shelved: type what the sleeve says,"
            " “nobody” where it is not known, or press Esc",
        )

    @property
    def _where(self) -> str:
        return self.session.binder(self.place.term, self.place.binder)

    def _answer(self, text: str) -> Said | Question:
        """Take what a sleeve says: its owner, a word for none, `undo`, or a word for the end."""
        owner, conn = text.strip(), self.session.file.conn
        if says_end(owner) and shelving.named(conn, owner) is None:
            return self._sum() or Said(capital(self._where), "nothing was shelved")
        if owner.casefold() == "undo":
            return self._undo()
        if says_nobody(owner):
            return self._shelve("", "nobody known")
        if (written := unquoted(owner)) is not None:
            return self._as_written(written, "kept as written")
        refuse_number(self.session, owner)
        refuse_order(self.session, owner)
        what = what_else(self.session, owner)
        if what:
            return self._doubt(owner, what)
        whom = person_or_words(conn, owner, f"or {AS_WRITTEN}")
        if isinstance(whom, str):
            return self._as_written(owner, "kept as written, for nobody of the roster is called so")
        if shelving.named(conn, owner) is not None:
            return self._of(whom, whom.full)
        if people.period_of(conn, whom.number, self.place.term) is None:
            return self._of_another_year(owner, whom)
        return self._of(whom, f"{whom.full}, the only “{owner}” of the roster")

    def _of(self, whom: Person, told: str) -> Question:
        """Shelve somebody's sleeve, unless it may be one that only waits to be filed."""
        theirs = rolls.of_person(self.session.file.conn, whom.number)
        waiting = [
            roll for roll in theirs if roll.term == self.place.term and roll.place.kind == "sleeve"
        ]
        if waiting and whom.number not in self.others:
            return self._perhaps_waiting(whom, waiting, told)
        return self._shelve(f"person {whom.number}", told)

    def _as_written(self, owner: str, why: str) -> Question:
        return self._shelve(f"“{owner}”", f"“{owner}”, {why}")

    def _shelve(self, owner: str, told: str) -> Question:
        """Shelve the next sleeve; `told` is whose it is."""
        file, hand = self.session.file, self.session.hand()
        place = self.place
        shelved = shelving.shelve(
            file, hand, place.binder, owner=owner, term=place.term, film=place.film
        )
        words = f"{told}: in {self._where}. {_waiting(self.session)} in the queue"
        said = Said(shelved.number, words, done=True)
        return self._replace(shelved=(*self.shelved, shelved.number)).ask(said)

    def _undo(self) -> Question:
        if not self.shelved:
            raise Refused(
                "no sleeve was shelved here yet that “undo” could take back: type whose the first"
                " one is, or press Esc"
            )
        said = undo(self.session, None)
        return self._replace(shelved=self.shelved[:-1]).ask(said)

    def _doubt(self, owner: str, what: str) -> Question:
        """Ask whether a word that means something else is what the sleeve says."""

        def answer(text: str) -> Said | Question:
            if text.strip():
                return self._answer(text)
            return self._as_written(owner, "kept as written, for nobody of the roster is called so")

        return Question(
            f"Enter: the sleeve says “{owner}”; else type whose it is; Esc ends",
            answer,
            headline=f"Does the sleeve say “{owner}”?",
            words=f"“{owner}” is {what}, and nobody's name here. Nothing is shelved yet",
            kind="P",
            undoes=True,
            does=f"shelve it as “{owner}”",
            left=self._sum(),
        )

    def _of_another_year(self, owner: str, whom: Person) -> Question:
        """Ask whether somebody who was in no class of that term is whom an old sleeve means."""

        def answer(text: str) -> Said | Question:
            return self._answer(text) if text.strip() else self._of(whom, whom.full)

        return Question(
            f"Enter: {whom.full}'s; else type it again; Esc ends",
            answer,
            headline=f"Is “{owner}” {whom.full}?",
            words=f"nobody else here is called so, but the roster of {self.place.term} does not"
            f" have that name. Nothing is shelved yet: type it again {AS_WRITTEN}",
            kind="P",
            undoes=True,
            does=f"it is {whom.full}'s",
            left=self._sum(),
        )

    def _perhaps_waiting(self, whom: Person, waiting: list[Roll], told: str) -> Question:
        """Ask whether a sleeve is one that has its number already: it would be two rolls then."""

        def answer(text: str) -> Said | Question:
            if not text.strip():
                return self._replace(others=self.others | {whom.number})._of(whom, told)
            try:
                roll = among(self.session, waiting, text.strip())
            except Refused:
                roll = None
            return self._answer(text) if roll is None else self._file(roll)

        which = listed([roll.number for roll in waiting], _MOST_NAMED)
        of, files = ("", "that roll") if len(waiting) == 1 else ("one of ", "one of them")
        return Question(
            f"Enter: another old sleeve; its number files {files}; Esc ends",
            answer,
            headline=f"Is it {of}{which}?",
            words=f"{whom.full} has {which} sleeved and not filed yet: if the sleeve bears that"
            f" number, type it, and it is filed in {self._where}. Nothing is shelved yet",
            kind="R",
            undoes=True,
            does="shelve another old sleeve",
            left=self._sum(),
        )

    def _file(self, roll: Roll) -> Question:
        """File a roll that is on the record, as a sleeve that is scanned with a binder in hand."""
        said = file_in(self.session, roll, self.place.binder)
        return self._replace(shelved=(*self.shelved, roll.number)).ask(said)

    def _sum(self) -> Said | None:
        """Return how many sleeves were shelved, which, and that their labels wait."""
        if not self.shelved:
            return None
        many, waiting = len(self.shelved), _waiting(self.session)
        which = ", ".join(self.shelved)
        if many > _MOST_NAMED:
            which = f"{self.shelved[0]} to {self.shelved[-1]}"
        return Said(
            f"{counted(many, 'sleeve')} shelved in {self._where}",
            f"{which}. {waiting} in the queue: print on Labels",
        )


def _a_year_before(term: str) -> str:
    return f"{(int(term[:2]) - 1) % 100:02d}{term[2:]}"


def _waiting(session: Session) -> str:
    return counted(len(labelling.queued_sleeves(session.file.conn)), "label")
