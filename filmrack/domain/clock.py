"""Days and moments as the room reads them: the one place where their form is settled.

>>> day_words(date(2026, 12, 4), date(2026, 11, 17)), whole_day(date(2026, 12, 4))
('Fri 4 Dec', 'Fri 4 Dec 2026')
>>> printed_day(date(2026, 12, 4)), span_words(date(2026, 11, 25), date(2026, 11, 27))
('4 Dec 2026', 'Wed 25 Nov 2026 to Fri 27 Nov 2026')
"""

from __future__ import annotations

from datetime import date, datetime, time, timedelta, tzinfo

from filmrack.domain.refusal import Refused

_NEAR_DAYS = 200
"""Days within which a day is told without its year."""


def day_words(day: date, today: date) -> str:
    """Return a day as people say it: `Fri 4 Dec`, with its year where it is far."""
    if abs((day - today).days) > _NEAR_DAYS:
        return whole_day(day)
    return f"{day:%a} {day.day} {day:%b}"


def whole_day(day: date) -> str:
    """Return a day with its year: `Fri 4 Dec 2026`."""
    return f"{day:%a} {printed_day(day)}"


def printed_day(day: date) -> str:
    """Return a day as it stands on a small label: no two countries read figures alone alike."""
    return f"{near_day(day)} {day:%Y}"


def near_day(day: date) -> str:
    """Return a day beside something that tells its year: `4 Dec`."""
    return f"{day.day} {day:%b}"


def span_words(first: date, last: date) -> str:
    """Return a stretch of days, both included; a single one alone."""
    return whole_day(first) if first == last else f"{whole_day(first)} to {whole_day(last)}"


def time_words(moment: datetime | time) -> str:
    """Return a time of the room's day: `10:36`."""
    return f"{moment:%H:%M}"


def clock(moment: datetime, zone: tzinfo, now: datetime) -> str:
    """Return a moment on the room's clock: `10:36`, on another day `Tue 17 Nov 10:36`."""
    local, today = moment.astimezone(zone), now.astimezone(zone).date()
    told = time_words(local)
    return told if local.date() == today else f"{day_words(local.date(), today)} {told}"


def clock_or_dash(moment: datetime | None, zone: tzinfo, now: datetime) -> str:
    """Return a moment as `clock` does, or a dash for none."""
    return "–" if moment is None else clock(moment, zone, now)


def read_moment(text: str, zone: tzinfo, now: datetime) -> datetime:
    """Return the moment that was typed: ISO 8601, or a time of today such as `10:31`.

    Without an offset the room's zone counts. In the repeated hour of autumn a date with a time is
    the first one (RFC 5545 section 3.3.5), a time of today the last one that is past: whoever types
    it means a while ago. Raises Refused for what is no time.
    """
    typed = text.strip()
    try:
        today = len(typed) <= 5 and ":" in typed
        if today:
            typed = f"{now.astimezone(zone):%Y-%m-%d}T{typed.zfill(5)}"
        moment = datetime.fromisoformat(typed)
    except ValueError:
        raise Refused(
            f"“{text[:40]}” is no time: write it as 2026-11-17T10:31 or, for today, as 10:31"
        ) from None
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=zone, fold=0)
    try:
        meant = moment.astimezone(now.tzinfo)
        again = moment.replace(fold=1).astimezone(now.tzinfo) if today else meant
        # Only in a repeated hour does the second one come later.
        if meant < again <= now:
            meant = again
        return meant.replace(microsecond=0)
    except OverflowError:
        raise Refused(f"“{text[:40]}” is beyond all calendars: give a year like this one") from None


def minutes_between(earlier: datetime, later: datetime) -> int:
    """Return the whole minutes between two moments."""
    return int((later - earlier) / timedelta(minutes=1))
