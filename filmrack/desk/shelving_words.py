"""Shelving at the desk: binder in hand, sleeve after sleeve, an owner a line."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.acts import shelving
from filmrack.desk import archive_orders, verbs
from filmrack.desk.deeds import Deeds
from filmrack.desk.halves import TYPED_WORDS
from filmrack.desk.question import Question
from filmrack.desk.registry import COMMANDS, SCREENS
from filmrack.desk.said import Said, capital
from filmrack.desk.session import Session
from filmrack.domain.asking import parse
from filmrack.domain.binder import binder_number
from filmrack.domain.counted import counted
from filmrack.domain.film import film_named
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import labelling
from filmrack.store.terms import closed

_MOST_NAMED = 6
"""Numbers that the sum of a sitting names before it says from where to where."""


def shelve(session: Session, line: str, term: str) -> Question:
    """Take up a binder to shelve in: `3`, `26S-02`, with the film behind it where it is another.

    Raises Refused for what is no binder or no film.
    """
    named, film = _binder_and_film(line)
    if not named:
        prompt = f"which binder are they in? A number of {term}, or one of another term as 25F-03"
        wanted = "type the number of the binder, as 3 or 26F-03, or press Esc"
        return Question(prompt, lambda text: shelve(session, text, term), wanted=wanted)
    number = binder_number(named)
    of_binder = named.upper().removeprefix("BINDER").strip().rpartition("-")[0]
    code = session.file.room().term_of(of_binder or term).code
    if code in closed(session.file.conn):
        raise Refused(
            f"no sleeve is shelved in term {code} because it is closed: “reopen term {code}” first"
        )
    return _Sitting(session, code, number, film).ask()


def foretell_shelving(session: Session, line: str, term: str) -> str:
    """Return where a line would shelve. Raises Refused as `shelve` does."""
    named, film = _binder_and_film(line)
    if not named:
        return "shelve sleeves without a history: in which binder?"
    of_binder = named.upper().removeprefix("BINDER").strip().rpartition("-")[0]
    what = f", film {film}" if film else ""
    code = session.file.room().term_of(of_binder or term).code
    return (
        f"shelve in {session.binder(code, binder_number(named))}{what}:"
        " then an owner for each sleeve"
    )


def _binder_and_film(line: str) -> tuple[str, str | None]:
    words = line.split()
    if words and words[0].casefold() == "binder":
        del words[0]
    if len(words) < 2:
        return "".join(words), None
    return words[0], film_named(" ".join(words[1:])).text


class _Sitting(NamedTuple):
    """Sleeves that are shelved one after the other: where to, and which were so far."""

    session: Session
    term: str
    binder: int
    film: str | None
    shelved: tuple[str, ...] = ()

    def ask(self, done: Said | None = None) -> Question:
        """Ask whose the next sleeve is; `done` is what was said of the one before."""
        where = self.session.binder(self.term, self.binder)
        first = Said(
            capital(where),
            "Type whose the first sleeve is, as it says; Enter where nobody knows",
        )
        said = done or first
        return Question(
            f"{where}: whose is the next sleeve? Enter: nobody knows; esc ends",
            self._answer,
            headline=said.headline,
            words=said.words,
            done=done is not None,
            kind="P",
            does="shelve it without an owner",
            left=self._sum(),
        )

    def _answer(self, text: str) -> Question:
        owner = text.strip()
        if owner.casefold() == "undo":
            return self._undo()
        what = _what_else(self.session, owner)
        return self._doubt(owner, what) if what else self._shelve(owner)

    def _shelve(self, owner: str) -> Question:
        file, hand = self.session.file, self.session.hand()
        shelved = shelving.shelve(
            file, hand, self.binder, owner=owner, term=self.term, film=self.film
        )
        said = Said(shelved.number, _told(self.session, shelved, owner), done=True)
        return self._replace(shelved=(*self.shelved, shelved.number)).ask(said)

    def _undo(self) -> Question:
        if not self.shelved:
            raise Refused(
                "no sleeve was shelved here yet that “undo” could take back: type whose the first"
                " one is, or press Esc"
            )
        said = Deeds(self.session).undo(None)
        return self._replace(shelved=self.shelved[:-1]).ask(said)

    def _doubt(self, owner: str, what: str) -> Question:
        """Ask whether a word that means something else is what the sleeve says."""

        def answer(text: str) -> Question:
            return self._answer(text) if text.strip() else self._shelve(owner)

        return Question(
            f"Enter: the sleeve says “{owner}”; else type whose it is; esc ends",
            answer,
            headline=f"Does the sleeve say “{owner}”?",
            words=f"“{owner}” is {what}, and nobody's name here. Nothing is shelved yet",
            kind="P",
            does=f"shelve it as “{owner}”",
            left=self._sum(),
        )

    def _sum(self) -> Said | None:
        """Return how many sleeves were shelved, which, and that their labels wait."""
        if not self.shelved:
            return None
        many, waiting = len(self.shelved), _waiting(self.session)
        which = ", ".join(self.shelved)
        if many > _MOST_NAMED:
            which = f"{self.shelved[0]} to {self.shelved[-1]}"
        return Said(
            f"{counted(many, 'sleeve')} shelved in {self.session.binder(self.term, self.binder)}",
            f"{which}. {waiting} in the queue: print on Labels",
        )


def _what_else(session: Session, word: str) -> str:
    """Return what a word means at this desk if it is nobody's name: an order, a screen, a number;
    empty for a name.
    """
    said = " ".join(word.casefold().split())
    if not said or shelving.named(session.file.conn, word) is not None:
        return ""
    if said in {name for screen in SCREENS for name in screen.names}:
        return "the name of a screen"
    commands = {name for command in COMMANDS for name in command.names}
    try:
        ordered = archive_orders.order_of(word) is not None or bool(verbs.verb_first(word).verb)
        kinds = {part.kind for part in parse(word)}
    except Refused:
        return "like a code"
    if ordered or said in commands or said in {*TYPED_WORDS, *verbs.HOW}:
        return "an order"
    return "" if "name" in kinds else "a number or a place"


def _told(session: Session, roll: Roll, owner: str) -> str:
    person = session.owner(roll)
    whose = (
        person.full
        if person
        else f"“{owner}”, on no roster and kept as written"
        if owner
        else "nobody known"
    )
    binder = session.binder(roll.term, roll.place.number or 0)
    return f"{whose}: in {binder}. {_waiting(session)} in the queue"


def _waiting(session: Session) -> str:
    return counted(len(labelling.queued_sleeves(session.file.conn)), "label")
