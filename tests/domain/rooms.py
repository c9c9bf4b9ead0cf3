"""Rooms of all kinds, for laws that hold of every room."""

from __future__ import annotations

from datetime import date, time, timedelta

from hypothesis import strategies as st

from filmrack.domain.contact import Paper
from filmrack.domain.dayplan import DayPlan, Slot
from filmrack.domain.room import Binder, Box, Dryer, Period, Rod, Room
from filmrack.domain.roomfile import in_order
from filmrack.domain.roomrules import Materials, Rules
from filmrack.domain.schooldays import WEEKDAYS, DayOff, OneOff, Rotation, SchoolDays, Term
from filmrack.domain.timetable import Timetable, zone_named

FIRST = date(2026, 8, 3)
days = st.integers(0, 300).map(lambda ahead: FIRST + timedelta(days=ahead))
names = st.sampled_from(
    [
        "A",
        "B",
        "Block C",
        "Block 2",
        "3",
        "Åse's",
        'The "dark" one',
        "back\\slash",
        "日本",
        "# 7",
        "x",
    ]
)
numbers = st.integers(1, 12)


def plans(periods: list[int]) -> st.SearchStrategy[DayPlan]:
    def plan(chosen: list[int]) -> DayPlan:
        return tuple(
            Slot(period, time(8 + place), time(8 + place, 45))
            for place, period in enumerate(chosen)
        )

    return st.lists(st.sampled_from(periods), max_size=4).map(plan)


@st.composite
def rooms(draw: st.DrawFn) -> Room:
    """Draw a room that holds together."""

    def some(strategy: st.SearchStrategy[int], least: int = 0, most: int = 4) -> list[int]:
        return draw(st.lists(strategy, min_size=least, max_size=most, unique=True))

    period_numbers = some(numbers, 1)
    period_names = draw(
        st.lists(names, min_size=4, max_size=4, unique_by=lambda name: name.casefold())
    )
    a_period = st.sampled_from(period_numbers)
    dryers = some(numbers, 1, 2)
    boxed = some(a_period)
    codes = draw(st.lists(st.sampled_from(["26F", "27S", "27W"]), min_size=1, unique=True))
    letters = draw(
        st.none() | st.lists(st.sampled_from(["A", "B", "Day 3"]), min_size=1, unique=True)
    )
    weeks = None if letters else draw(st.none() | st.just(["A", "B"]) | st.just(["1", "2", "3"]))
    keys = letters or [
        f"{day} {week}".strip() for day in WEEKDAYS[:5] for week in ["", *(weeks or [])]
    ]
    offs = draw(st.dictionaries(st.tuples(days, st.integers(0, 5)), names, max_size=3))
    school_days = SchoolDays(
        terms=tuple(
            Term(
                code, FIRST + timedelta(days=100 * place), FIRST + timedelta(days=100 * place + 90)
            )
            for place, code in enumerate(codes)
        ),
        days_off=tuple(
            DayOff(name, first, first + timedelta(days=more))
            for (first, more), name in offs.items()
        ),
        one_offs=tuple(
            OneOff(day, name, plan, keeps)
            for day, (name, plan, keeps) in draw(
                st.dictionaries(
                    days,
                    st.tuples(names, plans(period_numbers) | st.sampled_from(keys), st.booleans()),
                    max_size=3,
                )
            ).items()
        ),
        rotation=Rotation(tuple(letters), draw(days)) if letters else None,
        weeks=Rotation(tuple(weeks), draw(days)) if weeks else None,
    )
    room = Room(
        name=draw(names),
        zone="America/Chicago",
        period_word=draw(st.sampled_from(["period", "block"])),
        periods=tuple(map(Period, period_numbers, period_names)),
        dryers=tuple(
            Dryer(
                number,
                f"Dryer {number}",
                draw(st.integers(300, 5000)),
                draw(st.floats(0.05, 24, allow_nan=False)),
            )
            for number in dryers
        ),
        rods=tuple(
            Rod(
                number,
                draw(st.sampled_from(dryers)),
                draw(st.integers(1, 99)),
                draw(st.none() | a_period),
                draw(st.integers(10, 500)),
                draw(st.sampled_from(["left", "right"])),
            )
            for number in some(numbers, 1)
        ),
        boxes=tuple(map(Box, some(numbers, len(boxed), len(boxed)), boxed)),
        binders=tuple(
            Binder(draw(st.sampled_from(codes)), number, draw(st.none() | a_period))
            for number in some(numbers)
        ),
        timetable=Timetable(
            zone_named("America/Chicago"),
            {key: draw(plans(period_numbers)) for key in keys},
            school_days,
        ),
        rules=Rules(process_minutes=draw(st.floats(1, 600)), box_school_days=draw(numbers)),
        materials=Materials(
            more_pages=tuple(draw(st.lists(st.sampled_from(["8x5", "9x5"]), unique=True))),
            more_papers=draw(st.sampled_from([(), (Paper("13x18cm", 127.25, 178.0),)])),
        ),
        initials_on_sleeves=draw(st.booleans()),
    )
    return in_order(room)
