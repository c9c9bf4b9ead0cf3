"""Days off from an iCalendar file (RFC 5545), as school offices publish them.

Only whole-day events are days: a parents' evening at 18:00 closes no darkroom.
"""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterable, Iterator
from datetime import date, datetime, time, timedelta
from itertools import islice
from typing import TYPE_CHECKING

from filmrack.domain.names import clean, tokens
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import LONGEST_DAY_NAME, NO_SCHOOL, DayOff, Term

if TYPE_CHECKING:  # slow to import, and only for this
    from icalendar import Component

MOST_BYTES = 5_000_000
MOST_EVENTS = 5000
MOST_RECURRING = 60
_DAY = timedelta(days=1)


def days_off_in(data: bytes, first: date, last: date, words: str = "") -> list[DayOff]:
    """Return the whole-day events of a calendar that touch the days from first to last.

    With `words` only those with each of them in their summary. Cancelled events are left out.
    Raises Refused when it is no calendar or a too large one.
    """
    wanted = tokens(words)
    found = {
        (off.first, off.last): off
        for event in _events(data)
        for off in _days_of(event, first, last)
        if set(wanted) <= set(tokens(off.name))
    }
    return [found[days] for days in sorted(found)]


def days_off_within(data: bytes, terms: Iterable[Term], words: str = "") -> list[DayOff]:
    """Return `days_off_in` the days from the first of these terms to the last; none without."""
    known = list(terms)
    first = min((term.starts for term in known), default=date.max)
    last = max((term.ends for term in known), default=date.min)
    return days_off_in(data, first, last, words)


def _events(data: bytes) -> list[Component]:
    from icalendar import Calendar

    if len(data) > MOST_BYTES:
        most = MOST_BYTES // 1_000_000
        raise Refused(f"the calendar has more than {most} MB: choose the right file")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            calendars = Calendar.from_ical(data, multiple=True)
            events = [event for calendar in calendars for event in calendar.walk("VEVENT")]
    except (ValueError, KeyError, IndexError, TypeError, AttributeError, RecursionError):
        events = []
    if not events:
        raise Refused(
            "the file is no calendar with events in it: save the school's as iCalendar, .ics"
        )
    if len(events) > MOST_EVENTS or sum("RRULE" in event for event in events) > MOST_RECURRING:
        raise Refused(
            f"the calendar has more than {MOST_EVENTS} events, or {MOST_RECURRING} that come again:"
            " take one with the days off alone"
        )
    return events


def _days_of(event: Component, first: date, last: date) -> Iterator[DayOff]:
    starts = _day(event, "DTSTART")
    if starts is None or str(event.get("STATUS", "")).upper() == "CANCELLED":
        return
    length = _length(event, starts)
    name = _name(event)
    left_out = set(_excepted(event))
    for day in _starts(event, starts, last):
        try:
            until = day + length - _DAY
        except OverflowError:
            continue
        if until >= first and day <= last and day not in left_out:
            yield DayOff(name, max(day, first), min(until, last))


def _day(event: Component, key: str) -> date | None:
    """Return a date without a time of day, or None."""
    value = getattr(_property(event, key), "dt", None)
    return value if isinstance(value, date) and not isinstance(value, datetime) else None


def _property(event: Component, key: str) -> object:
    """Return what stands under a name, or None where it is missing or cannot be read."""
    from icalendar.prop import vBroken

    value: object = event.get(key)
    return None if isinstance(value, vBroken) else value


def _length(event: Component, starts: date) -> timedelta:
    """Return how many days it takes: one where nothing is said (section 3.6.1)."""
    ends = _day(event, "DTEND")
    length = getattr(_property(event, "DURATION"), "dt", None)
    if ends is not None:  # the first day after it (section 3.6.1)
        length = ends - starts
    return max(length, _DAY) if isinstance(length, timedelta) else _DAY


def _name(event: Component) -> str:
    try:
        return clean(str(event.get("SUMMARY", ""))[:LONGEST_DAY_NAME], "it") or NO_SCHOOL
    except Refused:
        return NO_SCHOOL


def _excepted(event: Component) -> Iterator[date]:
    from icalendar import vDDDLists

    for some in _listed(_property(event, "EXDATE")):
        for each in some.dts if isinstance(some, vDDDLists) else ():
            day = each.dt
            if isinstance(day, date):
                yield day.date() if isinstance(day, datetime) else day


def _starts(event: Component, starts: date, last: date) -> Iterator[date]:
    """Return the days on which an event begins, up to the last day that is asked for.

    A rule that cannot be followed gives the first of them alone.
    """
    from icalendar import vRecur

    rule = _property(event, "RRULE")
    if not isinstance(rule, vRecur):
        yield starts
        return
    from dateutil.rrule import rrulestr

    parts = {
        str(key).upper(): ",".join(str(one).upper() for one in _listed(values))
        for key, values in rule.items()
    }
    count = parts.pop("COUNT", "")
    until = _until(parts.pop("UNTIL", ""))
    if starts.year < 1900 or not _comes_true(parts):
        yield starts
        return
    bound = min(last, until or last)
    parts["UNTIL"] = f"{bound:%Y%m%d}T235959"
    try:
        days = rrulestr(
            ";".join(f"{key}={value}" for key, value in parts.items()),
            dtstart=datetime.combine(starts, time()),
        )
        most = int(count) if count else None
        yield from (day.date() for day in islice(days, most))
    except (ValueError, KeyError, IndexError, TypeError, AttributeError, OverflowError):
        yield starts


def _comes_true(parts: dict[str, str]) -> bool:
    """Tell whether a rule can be followed: one that never comes true is tried to the year 9999."""
    if not re.fullmatch("[1-9][0-9]{0,2}", parts.get("INTERVAL", "1")):
        return False
    if parts.get("FREQ") == "DAILY":
        by = {key for key in parts if key.startswith("BY")}
        return not by or (parts.get("INTERVAL", "1") == "1" and by <= {"BYDAY", "BYMONTH"})
    return parts.get("FREQ") in ("YEARLY", "MONTHLY", "WEEKLY")


def _listed(value: object) -> list[object]:
    return value if isinstance(value, list) else [value]


def _until(text: str) -> date | None:
    try:
        return date.fromisoformat(text[:10])
    except ValueError:
        return None
