"""A roster taken in on the screen Room: a file by its path, shown as read before it is written."""

from __future__ import annotations

from filmrack.acts.rostering import Rostered, take_roster, would_take_roster
from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.file_typed import file_typed
from filmrack.desk.room.new_person import NOT_YOURS
from filmrack.desk.said import WRONG, Said
from filmrack.domain.headings import IN_WORDS
from filmrack.domain.roster import MOST_BYTES, Mapping, Roster, read_roster
from filmrack.domain.yes_or_no import yes_or_no

_REFUSED = 3
"""Lines of a roster that are named before the rest is counted."""


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
    told = f"{done.added} added, {done.updated} updated, {done.unchanged} unchanged"
    if not done.refused:
        return f"{told}, none refused"
    return f"{told}, {len(done.refused)} refused: {refused}{f'; {more} more' if more > 0 else ''}"
