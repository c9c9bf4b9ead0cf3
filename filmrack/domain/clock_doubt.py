"""Whether a machine's clock can be believed when a desk is opened."""

from __future__ import annotations

from datetime import datetime, timedelta

from filmrack.domain.clock import clock
from filmrack.domain.timetable import Timetable

SLACK = timedelta(minutes=1)
"""So far may two machines differ."""
LONGEST_ABSENCE = 1
"""School days that may pass between two days with a desk: Friday to Monday is one."""


def doubt(
    newest: datetime | None, alive: datetime | None, now: datetime, timetable: Timetable
) -> str | None:
    """Return why the clock is doubted, as half a sentence, or None.

    `newest` is when the latest entry was told, `alive` when a desk was last open. A clock that is
    behind either of them is wrong, or was; one that is more than a school day ahead may be.
    """
    for moment, what in ((newest, "something was entered"), (alive, "a desk was open")):
        if moment is not None and moment > now + SLACK:
            return f"{what} at {clock(moment, timetable.zone, now)}, which is still to come"
    if alive is not None and now - alive > timedelta(days=1):
        days = timetable.school_days_since(alive, now)
        if days > LONGEST_ABSENCE:
            return (
                f"a desk was last open {clock(alive, timetable.zone, now)}, {days} school days ago"
            )
    return None
