"""Moments as the room reads them."""

from __future__ import annotations

from datetime import datetime, timedelta, tzinfo

from filmrack.domain.refusal import Refused


def clock(moment: datetime, zone: tzinfo, now: datetime) -> str:
    """Return a moment on the room's clock: `10:36`, on another day `Tue 17 Nov 10:36`."""
    local, today = moment.astimezone(zone), now.astimezone(zone).date()
    if local.date() == today:
        return f"{local:%H:%M}"
    if abs((local.date() - today).days) < 200:
        return f"{local:%a} {local.day} {local:%b %H:%M}"
    return f"{local:%Y-%m-%d %H:%M}"


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
            f"{text[:40]!r} is no time: write it as 2026-11-17T10:31 or, for today, as 10:31"
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
        raise Refused(f"{text[:40]!r} is beyond all calendars: give a year like this one") from None


def minutes_between(earlier: datetime, later: datetime) -> int:
    """Return the whole minutes between two moments."""
    return int((later - earlier) / timedelta(minutes=1))
