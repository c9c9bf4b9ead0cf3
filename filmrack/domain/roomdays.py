"""The parts of a room file that say when there is school and which class meets when."""

from __future__ import annotations

import re
from datetime import date, time, tzinfo

from filmrack.domain.dayplan import DayPlan, Slot, day_plan
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Period, period_named
from filmrack.domain.roomkeys import Section
from filmrack.domain.roomparts import LONGEST_NAME
from filmrack.domain.schooldays import (
    LONGEST_DAY_NAME,
    NO_SCHOOL,
    SCHOOL_WEEK,
    WEEKDAYS,
    DayOff,
    OneOff,
    Rotation,
    SchoolDays,
    Term,
)
from filmrack.domain.termcode import is_term_code
from filmrack.domain.timetable import Timetable, of_weekday

MOST_PLANS = 60
MOST_SLOTS = 40
MOST_LETTERS = 30
LONGEST_LETTER = 12
"""Characters of a day letter, or of the name of a kind of week."""
_SLOT = re.compile(r"(.+?)\s+([0-9]{1,2}):([0-9]{2})\s*[-–]\s*([0-9]{1,2}):([0-9]{2})")
A_SLOT = 'a period and its times, as in "1 08:00-08:50"'


def school_days(
    top: Section, section: Section, periods: tuple[Period, ...], word: str
) -> SchoolDays | None:
    """Return terms, days off, one-off days and the rotation; None when they clash."""
    weekdays = _weekdays(section)
    rotation = _rotation(section, "letters", "first_letter_on", "day")
    weeks = _rotation(section, "weeks", "first_week_on", "week")
    terms = _terms(top)
    days_off = _days_off(top)
    one_offs = _one_offs(top, periods, word)
    try:
        return SchoolDays(weekdays, terms, days_off, one_offs, rotation, weeks=weeks)
    except Refused as error:
        if rotation is not None and weeks is not None:
            section.advise("weeks", str(error))
            return None
        top.advise("one_offs", str(error))
        return None


def timetable(
    section: Section,
    zone: tzinfo,
    days: SchoolDays,
    periods: tuple[Period, ...],
    word: str,
) -> Timetable | None:
    """Return the timetable, or None when its plans and days do not fit together."""
    table = section.section("plans")
    plans: dict[str, DayPlan] = {}
    used = {one.plan for one in days.one_offs if isinstance(one.plan, str)}
    used.update(days.rotation.letters if days.rotation else ())
    if days.weeks is not None:
        used.update(name for day in WEEKDAYS for name in of_weekday(day, days.weeks.letters))
    for name in table.keys()[:MOST_PLANS]:
        if not _may_be_plan(name) or (
            name not in used and name not in WEEKDAYS and name.casefold()[:3] in WEEKDAYS
        ):
            weekdays = " ".join(WEEKDAYS)
            table.wrong_key(
                name, f"call the plan by a weekday ({weekdays}), a day letter or a plain name"
            )
        elif (plan := _plan(table, name, table.raw(name), periods, word)) is not None:
            plans[name] = plan
        else:
            plans[name] = ()
    if len(table.keys()) > MOST_PLANS:
        section.wrong("plans", f"at most {MOST_PLANS} plans")
    try:
        return Timetable(zone, plans, days)
    except Refused as error:
        section.advise("plans", str(error))
        return None


def _weekdays(section: Section) -> tuple[str, ...]:
    written = section.texts("weekdays")
    if written is None:
        return SCHOOL_WEEK
    if not written or not set(written) <= set(WEEKDAYS):
        section.wrong("weekdays", f"some of {', '.join(WEEKDAYS)}, in quotation marks")
        return SCHOOL_WEEK
    return tuple(day for day in WEEKDAYS if day in written)


def _rotation(section: Section, key: str, first_on: str, what: str) -> Rotation | None:
    letters = section.texts(key)
    if letters is None:
        if section.raw(first_on) is not None:
            section.wrong(key, f'the {what} letters in turn, as in ["A", "B"]')
        return None
    first = section.day(first_on)
    if (
        not 1 <= len(letters) <= MOST_LETTERS
        or len(set(letters)) < len(letters)
        or not all(_may_be_plan(letter) and len(letter) <= LONGEST_LETTER for letter in letters)
    ):
        section.wrong(
            key,
            f"1 to {MOST_LETTERS} {what} letters, each once and of at most {LONGEST_LETTER} letters"
            ' or figures, as in ["A", "B"]',
        )
        return None
    return None if first is None else Rotation(tuple(letters), first)


def _terms(top: Section) -> tuple[Term, ...]:
    found = []
    for entry in top.sections("terms", 300):
        code = entry.text("code", 3)
        if code and not is_term_code(code):
            entry.wrong("code", 'two digits of the year and a letter but I, L and O: "26F"')
        starts, ends = entry.day("starts"), entry.day("ends")
        entry.close()
        if starts is None or ends is None:
            continue
        if ends < starts:
            entry.wrong("ends", f"a day from {starts} on")
            continue
        found.append(Term(code, starts, ends))
    if not found and top.raw("terms") in (None, []):
        top.wrong("terms", "at least one term")
    return tuple(found)


def _days_off(top: Section) -> tuple[DayOff, ...]:
    found = []
    for entry in top.sections("days_off"):
        name = entry.text("name", LONGEST_DAY_NAME, NO_SCHOOL)
        first = entry.day("first")
        last = entry.day("last", first or date.max)
        entry.close()
        if first is None or last is None:
            continue
        if last < first:
            entry.wrong("last", f"a day from {first} on")
            continue
        found.append(DayOff(name, first, last))
    return tuple(found)


def _one_offs(top: Section, periods: tuple[Period, ...], word: str) -> tuple[OneOff, ...]:
    found = []
    for entry in top.sections("one_offs"):
        day = entry.day("day")
        name = entry.text("name", LONGEST_DAY_NAME)
        keeps_letter = entry.flag("keeps_letter", default=False)
        written = entry.raw("plan")
        plan: str | DayPlan | None
        if isinstance(written, str) and _may_be_plan(written):
            plan = written
        else:
            plan = _plan(entry, "plan", written, periods, word)
        entry.close()
        if day is not None and plan is not None:
            found.append(OneOff(day, name, plan, keeps_letter))
    return tuple(found)


def _may_be_plan(name: str) -> bool:
    # Letters of any script; a bracket would be taken for a plan that is written out.
    return re.fullmatch(r"[\w][\w .'-]*", name) is not None and len(name) <= LONGEST_NAME


def _plan(
    section: Section, name: str, written: object, periods: tuple[Period, ...], word: str
) -> DayPlan | None:
    if not isinstance(written, list) or len(written) > MOST_SLOTS:
        section.wrong(name, f"a list of up to {MOST_SLOTS}, each {A_SLOT}")
        return None
    slots = []
    for nth, text in enumerate(written, 1):
        slot = _slot(text, periods, word)
        if isinstance(slot, Slot):
            slots.append(slot)
        else:
            section.wrong(f"{name}[{nth}]", slot)
    if len(slots) < len(written):
        return None
    try:
        return day_plan(slots)
    except Refused as error:
        section.advise(name, str(error))
        return None


def _slot(text: object, periods: tuple[Period, ...], word: str) -> Slot | str:
    """Return the slot that is written, or what was expected."""
    match = _SLOT.fullmatch(text.strip()) if isinstance(text, str) and len(text) < 100 else None
    if match is None:
        return A_SLOT
    period = period_named(match[1], periods, word)
    if period is None:
        return f"one of the periods: {', '.join(one.name for one in periods)}"
    try:
        starts, ends = time(int(match[2]), int(match[3])), time(int(match[4]), int(match[5]))
    except ValueError:
        return "times from 00:00 to 23:59"
    if ends <= starts:
        return f"an end after {starts:%H:%M}, on the same day"
    return Slot(period.number, starts, ends)
