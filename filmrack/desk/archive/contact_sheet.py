"""A contact sheet made: on the room's paper where it takes the page, else the line asks which."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts import archiving
from filmrack.desk.ahead import contact_words, labels_wait, papers_asked
from filmrack.desk.archive.paper_words import paper_called
from filmrack.desk.question import Question
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.domain.contact import papers_of
from filmrack.domain.counted import frames_words
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll


def contact_sheet(
    session: Session, roll: Roll, whom: str, paper: str = "", picks: Sequence[int] = ()
) -> Said | Question:
    """Keep that a contact sheet was made; ask on which paper where none is said and the film does
    not fit the room's. `whom` is how the answer names the roll.
    """
    materials = session.file.room().materials
    fitting = [] if paper or session.closed_words(roll) else papers_asked(roll, materials)
    if not fitting:
        made = archiving.contact(session.file, session.hand(), roll.id, paper or None, picks)
        picked = f", picks {frames_words(picks)}" if picks else ""
        later = "" if picks else ". Picks? Type “picks 3 17”"
        waits = labels_wait(session, made)
        words = f"contact sheet made {contact_words(session, made)}{picked}{waits}{later}. {WRONG}"
        return Said(whom, words, select=roll.id, done=True)

    def answer(text: str) -> Said | Question:
        named = paper_called(text, materials)
        if not named:
            raise Refused(
                f"“{text[:20]}” is no paper here: the papers are"
                f" {', '.join(papers_of(materials.more_papers))}"
            )
        return contact_sheet(session, roll, whom, named, picks)

    return Question(
        f"{whom}: made on which paper?",
        answer,
        words=f"it does not fit on {materials.paper}; it fits on {', '.join(fitting)}",
    )
