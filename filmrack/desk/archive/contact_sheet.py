"""A contact sheet made: on the room's paper where it takes the page, else the line asks which.

And frames picked on it, when somebody has looked at it, or picked no longer.
"""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.acts import archiving
from filmrack.desk.ahead import contact_words, labels_wait, papers_asked
from filmrack.desk.archive.paper_words import paper_called
from filmrack.desk.archive.replies import archive_headline, done
from filmrack.desk.question import Question
from filmrack.desk.said import WRONG, Said
from filmrack.desk.session import Session
from filmrack.domain.contact import papers_of, picks_in
from filmrack.domain.cutting import refuse_unpicked
from filmrack.domain.journey import why_not
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
        picked = f", picks {', '.join(map(str, picks))}" if picks else ""
        waits = labels_wait(session, made)
        words = f"contact sheet made {contact_words(session, made)}{picked}{waits}. {WRONG}"
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


def pick(session: Session, roll: Roll, frames: str) -> Said | Question:
    """Keep frames picked on the last contact sheet of a roll; ask for them where none are said.

    Raises Refused for a roll without a sheet: nothing is asked then.
    """

    def picked(text: str) -> Said:
        made = archiving.picks(session.file, session.hand(), roll.id, picks_in(text))
        there = ", ".join(map(str, made.sheets[-1].picks))
        return done(session, roll, f"picked on its contact sheet: {there}")

    if frames.strip() or session.closed_words(roll):
        return picked(frames)
    if why := why_not(roll, "picks"):
        raise Refused(why)
    return Question(
        "which frames? Such as 12, 14", picked, headline=archive_headline(session, roll)
    )


def unpick(session: Session, roll: Roll, frames: str) -> Said | Question:
    """Keep that frames are picked no longer; ask for them where none are said.

    Raises Refused for a roll without picks: nothing is asked then.
    """

    def taken_back(text: str) -> Said:
        wrong = sorted(set(picks_in(text)))
        left = archiving.unpick(session.file, session.hand(), roll.id, wrong).picks
        return done(session, roll, unpick_words(wrong, left))

    if frames.strip() or session.closed_words(roll):
        return taken_back(frames)
    if not roll.picks:
        refuse_unpicked(roll, [])
    picked = ", ".join(map(str, roll.picks))
    return Question(
        f"which picks are taken back? It has {picked}",
        taken_back,
        headline=archive_headline(session, roll),
    )


def unpick_words(wrong: Sequence[int], left: Sequence[int]) -> str:
    """Return which picks are taken back, and which are left."""
    stays = f"{', '.join(map(str, left))} stay picked" if left else "none is left"
    return f"no longer picked: {', '.join(map(str, wrong))}; {stays}"
