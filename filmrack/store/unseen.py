"""What no hand had since the turn of its rod came: missing, or left hanging beside wet film."""

import sqlite3
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

from filmrack.domain.attention import Standing
from filmrack.domain.roll import Roll
from filmrack.domain.sweep import NotSeen, RodCount, not_seen
from filmrack.store import sweeps
from filmrack.store.findings import findings

_JUST_BEFORE = timedelta(minutes=5)
"""How long before its rod's turn a roll that was found tacky still counts as seen there."""


class Unseen(NamedTuple):
    """Rolls on rods that were looked through, and that no hand had since."""

    missing: tuple[Roll, ...]
    """What finishing the sweep names as missing."""
    wet: tuple[Roll, ...]
    """What was not dry by the clock when its rod's turn came: a hand leaves it hanging."""
    dry: tuple[Roll, ...]
    """What was dry but hangs beside wet film: a hand may have left it, so it is not missing."""


def unseen(conn: sqlite3.Connection, sweep: int, hanging: Iterable[Standing]) -> Unseen:
    """Return what of all that hangs was not seen by a sweep, rod by rod (see `not_seen`)."""
    turns, by_rod = sweeps.turns(conn, sweep), _by_rod(hanging)
    hangs_on = sweeps.seen(conn, sweep)
    missing: list[Roll] = []
    wet: list[Roll] = []
    passed_over: list[Roll] = []
    for rod, count in sweeps.counts(conn, sweep).items():
        if count.looked_through:
            there = {each.roll.id: each for each in by_rod.get(rod, [])}
            judged = _judged(count, there, turns[rod], hangs_on)
            missing += [there[number].roll for number in judged.missing]
            wet += [there[number].roll for number in judged.wet]
            passed_over += [there[number].roll for number in judged.passed_over]
    return Unseen(tuple(missing), tuple(wet), tuple(passed_over))


def _judged(
    count: RodCount, there: dict[int, Standing], turn: datetime, hangs_on: frozenset[int]
) -> NotSeen:
    rolls = [each.roll for each in there.values()]
    return not_seen(
        count,
        list(there),
        hung=len(hung_by(rolls, turn)),
        seen={roll.id for roll in rolls if _seen(roll, turn, hangs_on)},
        felt={roll.id for roll in rolls if _left_wet(roll, turn, _JUST_BEFORE)},
        is_dry=lambda number: there[number].at(turn).state == "dry",
    )


def rods_through(
    conn: sqlite3.Connection, sweep: int, hanging: Sequence[Standing]
) -> frozenset[int]:
    """Return the rods at which a sweep has nothing more to do."""
    by_rod = _by_rod(hanging)
    found = unseen(conn, sweep, hanging)
    looked_for = {roll.id for roll in (*found.missing, *found.dry)}
    boxed = findings(conn, sweep).boxed
    through = []
    for rod, count in sweeps.counts(conn, sweep).items():
        there = by_rod.get(rod, [])
        left = len(there)
        if count.looked_through:
            left = sum(each.roll.id in looked_for for each in there)
        own = sum(each.rod == rod and each.own for each in boxed)
        if count.through(found=own, kept=len(there) - left, unseen=left):
            through.append(rod)
    return frozenset(through)


def _by_rod(hanging: Iterable[Standing]) -> dict[int | None, list[Standing]]:
    found: dict[int | None, list[Standing]] = {}
    for each in hanging:
        found.setdefault(each.roll.place.number, []).append(each)
    return found


def hung_by(there: Iterable[Roll], turn: datetime) -> list[Roll]:
    """Return what of a rod hung there when its turn came: what was hung since was not counted."""
    return [roll for roll in there if roll.since <= turn]


def _seen(roll: Roll, turn: datetime, hangs_on: frozenset[int]) -> bool:
    return roll.id in hangs_on or roll.seen_at > turn or _left_wet(roll, turn, timedelta(0))


def _left_wet(roll: Roll, turn: datetime, before: timedelta) -> bool:
    """Tell whether a finger found a roll tacky last, at most so long before the rod's turn."""
    last = roll.checks[-1] if roll.checks else None
    return last is not None and not last.dry and turn - last.at <= before
