"""How much the touch checks have taught about a dryer, in numbers for people."""

from __future__ import annotations

import sqlite3
from typing import NamedTuple

from filmrack.domain.learning import COUNTED_ROLLS, LEAST_ROLLS, LEAST_TACKY
from filmrack.domain.touch import TimedCheck
from filmrack.store.lessons import checks_in


class LessonsTold(NamedTuple):
    """What counts of a dryer's touch checks: rolls, checks, and how many of these were tacky."""

    rolls: int
    checks: int
    tacky: int

    @property
    def rolls_wanted(self) -> int:
        """Return how many more rolls are to be checked before "dry" may be said by estimate."""
        return max(0, LEAST_ROLLS - self.rolls)

    @property
    def tacky_wanted(self) -> int:
        """Return how many more tacky results it takes for that."""
        return max(0, LEAST_TACKY - self.tacky)


def lessons_told(conn: sqlite3.Connection, dryer: int) -> LessonsTold:
    """Return what counts of a dryer's touch checks now."""
    told = checks_told(conn, dryer)
    checks = [check for roll in told for check in roll]
    return LessonsTold(len(told), len(checks), sum(not check.dry for check in checks))


def checks_told(conn: sqlite3.Connection, dryer: int) -> list[list[TimedCheck]]:
    """Return the touch checks of a dryer that count now, roll by roll, the latest roll first."""
    rows = conn.execute(
        "SELECT checks FROM lessons WHERE dryer = ? ORDER BY checked_at DESC, roll DESC LIMIT ?",
        (dryer, COUNTED_ROLLS),
    ).fetchall()
    return [checks_in(row["checks"]) for row in rows]
