"""A new person on the screen Room: asked for by questions, and added when all of it was seen."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.acts.rostering import take_roster
from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing, refuse_code
from filmrack.desk.said import WRONG, Said
from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused
from filmrack.domain.roomfields import Field
from filmrack.domain.roster import Mapping, Roster, RosterLine
from filmrack.domain.yes_or_no import yes_or_no

PERIOD = Field("period", "period", "period", ask="for this term; their rolls stay as they are")

NOT_YOURS = "people and rosters are the teacher's: ask the teacher, who types “teacher”"
"""What a student desk says instead."""


class _Asked(NamedTuple):
    """One thing that is asked of a new person, and whether it can be left out."""

    what: str
    words: str
    optional: bool = False


_ASKED = (
    _Asked("given name", "as the school writes it"),
    _Asked("family name", "as the school writes it", optional=True),
    _Asked("called-by name", "the name they go by, if that is not the given one", optional=True),
    _Asked("school id", "the school's own number: it tells two of one name apart", optional=True),
    _Asked("period", "the class that they are in this term"),
)
"""All that is asked, in this order, which is that of the fields of `_NewPerson`."""


class _NewPerson(NamedTuple):
    """All that was typed of a new person; empty where it was left out."""

    given: str
    family: str
    called: str
    school_id: str
    period: str

    @property
    def name(self) -> str:
        """Return the name in full, as it will be said of them."""
        return f"{self.called or self.given} {self.family}".strip()


def ask_person(changing: Changing, so_far: tuple[str, ...] = ()) -> Question:
    """Ask for a new person's names, school id and period, one after the other; then, with all of
    it in sight, whether that is right. Nothing is kept before.
    """
    asked = _ASKED[len(so_far)]
    called = changing.room.in_its_words(asked.what)
    whose = so_far[0] if so_far else "A new person"
    needed = f"a person needs a {called}: type it, or press Esc to leave"

    def answer(text: str) -> Question:
        said = "" if text.strip() == "-" else clean(text, f"the {called}")
        refuse_code(text)
        if asked.what == "period":
            period = str(changing.read(PERIOD, text))
            return _ask_whether_right(changing, _NewPerson._make((*so_far, period)))
        if not said and not asked.optional:
            raise Refused(needed)
        return ask_person(changing, (*so_far, said))

    return Question(
        f"{called}; Enter alone leaves it out" if asked.optional else called,
        answer,
        headline=f"{whose}, {len(so_far) + 1} of {len(_ASKED)}: {called}?",
        words=asked.words,
        verbatim=True,
        does="leave it out" if asked.optional else "",
        wanted="" if asked.optional else needed,
    )


def _ask_whether_right(changing: Changing, new: _NewPerson) -> Question:
    name, period = f"{new.given} {new.family}".strip(), new.period
    left = Said(name, "is not added: nothing was changed")

    def answer(text: str) -> Said:
        if text and not yes_or_no(text, "Enter adds this person, Esc leaves without"):
            return left
        return _add(changing, new)

    told = [
        f"given name {new.given}",
        f"family name {new.family or 'none'}",
        f"called {new.called or 'as given'}",
        f"school id {new.school_id or 'none'}",
        changing.room.in_its_words(f"period {period}") if period.isdecimal() else period,
    ]
    return Question(
        "Enter: add this person; Esc: leave it",
        answer,
        headline=f"Add {name}?",
        words=f"{', '.join(told)}. Nothing is saved yet",
        verbatim=True,
        does="add this person",
        left=left,
    )


def _add(changing: Changing, new: _NewPerson) -> Said:
    session = changing.session
    session.refuse_students(NOT_YOURS)
    called, school_id = new.called or None, new.school_id or None
    line = RosterLine(1, new.given, new.family, called, school_id, new.period)
    done = take_roster(
        session.file, session.hand(), Roster(Mapping("typed", "", (), ()), (line,), ())
    )
    if done.refused:
        raise Refused(done.refused[0][1])
    was_known = "" if done.added else "was known already, and "
    undo = "" if done.unchanged else f". {WRONG}"
    return Said(new.name, f"{was_known}is in {new.period}{undo}", done=True)
