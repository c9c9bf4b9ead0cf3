"""The room of the school we invented: blocks that rotate, eight rods of differing lengths."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, time

from filmrack.domain.dayplan import DayPlan, Slot
from filmrack.domain.room import Box, Dryer, Period, Rod, Room
from filmrack.domain.schooldays import DayOff, OneOff, Rotation, SchoolDays, Term
from filmrack.domain.timetable import Timetable, zone_named

SCHOOL = "Larkmoor School"
ZONE = "America/Chicago"
MOMENT = datetime(2026, 11, 17, 16, 26, tzinfo=UTC)
"""The moment at which the demo stands: a Tuesday at 10:26 in its second block."""

BLOCKS = {"A": 1, "B": 2, "C": 3, "D": 4, "F": 6, "G": 7}
"""The darkroom's blocks by number. Block E is the teacher's own, and meets nobody here."""

_TURNS = {
    "1": "ABCDE",
    "2": "FGABC",
    "3": "DEFGA",
    "4": "BCDEF",
    "5": "GABCD",
    "6": "EFGAB",
    "7": "CDEFG",
}
_BELLS = (
    (time(8, 15), time(9, 20)),
    (time(9, 25), time(10, 40)),
    (time(10, 45), time(11, 45)),
    (time(12, 25), time(13, 25)),
    (time(13, 30), time(14, 35)),
)
"""Lunch is the gap after the third block; the second one is the long one."""
_EARLY_BELLS = tuple(
    (time(minute // 60, minute % 60), time((minute + 36) // 60, (minute + 36) % 60))
    for minute in range(8 * 60 + 15, 8 * 60 + 15 + 5 * 40, 40)
)
EARLY_RELEASE = date(2026, 10, 16)

_TERMS = (
    Term("25F", date(2025, 8, 25), date(2025, 12, 19)),
    Term("26S", date(2026, 1, 6), date(2026, 6, 5)),
    Term("26F", date(2026, 8, 24), date(2026, 12, 18)),
)
_DAYS_OFF = (
    DayOff("End of summer", date(2025, 9, 1), date(2025, 9, 1)),
    DayOff("Autumn break", date(2025, 10, 9), date(2025, 10, 10)),
    DayOff("Harvest break", date(2025, 11, 26), date(2025, 11, 28)),
    DayOff("Winter break", date(2026, 2, 16), date(2026, 2, 20)),
    DayOff("Spring break", date(2026, 4, 6), date(2026, 4, 10)),
    DayOff("Founders' Day", date(2026, 5, 15), date(2026, 5, 15)),
    DayOff("End of summer", date(2026, 9, 7), date(2026, 9, 7)),
    DayOff("Autumn break", date(2026, 10, 8), date(2026, 10, 9)),
    DayOff("Harvest break", date(2026, 11, 25), date(2026, 11, 27)),
)
_SNOW = OneOff(date(2026, 1, 28), "Snow day", ())
_ROTATION = Rotation(tuple(_TURNS), date(2025, 8, 25))

_RODS = (
    Rod(1, 1, 12, BLOCKS["A"]),
    Rod(2, 1, 12, BLOCKS["B"]),
    Rod(3, 1, 10, BLOCKS["C"]),
    Rod(4, 1, 10, BLOCKS["D"]),
    Rod(5, 1, 8, None),
    Rod(6, 1, 10, BLOCKS["F"]),
    Rod(7, 1, 8, BLOCKS["G"]),
    Rod(8, 1, 6, BLOCKS["G"], spacing_mm=70),
)


def demo_room() -> Room:
    """Return the room: one dryer, six classes, five of seven blocks a day."""
    days = SchoolDays(terms=_TERMS, days_off=_DAYS_OFF, one_offs=(_SNOW,), rotation=_ROTATION)
    letter = days.letter(EARLY_RELEASE)
    assert letter is not None
    early = OneOff(EARLY_RELEASE, "Early release", _plan(letter, _EARLY_BELLS))
    days = SchoolDays(terms=_TERMS, days_off=_DAYS_OFF, one_offs=(_SNOW, early), rotation=_ROTATION)
    plans = {letter: _plan(letter, _BELLS) for letter in _TURNS}
    return Room(
        name=f"{SCHOOL} darkroom",
        zone=ZONE,
        timetable=Timetable(zone_named(ZONE), plans, days),
        periods=tuple(Period(number, f"Block {name}") for name, number in BLOCKS.items()),
        dryers=(Dryer(1, "Dryer"),),
        rods=_RODS,
        boxes=tuple(Box(number, number) for number in BLOCKS.values()),
        period_word="block",
    )


def _plan(letter: str, bells: Sequence[tuple[time, time]]) -> DayPlan:
    return tuple(
        Slot(BLOCKS[block], starts, ends)
        for block, (starts, ends) in zip(_TURNS[letter], bells, strict=True)
        if block in BLOCKS
    )
