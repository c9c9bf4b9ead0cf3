"""Which backups of a darkroom file are kept, and which have had their time.

Of the last seven days the newest daily one of each and all that were made before something, the
newest of each of five weeks, the newest of each of three years (common practice: often for what is
recent, seldom for what is long ago).
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta, tzinfo
from typing import NamedTuple

from filmrack.domain.counted import counted

DAYS = 7
WEEKS = 5
YEARS = 3
DAILY = "daily"


class Kept(NamedTuple):
    """A backup by when it was made and what for: `daily`, `before-restore`."""

    made: datetime
    what: str


def outlived(kept: Iterable[Kept], now: datetime, zone: tzinfo) -> list[Kept]:
    """Return the backups that have had their time, oldest first; the newest is never among them.

    What was made before something stays for seven days, of daily ones the newest of each day. A
    backup from a time to come, after a clock was set back, stays, and so does each one from
    before a new version of the file.
    """
    newest_first = sorted(kept, reverse=True)
    stays = {each for each in newest_first if each.made > now or "version" in each.what}
    stays.update(newest_first[:1])
    past = [each for each in newest_first if each.made <= now]
    today = now.astimezone(zone).date()
    days, weeks, years = set[date](), set[tuple[int, int]](), set[int]()
    week_ago = today - timedelta(days=DAYS)
    weeks_ago = _week(today - timedelta(weeks=WEEKS))
    for each in past:
        day = each.made.astimezone(zone).date()
        recent = day > week_ago
        first_of_day = each.what == DAILY and day not in days
        if recent and (each.what != DAILY or first_of_day):
            stays.add(each)
        if each.what == DAILY:
            days.add(day)
        if _week(day) not in weeks and _week(day) > weeks_ago:
            stays.add(each)
            weeks.add(_week(day))
        if day.year not in years and day.year > today.year - YEARS:
            stays.add(each)
            years.add(day.year)
    return sorted(each for each in newest_first if each not in stays)


def age(made: datetime, now: datetime) -> str:
    """Return how old a backup is, in words: `3 hours old`."""
    minutes = int((now - made).total_seconds() // 60)
    if minutes < 0:
        return "dated in a time to come"
    for size, unit in ((60 * 24 * 365, "year"), (60 * 24, "day"), (60, "hour"), (1, "minute")):
        number = minutes // size
        if number >= 1:
            return f"{counted(number, unit)} old"
    return "less than a minute old"


def _week(day: date) -> tuple[int, int]:
    year, week, _ = day.isocalendar()
    return year, week
