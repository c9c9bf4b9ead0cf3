"""Taking people in on the screen Room: one by questions, or a roster from a file."""

from __future__ import annotations

from filmrack.acts.rostering import Rostered, take_roster, would_take_roster
from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing, refuse_code
from filmrack.desk.room.file_typed import file_typed
from filmrack.desk.said import WRONG, Said
from filmrack.domain.headings import IN_WORDS
from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused
from filmrack.domain.roomfields import Field
from filmrack.domain.roster import MOST_BYTES, Mapping, Roster, RosterLine, read_roster
from filmrack.domain.yes_or_no import yes_or_no

PERIOD = Field("period", "period", "period", ask="for this term; their rolls stay as they are")
_REFUSED = 3
"""Lines of a roster that are named before the rest is counted."""

NOT_YOURS = "people and rosters are the teacher's: ask the teacher, who types “teacher”"
"""What a student desk says instead."""

_ASKED = (
    ("given name", "as the school writes it", False),
    ("family name", "as the school writes it", True),
    ("called-by name", "the name they go by, if that is not the given one", True),
    ("school id", "the school's own number: it tells two of one name apart", True),
    ("period", "the class that they are in this term", False),
)
"""What is asked, what it is, and whether it can be left out."""


def ask_person(changing: Changing, so_far: tuple[str, ...] = ()) -> Question:
    """Ask for a new person's names, school id and period, one after the other; then, with all of
    it in sight, whether that is right. Nothing is kept before.
    """
    what, words, optional = _ASKED[len(so_far)]
    called = changing.room.in_its_words(what)
    whose = so_far[0] if so_far else "A new person"
    needed = f"a person needs a {called}: type it, or press Esc to leave"

    def answer(text: str) -> Question:
        said = "" if text.strip() == "-" else clean(text, f"the {called}")
        refuse_code(text)
        if what == "period":
            return _ask_whether_right(changing, (*so_far, str(changing.read(PERIOD, text))))
        if not said and not optional:
            raise Refused(needed)
        return ask_person(changing, (*so_far, said))

    return Question(
        f"{called}; Enter alone leaves it out" if optional else called,
        answer,
        headline=f"{whose}, {len(so_far) + 1} of {len(_ASKED)}: {called}?",
        words=words,
        verbatim=True,
        does="leave it out" if optional else "",
        wanted="" if optional else needed,
    )


def _ask_whether_right(changing: Changing, said: tuple[str, ...]) -> Question:
    given, family, called, school_id, period = said
    name = f"{given} {family}".strip()

    def answer(text: str) -> Said:
        if text and not yes_or_no(text, "Enter adds this person, Esc leaves without"):
            return Said(name, "is not added: nothing was changed")
        return _add(changing, said)

    told = [
        f"given name {given}",
        f"family name {family or 'none'}",
        f"called {called or 'as given'}",
        f"school id {school_id or 'none'}",
        changing.room.in_its_words(f"period {period}") if period.isdecimal() else period,
    ]
    return Question(
        "Enter: add this person; Esc: leave it",
        answer,
        headline=f"Add {name}?",
        words=f"{', '.join(told)}. Nothing is saved yet",
        verbatim=True,
        does="add this person",
        left=Said(name, "is not added: nothing was changed"),
    )


def _add(changing: Changing, said: tuple[str, ...]) -> Said:
    session = changing.session
    session.refuse_students(NOT_YOURS)
    given, family, called, school_id, period = said
    line = RosterLine(1, given, family, called or None, school_id or None, period)
    one = Roster(Mapping("typed", "", (), ()), (line,), ())
    done = take_roster(session.file, session.hand(), one)
    if done.refused:
        raise Refused(done.refused[0][1])
    words = f"is in {period}" if done.added else f"was known already, and is in {period}"
    undo = "" if done.unchanged else f". {WRONG}"
    return Said(f"{called or given} {family}".strip(), f"{words}{undo}", done=True)


def ask_roster(changing: Changing) -> Question:
    """Ask for the file of a roster, then whether it is read rightly."""

    def answer(text: str) -> Question:
        changing.session.refuse_students(NOT_YOURS)
        read = read_roster(file_typed(text, MOST_BYTES), changing.room.period_word)
        return _ask_whether(changing, read)

    return Question(
        "the path of a file such as ~/Downloads/period3.csv",
        answer,
        headline="Which roster?",
        words="CSV with a heading above each column. How it is read is shown before anything is"
        " written",
        verbatim=True,
    )


def _ask_whether(changing: Changing, read: Roster) -> Question:
    session = changing.session
    would = would_take_roster(session.file, session.now, read)

    def answer(text: str) -> Said:
        if not yes_or_no(text):
            return Said("The roster", "nothing was changed")
        done = take_roster(session.file, session.hand(), read)
        undo = f". {WRONG}" if done.added or done.updated else ""
        return Said(f"Roster of {done.term}", f"{_told(done)}{undo}", done=True)

    return Question(
        "yes or no",
        answer,
        headline=f"Is it read rightly, for term {would.term}?",
        words=f"{_mapping_told(read.mapping)}. It would be: {_told(would)}",
        verbatim=True,
    )


def _mapping_told(mapping: Mapping) -> str:
    """Return how a roster was read, in one sentence."""
    used = ", ".join(f"{heading} is the {IN_WORDS[what]}" for heading, what in mapping.columns)
    unused = f"; not used: {', '.join(mapping.not_used)}" if mapping.not_used else ""
    return f"{used}{unused} ({mapping.encoding}, {mapping.separator})"


def _told(done: Rostered) -> str:
    refused = "; ".join(f"line {line}: {why}" for line, why in done.refused[:_REFUSED])
    more = len(done.refused) - _REFUSED
    told = f"{done.added} added, {done.updated} changed, {done.unchanged} as before"
    if not done.refused:
        return f"{told}, none refused"
    return f"{told}, {len(done.refused)} refused: {refused}{f'; {more} more' if more > 0 else ''}"
