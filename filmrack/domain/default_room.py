"""The room to begin with, until the teacher says what is different."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from filmrack.domain.dayplan import Slot
from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused
from filmrack.domain.room import LONGEST_PERIOD_WORD, Box, Dryer, Period, Rod, Room
from filmrack.domain.schooldays import SCHOOL_WEEK, SchoolDays
from filmrack.domain.termcode import half_year
from filmrack.domain.timetable import Timetable, zone_named

PERIODS, MOST_PERIODS = 6, 12
POSITIONS, MOST_POSITIONS = 10, 40
"""What is usual in a room, and what the first questions take at most."""

FIRST_BELL = time(8, 0)
LESSON = timedelta(minutes=50)
BREAK = timedelta(minutes=6)


def default_room(
    zone: str,
    today: date,
    *,
    periods: int = PERIODS,
    positions: int = POSITIONS,
    period_word: str = "period",
) -> Room:
    """Return one dryer with a rod and a box for each period, and the running half-year.

    `zone` is an IANA time zone. Raises Refused when there is none of that name, and for more
    periods than the day has room for.
    """
    numbers = range(1, periods + 1)
    word = clean(period_word, "the word for a period") or "period"
    if len(word) > LONGEST_PERIOD_WORD:
        raise Refused(
            f"the word for a period has {len(word)} letters: take one of at most"
            f" {LONGEST_PERIOD_WORD}"
        )
    return Room(
        name="Darkroom",
        zone=zone,
        timetable=Timetable(
            zone_named(zone),
            dict.fromkeys(SCHOOL_WEEK, _day(today, periods)),
            SchoolDays(terms=(half_year(today),)),
        ),
        periods=tuple(Period(number, f"{word.capitalize()} {number}") for number in numbers),
        dryers=(Dryer(1, "Dryer"),),
        rods=tuple(Rod(number, 1, positions, number) for number in numbers),
        boxes=tuple(Box(number, number) for number in numbers),
        period_word=word,
    )


def _day(today: date, periods: int) -> tuple[Slot, ...]:
    starts = datetime.combine(today, FIRST_BELL)
    slots = []
    for number in range(1, periods + 1):
        ends = starts + LESSON
        if ends.date() > today:
            raise Refused(
                f"{periods} periods of {LESSON.seconds // 60} minutes do not fit in a day: give"
                " fewer, and add more on the screen Room"
            )
        slots.append(Slot(number, starts.time(), ends.time()))
        starts = ends + BREAK
    return tuple(slots)
