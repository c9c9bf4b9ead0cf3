"""The parts of the screen Room that can be changed: days and classes, what stands there, rules."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import partial
from typing import cast

from filmrack.desk.question import Question
from filmrack.desk.room_calendar import take_days_off
from filmrack.desk.room_lists import list_rows
from filmrack.desk.room_row import Changing, Row
from filmrack.desk.said import Said
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.roomchange import (
    Path,
    Values,
    is_used,
    value_at,
    with_letters,
    with_plan,
    with_value,
)
from filmrack.domain.roomfields import (
    FIRST_LETTER,
    INITIALS,
    LETTERS,
    MATERIALS,
    NAME,
    PERIOD_WORD,
    RULE_FIELDS,
    WEEKDAYS_TAUGHT,
    ZONE,
    Field,
)
from filmrack.domain.roomtyped import shown, to_edit, typed
from filmrack.domain.schooldays import WEEKDAYS

_DAYS = dict(
    zip(
        WEEKDAYS,
        ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),
        strict=True,
    )
)


def naming(changing: Changing) -> Iterator[Row]:
    """Return the rows of what the room is called, and where it is."""
    yield _at(changing, NAME, ("name",))
    yield _at(changing, ZONE, ("zone",))
    yield _at(changing, PERIOD_WORD, ("period_word",))
    yield _at(changing, INITIALS, ("labels", INITIALS.key))


def timetable(changing: Changing) -> Iterator[Row]:
    """Return the rows of the school's weekdays, its day letters, and the plan of each."""
    values = changing.values
    yield _at(changing, WEEKDAYS_TAUGHT, ("timetable", "weekdays"))
    letters = value_at(values, ("timetable", "letters"))
    yield Row(
        LETTERS.name,
        shown(LETTERS, letters),
        "change them",
        partial(_ask_letters, changing, cast(list[str] | None, letters)),
    )
    if letters:
        yield _at(changing, FIRST_LETTER, ("timetable", FIRST_LETTER.key))
    yield Row("Classes, and their times", heading=True)
    plans = cast(Values, value_at(values, ("timetable", "plans")))
    weekdays = changing.room.timetable.days.weekdays
    turn = cast(list[str], letters) if letters else list(weekdays)
    for name in [*turn, *(name for name in plans if name not in turn)]:
        yield _plan(changing, name, plans.get(name, []))
    yield Row("add a plan …", "for one-off days", "add a plan", partial(_ask_plan, changing))


def days(changing: Changing) -> Iterator[Row]:
    """Return the rows of terms, days off and one-off days."""
    yield from list_rows(changing, "days", "terms")
    yield from list_rows(changing, "days", "days_off")
    yield Row(
        "from a calendar …",
        "an iCalendar file, by its path",
        "take days off from a file",
        partial(take_days_off, changing),
    )
    yield from list_rows(changing, "days", "one_offs")


def periods(changing: Changing) -> Iterator[Row]:
    """Return the rows of periods and their boxes."""
    yield from list_rows(changing, "periods", "periods")
    yield from list_rows(changing, "periods", "boxes")


def dryers(changing: Changing) -> Iterator[Row]:
    """Return the rows of dryers and their rods."""
    yield from list_rows(changing, "dryers", "dryers")
    yield from list_rows(changing, "dryers", "rods")


def binders(changing: Changing) -> Iterator[Row]:
    """Return the rows of binders."""
    yield Row("", "Binders are made as they fill; here one is given to a period.")
    yield from list_rows(changing, "binders", "binders", titled=False)


def materials(changing: Changing) -> Iterator[Row]:
    """Return the rows of film, pages and papers."""
    for field in MATERIALS:
        yield _at(changing, field, ("materials", field.key))
    yield from list_rows(changing, "materials", "papers")


def rules(changing: Changing) -> Iterator[Row]:
    """Return the rows of the room's own numbers."""
    for field in RULE_FIELDS:
        yield _at(changing, field, ("rules", field.key))


def _at(changing: Changing, field: Field, path: Path) -> Row:
    def put(room: Room, value: object) -> Room:
        return with_value(room, path, value)

    return changing.row(field, value_at(changing.values, path), put)


def _plan(changing: Changing, name: str, plan: object) -> Row:
    called = _DAYS.get(name, name)
    field = Field("", called if is_used(changing.room, name) else f"{called} (one-off)", "plan")

    def put(room: Room, value: object) -> Room:
        return with_plan(room, name, cast(list[str], value))

    def remove() -> Said:
        return changing.do(lambda room: with_plan(room, name, None), f"Plan {called}", "removed")

    return changing.row(field, plan, put, remove=remove)


def _ask_letters(changing: Changing, now: list[str] | None) -> Question:
    def answer(text: str) -> Said | Question:
        letters = cast(list[str] | None, typed(LETTERS, text)) or []
        if not letters:
            change = partial(with_letters, letters=[], first=None)
            return changing.do(change, "Day letters: none", f"they were {shown(LETTERS, now)}")
        # Whether they can be day letters is asked before their first day.
        with_letters(changing.room, letters, _today(changing))
        return _ask_first(changing, letters)

    return Question(
        "A B C D E F, or none",
        answer,
        headline="Day letters?",
        words=f"now {shown(LETTERS, now)}. All in turn; weeks of two kinds are ten letters, one for"
        " each day",
        verbatim=True,
        given=to_edit(LETTERS, now),
    )


def _ask_first(changing: Changing, letters: list[str]) -> Question:
    def answer(text: str) -> Said:
        first = cast(date, typed(FIRST_LETTER, text))
        words = f"in turn from {first} on; each has a plan here"
        change = partial(with_letters, letters=letters, first=first)
        return changing.do(change, f"Day letters: {' '.join(letters)}", words)

    rotation = changing.room.timetable.days.rotation
    usual = str(rotation.first_day if rotation else _today(changing))
    return Question(
        usual,
        answer,
        headline=f"On which day is it {letters[0]}?",
        words=f"any school day that has this letter; the others follow. Enter alone: {usual}",
        verbatim=True,
        usual=usual,
    )


def _ask_plan(changing: Changing) -> Question:
    def answer(text: str) -> Said:
        name = " ".join(text.split())
        if name in changing.room.timetable.plans:
            raise Refused(f"there is a plan {name[:30]!r} already: change that one")
        put = partial(with_plan, name=name, plan=[])
        words = "added: type its classes in its row, then name it in a one-off day"
        return changing.do(put, f"Plan {name}", words)

    return Question(
        "its name: early",
        answer,
        headline="A new plan: name?",
        words="a plain name, such as early or assembly",
        verbatim=True,
    )


def _today(changing: Changing) -> date:
    return changing.room.timetable.local_date(changing.session.now)
