"""A room written as a room file, with a word to the teacher at every key."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from filmrack.domain.dayplan import DayPlan
from filmrack.domain.room import Room
from filmrack.domain.schooldays import WEEKDAYS, OneOff

Names = Mapping[int | None, str]
"""What the periods are called, by number."""

RULES = {
    "drying_lag_minutes": "between the bell and the last moment to fetch a roll",
    "process_minutes": "from the first pour to hanging",
    "overnight_hours": "film that hung so long is dry",
    "left_behind": 'or "next_class": not fetched by the end of the owner\'s next class',
    "box_school_days": "so long may a roll lie in its box before it is named",
    "contact_school_days": "so long may a sleeve go without a contact sheet",
    "loan_school_days": "a sleeve is lent for so long",
    "keep_names_years": "names may be wiped after so long",
    "desk_idle_minutes": "a teacher's desk that nobody touches locks itself after so long",
    "helpers_sweep": "true: a student desk may sweep too, for helpers and substitutes",
}


def room_text(room: Room) -> str:
    """Return a room as TOML that `roomfile.examine` reads back equal."""
    names: Names = {period.number: room.short_period(period) for period in room.periods}
    parts = (
        _head(room),
        _standing(room, names),
        _days(room, names),
        _archive(room, names),
        _timetable(room, names),
        _numbers(room),
    )
    return "\n".join(line for part in parts for line in part) + "\n"


def _head(room: Room) -> Iterator[str]:
    yield "# The room file. Change what is different in your room; “filmrack room check FILE” names"
    yield "# every mistake, “filmrack room apply FILE” takes it over, whole or not at all. What"
    yield "# stands behind a # is for people; yours is kept. Keys without brackets stay above the"
    yield "# first line in [square brackets]."
    yield ""
    yield f"name = {_text(room.name)}"
    yield "# As in the time zone database (IANA): America/Chicago, Europe/Berlin."
    yield f"zone = {_text(room.zone)}"
    yield "# What a class period is called here: period, block, lesson."
    yield f"period_word = {_text(room.period_word)}"
    yield ""


def _standing(room: Room, names: Names) -> Iterator[str]:
    yield "# The class periods. Their numbers stay; their names may change."
    yield from _entries(
        "periods", ({"number": one.number, "name": one.name} for one in room.periods)
    )
    yield "# The dryers: from rod to floor in mm, and what the dial is turned to."
    yield from _entries("dryers", (dryer._asdict() for dryer in room.dryers))
    yield "# The rods. period: whose film hangs there; left out, everybody's. spacing_mm: from one"
    yield '# position to the next. counted_from: "left" or "right".'
    yield from _entries(
        "rods",
        (
            {
                "number": rod.number,
                "dryer": rod.dryer,
                "positions": rod.positions,
                "period": names.get(rod.period),
                "spacing_mm": rod.spacing_mm,
                "counted_from": rod.counted_from,
            }
            for rod in room.rods
        ),
    )
    yield "# The boxes for dry rolls, one for each period."
    yield from _entries(
        "boxes", ({"number": box.number, "period": names.get(box.period)} for box in room.boxes)
    )


def _days(room: Room, names: Names) -> Iterator[str]:
    days = room.timetable.days
    yield "# The terms: two digits of the year and a letter (not I, L, O), first and last day."
    yield from _entries(
        "terms",
        ({"code": one.code, "starts": one.starts, "ends": one.ends} for one in days.terms),
    )
    yield "# Days without school within the terms: from first to last; last may be left out."
    yield from _entries(
        "days_off",
        ({"name": one.name, "first": one.first, "last": one.last} for one in days.days_off),
    )
    yield "# Single days with a plan of their own. plan: the name of a plan below, or a list as"
    yield "# there, [] when nobody comes. keeps_letter: the day letter waits for the next day."
    yield from _entries("one_offs", (_one_off(one, names) for one in days.one_offs))


def _archive(room: Room, names: Names) -> Iterator[str]:
    yield "# Binders of the archive. They are made as they fill; those that are left out here stay."
    yield from _entries(
        "binders",
        (
            {"term": one.term, "number": one.number, "period": names.get(one.period)}
            for one in room.binders
        ),
    )
    yield "# Papers for contact sheets beyond the usual ones, in mm."
    yield from _entries(
        "papers",
        (
            {"name": one.name, "short_mm": one.short_mm, "long_mm": one.long_mm}
            for one in room.materials.more_papers
        ),
    )


def _timetable(room: Room, names: Names) -> Iterator[str]:
    days = room.timetable.days
    yield "[timetable]"
    yield "# The days on which the school teaches, whether the darkroom is used or not."
    yield f"weekdays = {_value(list(days.weekdays))}"
    yield "# With day letters: all in turn, and a day on which the first one falls."
    if days.rotation is None:
        yield '# letters = ["A", "B"]'
        yield "# first_letter_on = 2026-09-07"
    else:
        yield f"letters = {_value(list(days.rotation.letters))}"
        yield f"first_letter_on = {_value(days.rotation.first_day)}"
    yield "# With weeks of several kinds instead, such as week A and week B: all in turn, and a day"
    yield "# in the first one. A week without school has none. Their plans are called mon A, mon B,"
    yield "# …; a plan called mon is for the Mondays of every week that has none of its own."
    if days.weeks is None:
        yield '# weeks = ["A", "B"]'
        yield "# first_week_on = 2026-09-07"
    else:
        yield f"weeks = {_value(list(days.weeks.letters))}"
        yield f"first_week_on = {_value(days.weeks.first_day)}"
    yield ""
    yield "[timetable.plans]"
    yield "# For each weekday, or each day letter: a period and its times. Breaks are the gaps."
    for name, plan in _plans_in_order(room.timetable.plans):
        yield f"{_key(name)} = {_value(_slots(plan, names))}"
    yield ""


def _numbers(room: Room) -> Iterator[str]:
    yield "[materials]"
    yield "# What is meant when nobody says otherwise."
    materials = room.materials
    yield f"film = {_value(materials.film)}"
    yield f"page = {_value(materials.page)}  # strips x frames a strip"
    yield f"page_120 = {_value(materials.page_120)}  # the same for 120 film"
    yield f"page_sheet = {_value(materials.page_sheet)}  # and for sheets, one in each pocket"
    yield f"paper = {_value(materials.paper)}"
    yield "# Sleeve pages beyond the usual ones."
    yield f"more_pages = {_value(list(materials.more_pages))}"
    yield ""
    yield "[rules]"
    yield "# The room's own numbers; what they start with is common practice."
    for rule, value in room.rules._asdict().items():
        yield f"{rule} = {_value(value)}  # {RULES[rule]}"
    yield ""
    yield "[labels]"
    yield "# Whether a sleeve's label shows its owner's initials. Codes never say who it is."
    yield f"initials_on_sleeves = {_value(room.initials_on_sleeves)}"


def _entries(key: str, entries: Iterable[Mapping[str, object]]) -> Iterator[str]:
    lines = [
        "  { " + ", ".join(f"{k} = {_value(v)}" for k, v in entry.items() if v is not None) + " },"
        for entry in entries
    ]
    yield from [f"{key} = [", *lines, "]"] if lines else [f"{key} = []"]
    yield ""


def _one_off(one: OneOff, names: Names) -> dict[str, object]:
    return {
        "day": one.day,
        "name": one.name,
        "plan": one.plan if isinstance(one.plan, str) else _slots(one.plan, names),
        "keeps_letter": one.keeps_letter,
    }


def _slots(plan: DayPlan, names: Names) -> list[str]:
    return [f"{names[slot.period]} {slot.starts:%H:%M}-{slot.ends:%H:%M}" for slot in plan]


def _plans_in_order(plans: Mapping[str, DayPlan]) -> list[tuple[str, DayPlan]]:
    def place(name: str) -> tuple[int, str]:
        weekday, _, week = name.partition(" ")
        return (WEEKDAYS.index(weekday), week) if weekday in WEEKDAYS else (len(WEEKDAYS), name)

    return sorted(plans.items(), key=lambda item: place(item[0]))


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else _text(name)


def _value(value: object) -> str:
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return _text(value)
        case list():
            return "[" + ", ".join(_value(one) for one in value) + "]"
        case float():
            return str(int(value)) if value.is_integer() else repr(value)
        case date():
            return value.isoformat()
        case _:
            return str(value)


def _text(text: str) -> str:
    # What JSON escapes in a string, TOML escapes alike, and DEL besides, which only a file that was
    # edited by hand can hold.
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
