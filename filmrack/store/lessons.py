"""What touch checks have taught about each dryer.

Working it out takes tens of milliseconds, so it is kept in the file when a check is told; whoever
looks up a roll only reads it.
"""

from __future__ import annotations

import json
import sqlite3
from array import array
from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import isclose
from typing import NamedTuple

from filmrack.domain.attention import Dryers
from filmrack.domain.dryer import FanRun, Stay, minutes_hung
from filmrack.domain.learning import COUNTED_ROLLS, CheckedRoll, Learned, learn
from filmrack.domain.places import taken_by
from filmrack.domain.posterior import Posterior
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.domain.touch import Check, in_order, log_likelihood, pack, unpack
from filmrack.store import fan
from filmrack.store.places import hanging_now
from filmrack.store.times import to_text


def dryers_for(conn: sqlite3.Connection, room: Room, some: Sequence[Roll]) -> Dryers:
    """Return all that is needed to judge some rolls: fan runs, what the dryers have taught."""
    hanging = [roll for roll in some if roll.place.kind == "rod"]
    to_hang = any(roll.place.kind == "tank" for roll in some)
    taken = taken_by(room, hanging_now(conn)) if to_hang else frozenset()
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
    return _learned(row["logs"], bool(row["proven"]), row["least"])


@lru_cache(maxsize=1)
def _unlearned() -> Learned:
    return Learned(Posterior.prior())


@lru_cache(maxsize=8)
def _learned(logs: bytes, proven: bool, least: float) -> Learned:
    """What is worked out from `Learned` is remembered with it, so the same one is handed out."""
    return Learned(Posterior(unpack(logs)), proven, least)


def learn_from(
    conn: sqlite3.Connection, room: Room, changed: Sequence[Roll], forget: Iterable[int] = ()
) -> None:
    """Keep what some rolls teach now, in place of what they or `forget` taught before."""
    told = {
        roll.id: lesson for roll in changed if (lesson := _teaches(conn, room, roll)) is not None
    }
    kept = _kept(conn, {*forget, *(roll.id for roll in changed)})
    stale: set[int] = set()
    for number in {*kept, *told}:
        old, new = kept.get(number), told.get(number)
        if old == new:
            continue
        stale |= {lesson.dryer for lesson in (old, new) if lesson is not None}
        conn.execute("DELETE FROM lessons WHERE roll = ?", (number,))
        if new is not None:
            _keep(conn, number, new)
    for dryer in stale:
        _sum_up(conn, dryer)


def fold_anew(conn: sqlite3.Connection, room: Room, folded: Sequence[Roll]) -> None:
    """Keep what all rolls teach, and sum up every dryer anew.

    In which dryer a rod was stays as it was learned: a room that is changed later does not change
    what happened.
    """
    kept = {
        row["roll"]: _Lesson(row["dryer"], row["checked_at"], row["checks"])
        for row in conn.execute("SELECT roll, dryer, checked_at, checks FROM lessons").fetchall()
    }
    checked = {roll.id: roll for roll in folded if roll.checks}
    for number in kept.keys() - checked.keys():
        conn.execute("DELETE FROM lessons WHERE roll = ?", (number,))
    for number, roll in checked.items():
        told, before = _teaches(conn, room, roll), kept.get(number)
        moved = before is not None and (told is None or told.dryer != before.dryer)
        if told == before or moved:
            continue
        conn.execute("DELETE FROM lessons WHERE roll = ?", (number,))
        if told is not None:
            _keep(conn, number, told)
    conn.execute("DELETE FROM learned WHERE dryer NOT IN (SELECT dryer FROM lessons)")
    for (dryer,) in conn.execute("SELECT DISTINCT dryer FROM lessons").fetchall():
        _sum_up(conn, dryer)


def summed_up_otherwise(one: sqlite3.Connection, other: sqlite3.Connection) -> list[int]:
    """Return the dryers whose sums differ by more than two processors may round."""
    sums = [
        {row["dryer"]: row for row in conn.execute("SELECT * FROM learned").fetchall()}
        for conn in (one, other)
    ]
    return [
        dryer
        for dryer in sorted({*sums[0], *sums[1]})
        if dryer not in sums[0]
        or dryer not in sums[1]
        or not _alike(sums[0][dryer], sums[1][dryer])
    ]


def _alike(one: sqlite3.Row, other: sqlite3.Row) -> bool:
    if one["proven"] != other["proven"] or not isclose(one["least"], other["least"], rel_tol=1e-3):
        return False
    try:
        pairs = zip(unpack(one["logs"]), unpack(other["logs"]), strict=True)
        return all(isclose(a, b, rel_tol=1e-3, abs_tol=1e-2) for a, b in pairs)
    except ValueError:
        return False


class _Lesson(NamedTuple):
    """What one roll teaches about its dryer: `checks` are (a, b, dry) as JSON."""

    dryer: int
    checked_at: str
    checks: str


def _teaches(conn: sqlite3.Connection, room: Room, roll: Roll) -> _Lesson | None:
    """Return what a roll teaches; None for nothing, or nothing clear.

    A roll that hung in two dryers says nothing clear about either, and a check whose minutes hang
    on a run that was refuted says nothing at all.
    """
    dryers = {room.dryer_of(stay.rod).number for stay in roll.stays}
    if not roll.checks or len(dryers) != 1:
        return None
    dryer = dryers.pop()
    stays = [Stay(stay.hung, stay.until, stay.flipped) for stay in roll.stays]
    runs: Sequence[FanRun] = fan.runs(conn, stays[0].hung).get(dryer, [])
    checks = [
        Check(*minutes, check.dry)
        for check in roll.checks
        if (minutes := minutes_hung(stays, runs, check.at))
        == minutes_hung(stays, runs, check.at, refuted_count=False)
    ]
    if not checks:
        return None
    return _Lesson(
        dryer,
        to_text(max(check.at for check in roll.checks)),
        json.dumps([[check.a, check.b, check.dry] for check in in_order(checks)]),
    )


def _kept(conn: sqlite3.Connection, numbers: Iterable[int]) -> dict[int, _Lesson]:
    wanted = [*numbers]
    marks = ", ".join("?" * len(wanted))
    rows = conn.execute(
        f"SELECT roll, dryer, checked_at, checks FROM lessons WHERE roll IN ({marks})", wanted
    ).fetchall()
    return {row["roll"]: _Lesson(row["dryer"], row["checked_at"], row["checks"]) for row in rows}


def _keep(conn: sqlite3.Connection, roll: int, lesson: _Lesson) -> None:
    likelihood = log_likelihood(_checks(lesson.checks))
    conn.execute(
        "INSERT INTO lessons (roll, dryer, checked_at, checks, likelihood) VALUES (?, ?, ?, ?, ?)",
        (roll, lesson.dryer, lesson.checked_at, lesson.checks, pack(likelihood)),
    )


def _sum_up(conn: sqlite3.Connection, dryer: int) -> None:
    """Learn from the latest lessons, and drop the likelihoods that count no more.

    A dropped one is worked out again where the undoing of later checks lets it count once more.
    """
    rows = _latest(conn, dryer)
    if not rows:
        conn.execute("DELETE FROM learned WHERE dryer = ?", (dryer,))
        return
    counted: list[CheckedRoll] = []
    for row in reversed(rows):
        checks, likelihood = _checks(row["checks"]), row["likelihood"]
        if not likelihood:
            likelihood = pack(log_likelihood(checks))
            conn.execute(
                "UPDATE lessons SET likelihood = ? WHERE roll = ?", (likelihood, row["roll"])
            )
        counted.append(CheckedRoll(tuple(checks), unpack(likelihood)))
    taught = learn(counted)
    conn.execute(
        "INSERT INTO learned (dryer, logs, proven, least) VALUES (?, ?, ?, ?)"
        " ON CONFLICT (dryer) DO UPDATE SET logs = excluded.logs, proven = excluded.proven,"
        " least = excluded.least",
        (dryer, pack(_from_the_highest(taught.posterior.logs)), taught.proven, taught.least),
    )
    last = rows[-1]
    conn.execute(
        "UPDATE lessons SET likelihood = x'' WHERE dryer = ? AND likelihood <> x''"
        " AND (checked_at, roll) < (?, ?)",
        (dryer, last["checked_at"], last["roll"]),
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
    return CheckedRoll(tuple(_checks(row["checks"])), unpack(row["likelihood"]))


def _checks(text: str) -> list[Check]:
    return [Check(a, b, dry) for a, b, dry in json.loads(text)]
