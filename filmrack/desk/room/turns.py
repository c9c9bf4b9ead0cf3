"""Letters in turn on the screen Room: of days, or of weeks of several kinds."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from datetime import date
from functools import partial
from typing import NamedTuple, cast

from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.row import RoomRow
from filmrack.desk.room.value_row import kept_row
from filmrack.desk.said import Said, capital
from filmrack.domain.clock import whole_day
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.roomchange import value_at, with_letters, with_weeks
from filmrack.domain.roomfields import FIRST_LETTER, FIRST_WEEK, LETTERS, WEEKS, Field
from filmrack.domain.roomtyped import shown, to_edit, typed

_NO_LETTERS = frozenset({"off", "day", "days"})
"""Words that say something else of days: somebody typed them behind what stood in the line."""

_Put = Callable[[Room, Sequence[str], date | None], Room]


class InTurn(NamedTuple):
    """What is in turn: its letters, the day of the first one, and how a room is given them."""

    letters: Field
    first: Field
    put: _Put
    words: str
    first_asked: str


LETTERS_IN_TURN = InTurn(
    LETTERS,
    FIRST_LETTER,
    with_letters,
    "All in turn, one for each school day; a day off leaves its letter to the next",
    "On which day is it {}?",
)
WEEKS_IN_TURN = InTurn(
    WEEKS,
    FIRST_WEEK,
    with_weeks,
    "All in turn, one for each week with school; each weekday then has a plan in each kind of week",
    "On which day, any of its week, is it week {}?",
)


def turn_rows(changing: Changing, turn: InTurn) -> Iterator[RoomRow]:
    """Return the rows of letters in turn, and of the first one's day where there are some."""
    now = cast(list[str] | None, value_at(changing.values, ("timetable", turn.letters.key)))
    yield RoomRow(
        turn.letters.name,
        shown(turn.letters, now),
        "change them",
        partial(_ask_letters, changing, turn, now),
    )
    if now:
        yield kept_row(changing, turn.first, ("timetable", turn.first.key))


def _ask_letters(changing: Changing, turn: InTurn, now: list[str] | None) -> Question:
    name = capital(turn.letters.name)

    def answer(text: str) -> Said | Question:
        letters = cast(list[str] | None, typed(turn.letters, text)) or []
        if not letters:
            words = f"they were {shown(turn.letters, now)}"
            return changing.do(lambda room: turn.put(room, [], None), f"{name}: none", words)
        strange = next((each for each in letters if each.casefold() in _NO_LETTERS), None)
        if strange is not None:
            raise Refused(
                f"“{strange}” is none of the {turn.letters.name}: type them all with spaces between"
                f" them, as {turn.letters.ask.rpartition(': ')[2]}, or press Esc"
            )
        # Whether they can be in turn is asked before the first one's day.
        turn.put(changing.room, letters, changing.today)
        return _ask_first(changing, turn, letters)

    return Question(
        f"{turn.letters.ask.rpartition(': ')[2]}, or none",
        answer,
        headline=f"{name}?",
        words=f"now {shown(turn.letters, now)}. {turn.words}",
        verbatim=True,
        given=to_edit(turn.letters, now),
    )


def _ask_first(changing: Changing, turn: InTurn, letters: list[str]) -> Question:
    def answer(text: str) -> Said:
        first = cast(date, typed(turn.first, text))
        headline = f"{capital(turn.letters.name)}: {' '.join(letters)}"
        words = f"in turn from {whole_day(first)} on; the plan of each stands below"
        return changing.do(lambda room: turn.put(room, letters, first), headline, words)

    usual = value_at(changing.values, ("timetable", turn.first.key)) or changing.today
    return Question(
        str(usual),
        answer,
        headline=turn.first_asked.format(letters[0]),
        words=f"{' '.join(letters)} follow each other. Enter alone: {usual}",
        verbatim=True,
        usual=str(usual),
    )
