"""What touch checks have taught about each dryer.

Working it out takes tens of milliseconds, so it is kept in the file when a check is told; whoever
looks up a roll only reads it.
"""

from __future__ import annotations

import json
import sqlite3
from array import array
from collections.abc import Iterable, Sequence

from filmrack.domain.attention import Dryers
from filmrack.domain.dryer import FanRun, Stay, minutes_hung
from filmrack.domain.learning import COUNTED_ROLLS, CheckedRoll, Learned, learn
from filmrack.domain.posterior import Posterior
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.domain.touch import Check, pack, unpack
from filmrack.store import fan
from filmrack.store.times import to_text


def dryers_for(conn: sqlite3.Connection, room: Room, some: Sequence[Roll]) -> Dryers:
    """Return all that is needed to judge some rolls: fan runs, what the dryers have taught."""
    hanging = [roll for roll in some if roll.place.kind == "rod"]
    if not hanging:
        return Dryers({}, {}, {})
    since = min(stay.hung for roll in hanging for stay in roll.stays)
    used = {room.dryer_of(roll.stays[-1].rod).number for roll in hanging}
    return Dryers(
        fan.runs(conn, since),
        {number: learned_by(conn, number) for number in used},
        _counted(conn, used, [roll for roll in hanging if roll.checks]),
    )


def learned_by(conn: sqlite3.Connection, dryer: int) -> Learned:
    """Return what a dryer has taught; the prior where it has taught nothing yet."""
    row = conn.execute("SELECT * FROM learned WHERE dryer = ?", (dryer,)).fetchone()
    if row is None:
        return Learned(Posterior.prior())
    return Learned(Posterior(unpack(row["logs"])), bool(row["proven"]), row["least"])


def learn_from(
    conn: sqlite3.Connection, room: Room, changed: Sequence[Roll], forget: Iterable[int] = ()
) -> None:
    """Keep what some rolls teach now, in place of what they or `forget` taught before."""
    touched = {*forget, *(roll.id for roll in changed)}
    marks = ", ".join("?" * len(touched))
    stale = {
        row["dryer"]
        for row in conn.execute(
            f"SELECT DISTINCT dryer FROM lessons WHERE roll IN ({marks})", [*touched]
        ).fetchall()
    }
    if stale:
        conn.execute(f"DELETE FROM lessons WHERE roll IN ({marks})", [*touched])
    for roll in changed:
        if roll.checks and (dryer := _only_dryer(room, roll)) is not None:
            _keep(conn, roll, dryer)
            stale.add(dryer)
    for dryer in stale:
        _sum_up(conn, dryer)


def _only_dryer(room: Room, roll: Roll) -> int | None:
    """A roll that hung in two dryers says nothing clear about either."""
    dryers = {room.dryer_of(stay.rod).number for stay in roll.stays}
    return dryers.pop() if len(dryers) == 1 else None


def _keep(conn: sqlite3.Connection, roll: Roll, dryer: int) -> None:
    stays = [Stay(stay.hung, stay.until, stay.flipped) for stay in roll.stays]
    runs: Sequence[FanRun] = fan.runs(conn, stays[0].hung).get(dryer, [])
    checks = [
        Check(*minutes, check.dry)
        for check in roll.checks
        if (minutes := minutes_hung(stays, runs, check.at))
        == minutes_hung(stays, runs, check.at, refuted_count=False)
    ]
    if not checks:  # nobody knows whether the fan ran
        return
    lesson = CheckedRoll.of(checks)
    conn.execute(
        "INSERT INTO lessons (roll, dryer, checked_at, checks, likelihood) VALUES (?, ?, ?, ?, ?)",
        (
            roll.id,
            dryer,
            to_text(max(check.at for check in roll.checks)),
            json.dumps([[check.a, check.b, check.dry] for check in lesson.checks]),
            pack(lesson.likelihood),
        ),
    )


def _sum_up(conn: sqlite3.Connection, dryer: int) -> None:
    lessons = [_lesson(row) for row in _latest(conn, dryer)]
    if not lessons:
        conn.execute("DELETE FROM learned WHERE dryer = ?", (dryer,))
        return
    taught = learn(lessons[::-1])
    conn.execute(
        "INSERT INTO learned (dryer, logs, proven, least) VALUES (?, ?, ?, ?)"
        " ON CONFLICT (dryer) DO UPDATE SET logs = excluded.logs, proven = excluded.proven,"
        " least = excluded.least",
        (dryer, pack(_from_the_highest(taught.posterior.logs)), taught.proven, taught.least),
    )


def _from_the_highest(logs: Sequence[float]) -> array[float]:
    """Small numbers keep their digits in the file's single precision."""
    highest = max(logs)
    return array("f", [each - highest for each in logs])


def _latest(conn: sqlite3.Connection, dryer: int) -> list[sqlite3.Row]:
    return conn.execute(
        "SELECT * FROM lessons WHERE dryer = ? ORDER BY checked_at DESC, roll DESC LIMIT ?",
        (dryer, COUNTED_ROLLS),
    ).fetchall()


def _counted(
    conn: sqlite3.Connection, dryers: Iterable[int], checked: Sequence[Roll]
) -> dict[int, CheckedRoll]:
    if not checked:
        return {}
    wanted = {roll.id for roll in checked}
    return {
        row["roll"]: _lesson(row)
        for dryer in dryers
        for row in _latest(conn, dryer)
        if row["roll"] in wanted
    }


def _lesson(row: sqlite3.Row) -> CheckedRoll:
    checks = tuple(Check(a, b, dry) for a, b, dry in json.loads(row["checks"]))
    return CheckedRoll(checks, unpack(row["likelihood"]))
