"""What touch checks teach about each dryer, kept in the file when a check is told."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Container, Iterable, Sequence
from math import isclose
from typing import NamedTuple

from filmrack.domain.dryer import FanRun, minutes_hung
from filmrack.domain.learning import COUNTED_ROLLS, found_dry, guard, tacky
from filmrack.domain.posterior import prior_evidence
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.domain.touch import (
    NAT,
    TimedCheck,
    as_evidence,
    as_number,
    evidence,
    in_order,
    pack,
    unpack,
)
from filmrack.store import fan, rolls
from filmrack.store.lessons import checks_in
from filmrack.store.rows import marks, understood
from filmrack.store.times import to_text


def learn_from(
    conn: sqlite3.Connection, room: Room, changed: Sequence[Roll], forget: Iterable[int] = ()
) -> None:
    """Keep what some rolls teach now, in place of what they or `forget` taught before."""
    told = {
        roll.id: lesson for roll in changed if (lesson := _teaches(conn, room, roll)) is not None
    }
    kept = _kept(conn, {*forget, *(roll.id for roll in changed)})
    changes: dict[int, int] = {}
    for number in {*kept, *told}:
        old, new = kept.get(number), told.get(number)
        if old is not None and old.lesson == new:
            continue
        if old is not None:
            if new is None:
                conn.execute("DELETE FROM lessons WHERE roll = ?", (number,))
            changes[old.lesson.dryer] = changes.get(old.lesson.dryer, 0) - old.said
        if new is not None:
            changes[new.dryer] = changes.get(new.dryer, 0) + _keep(conn, number, new)
    for dryer, change in changes.items():
        _sum_up(conn, dryer, change)


def fold_anew(conn: sqlite3.Connection, room: Room, senseless: Container[int] = ()) -> None:
    """Keep what all rolls teach that are not senseless, and sum up every dryer anew.

    In which dryer a rod was stays as it was learned: a room that is changed later does not change
    what happened.
    """
    last = 0
    while numbers := _that_may_teach(conn, last):
        last = numbers[-1]
        some = [number for number in numbers if number not in senseless]
        kept = _kept(conn, numbers)
        checked = {roll.id: roll for roll in rolls.by_ids(conn, some) if roll.checks}
        for number in kept.keys() - checked.keys():
            conn.execute("DELETE FROM lessons WHERE roll = ?", (number,))
        for number, roll in checked.items():
            told = _teaches(conn, room, roll)
            before = kept[number].lesson if number in kept else None
            moved = before is not None and (told is None or told.dryer != before.dryer)
            if told == before or moved:
                continue
            if told is None:
                conn.execute("DELETE FROM lessons WHERE roll = ?", (number,))
            else:
                _keep(conn, number, told)
    conn.execute("DELETE FROM learned")
    for (dryer,) in conn.execute("SELECT DISTINCT dryer FROM lessons").fetchall():
        _sum_up(conn, dryer)


def _that_may_teach(conn: sqlite3.Connection, after: int) -> list[int]:
    """Return the next thousand rolls that were touched, or have taught something."""
    found = conn.execute(
        "SELECT roll FROM touch_checks WHERE roll > ? UNION SELECT roll FROM lessons WHERE roll > ?"
        " ORDER BY roll LIMIT 1000",
        (after, after),
    ).fetchall()
    return [row[0] for row in found]


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
        pairs = zip(unpack(one["evidence"]), unpack(other["evidence"]), strict=True)
        return all(isclose(a, b, abs_tol=NAT / 100) for a, b in pairs)
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
    stays = [stay.way_up for stay in roll.stays]
    last = max(check.at for check in roll.checks)
    runs: Sequence[FanRun] = fan.runs(conn, stays[0].hung, last).get(dryer, [])
    checks = [
        TimedCheck(*minutes, check.dry)
        for check in roll.checks
        if (minutes := minutes_hung(stays, runs, check.at))
        == minutes_hung(stays, runs, check.at, refuted_count=False)
    ]
    if not checks:
        return None
    return _Lesson(
        dryer,
        to_text(last),
        json.dumps([[check.a, check.b, check.dry] for check in in_order(checks)]),
    )


class _Kept(NamedTuple):
    """A lesson as it is kept, and what it adds to the sum of its dryer, see `as_number`."""

    lesson: _Lesson
    said: int


def _kept(conn: sqlite3.Connection, numbers: Iterable[int]) -> dict[int, _Kept]:
    wanted = [*numbers]
    rows = conn.execute(f"SELECT * FROM lessons WHERE roll IN ({marks(wanted)})", wanted).fetchall()
    return {
        row["roll"]: _Kept(
            _Lesson(row["dryer"], row["checked_at"], row["checks"]), _number(row["evidence"])
        )
        for row in rows
    }


def _keep(conn: sqlite3.Connection, roll: int, lesson: _Lesson) -> int:
    checks = checks_in(lesson.checks)
    said = evidence(checks)
    conn.execute(
        "INSERT INTO lessons (roll, dryer, checked_at, checks, tacky, found_dry, evidence)"
        " VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (roll) DO UPDATE SET dryer = excluded.dryer,"
        " checked_at = excluded.checked_at, checks = excluded.checks, tacky = excluded.tacky,"
        " found_dry = excluded.found_dry, evidence = excluded.evidence",
        (
            roll,
            lesson.dryer,
            lesson.checked_at,
            lesson.checks,
            tacky(checks),
            found_dry(checks),
            pack(said),
        ),
    )
    return as_number(said)


def _sum_up(conn: sqlite3.Connection, dryer: int, change: int = 0) -> None:
    """Learn from the latest lessons: change the sum by what was told and what counts no more.

    The evidence of the lessons that count is kept beside them, that of others is not: it is worked
    out again where the undoing of later checks lets it count once more, and where no sum is kept.
    """
    kept = _sum_kept(conn, dryer)
    total = _begin_anew(conn, dryer) if kept is None else kept + change
    latest = conn.execute(
        "SELECT roll, checked_at, tacky, found_dry, length(evidence) AS counts FROM lessons"
        " WHERE dryer = ? ORDER BY checked_at DESC, roll DESC LIMIT ?",
        (dryer, COUNTED_ROLLS),
    ).fetchall()
    if not latest:
        conn.execute("DELETE FROM learned WHERE dryer = ?", (dryer,))
        return
    total += sum(_count_in(conn, lesson["roll"]) for lesson in latest if not lesson["counts"])
    total -= _drop_older_than(conn, dryer, latest[-1])
    _keep_sum(conn, dryer, total, latest)


def _sum_kept(conn: sqlite3.Connection, dryer: int) -> int | None:
    row = conn.execute("SELECT evidence FROM learned WHERE dryer = ?", (dryer,)).fetchone()
    if row is None:
        return None
    with understood("lessons"):
        return as_number(unpack(row["evidence"]))


def _begin_anew(conn: sqlite3.Connection, dryer: int) -> int:
    """Let no lesson count yet; return what is believed before all of them."""
    conn.execute("UPDATE lessons SET evidence = x'' WHERE dryer = ? AND evidence <> x''", (dryer,))
    return as_number(prior_evidence())


def _count_in(conn: sqlite3.Connection, roll: int) -> int:
    """Let a lesson count; return what it adds to the sum."""
    told = conn.execute("SELECT checks FROM lessons WHERE roll = ?", (roll,)).fetchone()["checks"]
    said = evidence(checks_in(told))
    _set_evidence(conn, roll, pack(said))
    return as_number(said)


def _drop_older_than(conn: sqlite3.Connection, dryer: int, oldest: sqlite3.Row) -> int:
    """Let the lessons before the oldest that counts count no more; return what they added."""
    dropped = conn.execute(
        "SELECT roll, evidence FROM lessons WHERE dryer = ? AND evidence <> x''"
        " AND (checked_at, roll) < (?, ?)",
        (dryer, oldest["checked_at"], oldest["roll"]),
    ).fetchall()
    for lesson in dropped:
        _set_evidence(conn, lesson["roll"], b"")
    return sum(_number(lesson["evidence"]) for lesson in dropped)


def _keep_sum(
    conn: sqlite3.Connection, dryer: int, total: int, latest: Sequence[sqlite3.Row]
) -> None:
    with understood("lessons"):
        said = as_evidence(total)
    conn.execute(
        "INSERT INTO learned (dryer, evidence, proven, least) VALUES (?, ?, ?, ?)"
        " ON CONFLICT (dryer) DO UPDATE SET evidence = excluded.evidence, proven = excluded.proven,"
        " least = excluded.least",
        (
            dryer,
            pack(said),
            *guard(
                len(latest),
                sum(lesson["tacky"] for lesson in latest),
                [minutes for lesson in latest if (minutes := lesson["found_dry"]) is not None],
            ),
        ),
    )


def _set_evidence(conn: sqlite3.Connection, roll: int, said: bytes) -> None:
    conn.execute("UPDATE lessons SET evidence = ? WHERE roll = ?", (said, roll))


def _number(packed: bytes) -> int:
    return as_number(unpack(packed)) if packed else 0
