"""What no hand had since the turn of its rod came: missing, or left hanging beside wet film."""

import sqlite3
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

from filmrack.domain.attention import Standing
from filmrack.domain.roll import Roll
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
    """Return what of all that hangs was not seen by a sweep.

    A finger that found a roll tacky just before it went through the rod had it in hand too, where
    the count has room for that. What was not dry hangs on, and what is dry beside it too as long as
    nobody counted. A count of all that should hang and what strayed there, or of more, says that
    nothing is missing. If a hand counted fewer, which of them is gone is not known, so that each is
    missing that nobody scans or finds tacky.
    """
    turns, by_rod = sweeps.turns(conn, sweep), _by_rod(hanging)
    hangs_on = sweeps.seen(conn, sweep)
    missing: list[Roll] = []
    wet: list[Roll] = []
    passed_over: list[Roll] = []
    for rod, count in sweeps.counts(conn, sweep).items():
        if not count.looked_through:
            continue
        turn, there = turns[rod], by_rod.get(rod, [])
        seen = {each.roll.id for each in there if _seen(each.roll, turn, hangs_on)}
        felt = {each.roll.id for each in there if _felt_just_before(each.roll, turn)} - seen
        off = count.off(len(hung_by((each.roll for each in there), turn)))
        if off <= len(there) - len(seen | felt):  # else the count has no room for what was felt
            seen |= felt
        not_seen = [each for each in there if each.roll.id not in seen]
        not_dry = [each.roll for each in not_seen if each.at(turn).state != "dry"]
        dry = [each.roll for each in not_seen if each.roll not in not_dry]
        leaves_room = off <= len(dry)
        wet += not_dry if leaves_room else []
        beside_wet = count.counted is None and len(dry) < len(there)
        if beside_wet or (count.counted is not None and off <= 0):
            passed_over += dry
        else:
            missing += dry if leaves_room else [each.roll for each in not_seen]
    return Unseen(tuple(missing), tuple(wet), tuple(passed_over))


def rods_through(
    conn: sqlite3.Connection, sweep: int, hanging: Sequence[Standing]
) -> frozenset[int]:
    """Return the rods at which a sweep has nothing more to do."""
    by_rod = _by_rod(hanging)
    not_seen = unseen(conn, sweep, hanging)
    looked_for = {roll.id for roll in (*not_seen.missing, *not_seen.dry)}
    boxed = findings(conn, sweep).boxed
    through = []
    for rod, count in sweeps.counts(conn, sweep).items():
        there = by_rod.get(rod, [])
        left = len(there)
        if count.looked_through:
            left = sum(each.roll.id in looked_for for each in there)
        found = sum(each.rod == rod and each.own for each in boxed)
        if count.through(found=found, kept=len(there) - left, unseen=left):
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


def _felt_just_before(roll: Roll, turn: datetime) -> bool:
    return _left_wet(roll, turn, _JUST_BEFORE)


def _left_wet(roll: Roll, turn: datetime, before: timedelta) -> bool:
    """Tell whether a finger found a roll tacky last, at most so long before the rod's turn."""
    last = roll.checks[-1] if roll.checks else None
    return last is not None and not last.dry and turn - last.at <= before
