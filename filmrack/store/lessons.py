"""What touch checks have taught about each dryer.

It is worked out when a check is told (`store.teaching`); whoever looks up a roll only reads it.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Sequence
from functools import cache, lru_cache

from filmrack.domain.attention import Dryers
from filmrack.domain.learning import CheckedRoll, Learned
from filmrack.domain.posterior import Posterior
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.domain.touch import TimedCheck, unpack
from filmrack.store import fan
from filmrack.store.rows import marks, understood


def dryers_for(conn: sqlite3.Connection, room: Room, some: Sequence[Roll]) -> Dryers:
    """Return all that is needed to judge some rolls: fan runs, what the dryers have taught."""
    hanging = [roll for roll in some if roll.place.kind == "rod"]

    @cache
    def taken() -> set[tuple[int, int]]:
        from filmrack.domain.places import taken_by
        from filmrack.store.places import hanging_now

        return taken_by(room, hanging_now(conn))

    if not hanging:
        return Dryers({}, {}, {}, taken)
    since = min(stay.hung for roll in hanging for stay in roll.stays)
    used = {room.dryer_of(roll.stays[-1].rod).number for roll in hanging}
    return Dryers(
        fan.runs(conn, since),
        {number: learned_by(conn, number) for number in used},
        _counted(conn, used, [roll for roll in hanging if roll.checks]),
        taken,
    )


def learned_by(conn: sqlite3.Connection, dryer: int) -> Learned:
    """Return what a dryer has taught; the prior where it has taught nothing yet."""
    row = conn.execute("SELECT * FROM learned WHERE dryer = ?", (dryer,)).fetchone()
    if row is None:
        return _unlearned()
    with understood("lessons"):
        return _learned(row["evidence"], bool(row["proven"]), row["least"])


@lru_cache(maxsize=1)
def _unlearned() -> Learned:
    return Learned(Posterior.prior())


@lru_cache(maxsize=8)
def _learned(said: bytes, proven: bool, least: float) -> Learned:
    """What is worked out from `Learned` is remembered with it, so the same one is handed out."""
    return Learned(Posterior(unpack(said)), proven, least)


def checks_in(text: str) -> list[TimedCheck]:
    """Return the checks of a lesson, which are kept as JSON."""
    return [TimedCheck(*each) for each in json.loads(text)]


def _counted(
    conn: sqlite3.Connection, dryers: Iterable[int], checked: Sequence[Roll]
) -> dict[int, CheckedRoll]:
    """Return those rolls that count in what the dryers have taught: their evidence is kept."""
    wanted, used = [roll.id for roll in checked], [*dryers]
    rows = conn.execute(
        f"SELECT roll, checks, evidence FROM lessons WHERE roll IN ({marks(wanted)})"
        f" AND dryer IN ({marks(used)}) AND evidence <> x''",
        [*wanted, *used],
    ).fetchall()
    with understood("lessons"):
        return {
            row["roll"]: CheckedRoll(tuple(checks_in(row["checks"])), unpack(row["evidence"]))
            for row in rows
        }
