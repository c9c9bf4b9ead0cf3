"""The set-up of a new darkroom: a few questions, what each answer has to be, and its room."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import NamedTuple

from filmrack.acts.founding import make_darkroom_file
from filmrack.domain.clock import whole_day
from filmrack.domain.days import read_day
from filmrack.domain.default_room import (
    MOST_PERIODS,
    MOST_POSITIONS,
    PERIODS,
    POSITIONS,
    default_room,
)
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.schooldays import Term
from filmrack.domain.termcode import half_year
from filmrack.domain.timetable import zone_named


class Asked(NamedTuple):
    """One question of the set-up: what is asked, why, and what Enter alone answers."""

    name: str
    question: str
    words: str
    usual: str


_YEAR = 365
"""Days."""


@dataclass(slots=True)
class SetUp:
    """The answers so far; each is checked when it is given."""

    now: datetime
    zone: str
    answers: list[str] = field(default_factory=list)

    @property
    def asked(self) -> Asked | None:
        """Return the question that is next, or None when all are answered."""
        questions = self.questions()
        return questions[len(self.answers)] if len(self.answers) < len(questions) else None

    def questions(self) -> list[Asked]:
        """Return all questions; what is usual follows from what was answered before."""
        word = self.answers[0] if self.answers else "period"
        term = half_year(self._today)
        starts = self._starts or term.starts
        ends = half_year(starts).ends
        return [
            Asked(
                "word",
                "What is a class period called here?",
                "period, block, lesson, bell",
                "period",
            ),
            Asked(
                f"{word}s a day",
                f"How many {word}s a day use the darkroom?",
                "each gets a rod in the dryer and a box",
                str(PERIODS),
            ),
            Asked(
                "rod positions",
                "How many strips hang side by side on one rod?",
                "what fits without two strips touching",
                str(POSITIONS),
            ),
            Asked(
                "time zone",
                "In which time zone is the room?",
                "as in America/Chicago or Europe/Berlin",
                self.zone,
            ),
            Asked("term from", "When did this term begin?", "its first day", whole_day(starts)),
            Asked("term to", "When does it end?", "its last day", whole_day(ends)),
        ]

    def answer(self, text: str) -> None:
        """Take an answer; an empty one is the usual. Raises Refused for what cannot be meant."""
        asked = self.asked
        if asked is None:
            return
        given = text.strip() or asked.usual
        self.answers.append(_CHECKS[len(self.answers)](self, given))

    def back(self) -> bool:
        """Go one question back; False at the first one."""
        if not self.answers:
            return False
        self.answers.pop()
        return True

    def room(self) -> Room:
        """Return the room that was answered. Raises Refused as `default_room` does."""
        word, periods, positions, zone, _, last = self.answers
        starts = self._starts
        assert starts is not None
        room = default_room(
            zone,
            self._today,
            periods=int(periods),
            positions=int(positions),
            period_word=word,
        )
        term = Term(half_year(starts).code, starts, read_day(last, starts))
        days = room.timetable.days._replace(terms=(term,))
        return room._replace(timetable=room.timetable._replace(days=days))

    def found(self, path: Path) -> None:
        """Make the darkroom file. Raises Refused or FileTrouble as `make_darkroom_file` does."""
        make_darkroom_file(path, self.room(), self.now).close()

    @property
    def _starts(self) -> date | None:
        """Return the first day of the term, once it was answered."""
        return read_day(self.answers[4], self._today) if len(self.answers) > 4 else None

    @property
    def _today(self) -> date:
        return self.now.astimezone(zone_named(self.zone)).date()


def _word(set_up: SetUp, text: str) -> str:
    default_room(set_up.zone, set_up.now.date(), period_word=text)
    return " ".join(text.split())


def _number(most: int, what: str) -> Callable[[SetUp, str], str]:
    def check(_: SetUp, text: str) -> str:
        if not (text.isascii() and text.isdecimal() and 1 <= int(text[:9]) <= most):
            raise Refused(f"“{text[:20]}” is no number of {what}: type one from 1 to {most}")
        return str(int(text))

    return check


def _zone(_: SetUp, text: str) -> str:
    zone_named(text)
    return text


def _first(set_up: SetUp, text: str) -> str:
    # A day without a year is one of the last twelve months, for the term is on.
    day = read_day(text, set_up.now.date() - timedelta(days=_YEAR - 1))
    if not 1990 <= day.year <= 2199:
        raise Refused(f"{whole_day(day)} is in no term of today: give a day from 1990 to 2199")
    if day > set_up.now.date():
        raise Refused(
            f"{whole_day(day)} is still to come: give the first day of the term that is on"
        )
    return whole_day(day)


def _last(set_up: SetUp, text: str) -> str:
    first = read_day(set_up.answers[4], set_up.now.date())
    day = read_day(text, first)
    if not first <= day <= date(2199, 12, 31):
        raise Refused(
            f"{whole_day(day)} is not after the term's first day, {whole_day(first)}: give a later"
            " day"
        )
    return whole_day(day)


_CHECKS: tuple[Callable[[SetUp, str], str], ...] = (
    _word,
    _number(MOST_PERIODS, "periods"),
    _number(MOST_POSITIONS, "strips"),
    _zone,
    _first,
    _last,
)
