"""Shelving at the desk: binder in hand, sleeve after sleeve, an owner a line."""

from __future__ import annotations

from filmrack.acts import shelving
from filmrack.desk.deeds import Deeds
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.binder import binder_number
from filmrack.domain.counted import counted
from filmrack.domain.film import film_named
from filmrack.domain.roll import Roll
from filmrack.store import labelling


def shelve(session: Session, line: str, term: str) -> Question:
    """Take up a binder to shelve in: `3`, `26S-02`, with the film behind it where it is another.

    Raises Refused for what is no binder or no film.
    """
    named, film = _binder_and_film(line)
    if not named:
        prompt = f"which binder are they in? A number of {term}, or one of another term as 25F-03"
        return Question(prompt, lambda text: shelve(session, text, term))
    number = binder_number(named)
    of_binder = named.upper().removeprefix("BINDER").strip().rpartition("-")[0]
    return _next(session, of_binder or term, number, film)


def foretell_shelving(line: str, term: str) -> str:
    """Return where a line would shelve. Raises Refused as `shelve` does."""
    named, film = _binder_and_film(line)
    if not named:
        return "shelve sleeves without a history: in which binder?"
    of_binder = named.upper().removeprefix("BINDER").strip().rpartition("-")[0]
    what = f", film {film}" if film else ""
    return (
        f"shelve in binder {of_binder or term}-{binder_number(named):02d}{what}:"
        " then an owner for each sleeve"
    )


def _binder_and_film(line: str) -> tuple[str, str | None]:
    words = line.split()
    if words and words[0].casefold() == "binder":
        del words[0]
    if len(words) < 2:
        return "".join(words), None
    return words[0], film_named(" ".join(words[1:])).text


def _next(
    session: Session, term: str, binder: int, film: str | None, done: Said | None = None
) -> Question:
    """Ask whose the next sleeve is; `done` is what was said of the one before."""

    def answer(text: str) -> Question:
        owner = text.strip()
        if owner.casefold() == "undo":
            said = Deeds(session).undo(None)
        else:
            file, hand = session.file, session.hand()
            shelved = shelving.shelve(file, hand, binder, owner=owner, term=term, film=film)
            said = Said(shelved.number, _told(session, shelved, owner), done=True)
        return _next(session, term, binder, film, said)

    first = f"Binder {term}-{binder:02d}"
    words = "Type whose the first sleeve is, as it says; Enter where nobody knows"
    return Question(
        f"binder {term}-{binder:02d}: whose is the next sleeve? Enter: nobody knows; esc ends",
        answer,
        headline=done.headline if done else first,
        words=done.words if done else words,
        done=done is not None,
        kind="P",
        does="shelve it without an owner",
    )


def _told(session: Session, roll: Roll, owner: str) -> str:
    person = session.owner(roll)
    whose = person.full if person else f"“{owner}”, kept as written" if owner else "nobody known"
    waiting = len(labelling.queued_sleeves(session.file.conn))
    return f"{whose}: in binder {roll.place.number}. {counted(waiting, 'label')} in the queue"
