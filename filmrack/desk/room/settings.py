"""The parts of the screen Room that can be changed: days and classes, what stands there, rules."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import cast

from filmrack.desk.question import Question
from filmrack.desk.room.calendar import take_days_off
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.lists import list_rows
from filmrack.desk.room.row import RoomRow
from filmrack.desk.room.turns import LETTERS_IN_TURN, WEEKS_IN_TURN, turn_rows
from filmrack.desk.room.value_row import setting_row
from filmrack.desk.room.words import NOT_SET
from filmrack.desk.said import Said
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.roomchange import (
    KeyPath,
    RoomValues,
    is_used,
    value_at,
    with_plan,
    with_value,
)
from filmrack.domain.roomfields import (
    INITIALS,
    MATERIALS,
    NAME,
    PERIOD_WORD,
    RULE_FIELDS,
    WEEKDAYS_TAUGHT,
    ZONE,
    Field,
)
from filmrack.domain.schooldays import WEEKDAYS, SchoolDays
from filmrack.domain.timetable import of_weekday

_DAYS = dict(
    zip(
        WEEKDAYS,
        ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),
        strict=True,
    )
)


def naming(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of what the room is called, and where it is."""
    yield _at(changing, NAME, ("name",))
    yield _at(changing, ZONE, ("zone",))
    yield _at(changing, PERIOD_WORD, ("period_word",))
    yield _at(changing, INITIALS, ("labels", INITIALS.key))


def timetable(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of the school's weekdays, its day letters, and the plan of each."""
    values = changing.values
    yield _at(changing, WEEKDAYS_TAUGHT, ("timetable", "weekdays"))
    for turn in (LETTERS_IN_TURN, WEEKS_IN_TURN):
        yield from turn_rows(changing, turn)
    yield RoomRow("Classes, and their times", heading=True)
    plans = cast(RoomValues, value_at(values, ("timetable", "plans")))
    days = changing.room.timetable.days
    needed = [] if days.rotation else [d for d in days.weekdays if not _by_week(days, d, plans)]
    for name in sorted({*plans, *needed}, key=partial(_order, changing.room)):
        yield _plan(changing, name, plans.get(name, []))
    yield RoomRow("add a plan …", "for one-off days", "add a plan", partial(_ask_plan, changing))


def days(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of days off, one-off days and terms: what is changed most comes first."""
    from_a_file = RoomRow(
        "from a calendar …",
        "an iCalendar file, by its path",
        "take days off from a file",
        partial(take_days_off, changing),
    )
    yield from list_rows(changing, "days", "days_off", adds_first=True, also=[from_a_file])
    yield from list_rows(changing, "days", "one_offs", adds_first=True)
    yield from list_rows(changing, "days", "terms", adds_first=True)


def periods(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of periods and their boxes."""
    yield from list_rows(changing, "periods", "periods")
    yield from list_rows(changing, "periods", "boxes")


def dryers(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of dryers and their rods."""
    yield from list_rows(changing, "dryers", "dryers")
    yield from list_rows(changing, "dryers", "rods")


def binders(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of binders."""
    words = "Binders are made as they fill; here one is given to a period."
    yield RoomRow("", changing.room.in_its_words(words))
    yield from list_rows(changing, "binders", "binders", titled=False)


def materials(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of film, pages and papers."""
    for field in MATERIALS:
        yield _at(changing, field, ("materials", field.key))
    yield from list_rows(changing, "materials", "papers")


def rules(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of the room's own numbers."""
    for field in RULE_FIELDS:
        yield _at(changing, field, ("rules", field.key))
    yield RoomRow("", " ")
    yield RoomRow("", f"{NOT_SET} Section Drying record shows what they taught.")


def _at(changing: Changing, field: Field, path: KeyPath) -> RoomRow:
    def put(room: Room, value: object) -> Room:
        return with_value(room, path, value)

    return setting_row(changing, field, value_at(changing.values, path), put)


def _order(room: Room, plan: str) -> tuple[bool, int, str]:
    """Plans come as their days do; those of no ordinary day come last."""
    rotation, first = room.timetable.days.rotation, plan.partition(" ")[0]
    turn = rotation.letters if rotation else WEEKDAYS
    day = plan if rotation else first
    return not is_used(room, plan), turn.index(day) if day in turn else 0, plan


def _by_week(days: SchoolDays, weekday: str, plans: RoomValues) -> bool:
    """Tell whether every kind of week has a plan of its own for a weekday."""
    weeks = days.weeks.letters if days.weeks else ()
    return bool(weeks) and all(name in plans for name in of_weekday(weekday, weeks)[1:])


def _plan(changing: Changing, name: str, plan: object) -> RoomRow:
    weekday, _, week = name.partition(" ")
    rotation = changing.room.timetable.days.rotation
    called = f"{_DAYS[weekday]} {week}".strip() if weekday in _DAYS else name
    if rotation is not None and name in rotation.letters:
        called = f"day {name}"
    field = Field("", called if is_used(changing.room, name) else f"{called} (one-off)", "plan")

    def put(room: Room, value: object) -> Room:
        return with_plan(room, name, cast(list[str], value))

    def remove() -> Said:
        return changing.do(lambda room: with_plan(room, name, None), f"Plan {called}", "removed")

    return setting_row(changing, field, plan, put, remove=remove)


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
