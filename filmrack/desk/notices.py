"""What is said without being asked: a flip that has come due, the fan that stopped over wet film,
and to a teacher who comes that rolls are missing.

Each is said once. What was so already when the desk was opened is on the screen and is not said;
but what is missing is in no dryer and in no box, so only the archive would show it.
"""

from __future__ import annotations

from filmrack.desk.ink import short_name
from filmrack.desk.now import Now
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.attention import Standing
from filmrack.domain.counted import listed
from filmrack.store import rolls

_NAMED = 3


class Notices:
    """Remembers what was said."""

    def __init__(self) -> None:
        self.bell = False
        self._due: set[tuple[int, int]] | None = None
        self._stopped: set[int] = set()

    def heed(self, now: Now, *, busy: bool) -> Said | None:
        """Return what is new enough to be said, the fan first; while a desk is busy it waits."""
        due = {(each.roll.id, len(each.roll.stays)): each for each in now.hanging if _due(each)}
        stopped_now = {fan.dryer.number for fan in now.fans if fan.until is None and fan.wet}
        if self._due is None:
            self._due, self._stopped = set(due), stopped_now
            return None
        self._stopped &= stopped_now
        if busy:
            return None
        stopped = [fan for fan in now.fans if fan.dryer.number in stopped_now - self._stopped]
        if stopped:
            self._stopped = stopped_now
            wet = sum(fan.wet for fan in stopped)
            rolls = "1 roll is" if wet == 1 else f"{wet} rolls are"
            return Said("The fan has stopped", f"{rolls} not dry yet: turn the dial again")
        fresh = [each for key, each in due.items() if key not in self._due]
        self._due = set(due)
        return _flips(now, fresh) if fresh else None


def missing_words(session: Session) -> str:
    """Return how many rolls of the term in force are missing, and the word that lists them; empty
    for none.
    """
    term = session.file.room().term_at(session.now)
    many = 0 if term is None else rolls.count_missing(session.file.conn, term.code)
    if many == 1:
        return "1 roll of this term is missing: “missing” shows it"
    return f"{many} rolls of this term are missing: “missing” lists them" if many else ""


def _due(each: Standing) -> bool:
    return each.state == "flip"


def _flips(now: Now, fresh: list[Standing]) -> Said:
    named = [f"{each.roll.clip or each.roll.number} {_owner(now, each)}" for each in fresh]
    rods = sorted({each.roll.place.number or 0 for each in fresh})
    where = ("rod " if len(rods) == 1 else "rods ") + ", ".join(map(str, rods))
    return Said("Time to flip", f"{listed(named, _NAMED)}, on {where}: end for end")


def _owner(now: Now, each: Standing) -> str:
    return short_name(now.owner(each.roll))
