"""The timetable on the screen Room: weekdays, letters in turn, the classes of each kind of day."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import cast

from filmrack.desk.question import Question
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.row import RoomRow
from filmrack.desk.room.turns import LETTERS_IN_TURN, WEEKS_IN_TURN, turn_rows
from filmrack.desk.room.value_row import kept_row, setting_row
from filmrack.desk.said import Said
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.domain.roomchange import RoomValues, is_used, value_at, with_plan
from filmrack.domain.roomfields import WEEKDAYS_TAUGHT, Field
from filmrack.domain.schooldays import WEEKDAYS, SchoolDays
from filmrack.domain.timetable import of_weekday

_DAYS = dict(
    zip(
        WEEKDAYS,
        ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),
        strict=True,
    )
)


def rows(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of the school's weekdays, its day letters, and the plan of each."""
    values = changing.values
    yield kept_row(changing, WEEKDAYS_TAUGHT, ("timetable", "weekdays"))
    for turn in (LETTERS_IN_TURN, WEEKS_IN_TURN):
        yield from turn_rows(changing, turn)
    yield RoomRow("Classes, and their times", heading=True)
    plans = cast(RoomValues, value_at(values, ("timetable", "plans")))
    days = changing.room.timetable.days
    needed = [] if days.rotation else [d for d in days.weekdays if not _by_week(days, d, plans)]
    for name in sorted({*plans, *needed}, key=partial(_order, changing.room)):
        yield _plan(changing, name, plans.get(name, []))
    yield RoomRow("add a plan …", "for one-off days", "add a plan", partial(_ask_plan, changing))


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
            raise Refused(f"there is a plan “{name[:30]}” already: change that one")
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
