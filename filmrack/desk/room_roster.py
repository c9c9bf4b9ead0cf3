"""Taking people in on the screen Room: one by questions, or a roster from a file."""

from __future__ import annotations

from filmrack.acts.rostering import Rostered, take_roster
from filmrack.desk.file_typed import file_typed
from filmrack.desk.question import Question
from filmrack.desk.room_row import Changing
from filmrack.desk.said import Said
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
    ("given name", "as the school writes it", ""),
    ("family name", "Enter alone: none", "-"),
    ("called", "the name they go by. Enter alone: as given", "-"),
    ("school id", "tells two of one name apart. Enter alone: none", "-"),
    ("period", "which class they are in", ""),
)


def ask_person(changing: Changing, so_far: tuple[str, ...] = ()) -> Question:
    """Ask for a new person's names, school id and period, one after the other."""
    what, words, usual = _ASKED[len(so_far)]
    whose = f"{so_far[0]}: " if so_far else "A new person: "

    def answer(text: str) -> Said | Question:
        said = "" if text.strip() == "-" else clean(text, f"the {what}")
        if what == "period":
            return _add(changing, (*so_far, str(changing.read(PERIOD, text))))
        return ask_person(changing, (*so_far, said))

    return Question(
        what,
        answer,
        headline=f"{whose}{what}?",
        words=words,
        verbatim=True,
        usual=usual,
    )


def _add(changing: Changing, said: tuple[str, ...]) -> Said:
    changing.session.refuse_students(NOT_YOURS)
    given, family, called, school_id, period = said
    line = RosterLine(1, given, family, called or None, school_id or None, period)
    one = Roster(Mapping("typed", "", (), ()), (line,), ())
    done = take_roster(changing.session.file, one, changing.session.now)
    if done.refused:
        raise Refused(done.refused[0][1])
    words = f"is in {period}" if done.added else f"was known already, and is in {period}"
    return Said(f"{called or given} {family}".strip(), words, done=True)


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
    would = take_roster(session.file, read, session.now, write=False)

    def answer(text: str) -> Said:
        if not yes_or_no(text):
            return Said("The roster", "nothing was changed")
        done = take_roster(session.file, read, session.now)
        return Said(f"Roster of {done.term}", _told(done), done=True)

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
