"""Days off from an iCalendar file, named by its path and looked at before they are taken."""

from __future__ import annotations

from filmrack.acts.refitting import add_days_off
from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.file_typed import file_typed
from filmrack.desk.said import WRONG, Said
from filmrack.domain.calendarfile import MOST_BYTES, days_off_within
from filmrack.domain.clock import span_words
from filmrack.domain.counted import listed
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import DayOff
from filmrack.domain.yes_or_no import yes_or_no

_NAMED = 6
"""Days that are named before the rest is counted."""


def take_days_off(changing: Changing) -> Question:
    """Ask for the file, then for words that its events should have, then whether that is meant."""

    def answer(text: str) -> Question:
        data = file_typed(text, MOST_BYTES)
        _found(changing, data, "")
        return _ask_words(changing, data)

    return Question(
        "the path of a file such as ~/Downloads/school.ics",
        answer,
        headline="Which calendar file?",
        words="iCalendar, .ics: its whole-day events within the terms. They are shown before"
        " anything is written",
        verbatim=True,
    )


def _ask_words(changing: Changing, data: bytes) -> Question:
    def answer(text: str) -> Question:
        words = "" if text.strip().casefold() == "all" else text
        return _ask_whether(changing, _found(changing, data, words))

    found = _found(changing, data, "")
    return Question(
        "all, or words such as: no school",
        answer,
        headline="All of them, or those with some words?",
        words=f"{_named(found)}. Enter alone: all",
        verbatim=True,
        usual="all",
    )


def _ask_whether(changing: Changing, found: list[DayOff]) -> Question:
    def answer(text: str) -> Said:
        if not yes_or_no(text):
            return Said("Days off", "nothing was changed")
        added = add_days_off(changing.session.file, changing.session.hand(), found)
        words = f"{_named(added)}. {WRONG}" if added else "all were there already"
        return Said("Days off", words, done=True)

    return Question(
        "yes or no", answer, headline="Are these days off?", words=_named(found), verbatim=True
    )


def _found(changing: Changing, data: bytes, words: str) -> list[DayOff]:
    found = days_off_within(data, changing.room.terms, words)
    if not found:
        more = " with these words" if words else ""
        raise Refused(f"no whole-day event{more} falls within the terms: try other words or a file")
    return found


def _named(found: list[DayOff]) -> str:
    days = [f"{off.name} {span_words(off.first, off.last)}" for off in found]
    return listed(days, _NAMED)
