"""How a sweep stands, rod by rod, as the file has it: the same at every desk."""

from __future__ import annotations

import sqlite3
from datetime import datetime
from typing import NamedTuple

from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod
from filmrack.domain.sweep import OpenCount, RodCount
from filmrack.store import people, sweeps
from filmrack.store.findings import Finding, Findings, findings
from filmrack.store.open_counts import left_open, open_counts
from filmrack.store.unseen import Unseen, hung_by, unseen

_NOTHING = Findings((), ())
_NONE_UNSEEN = Unseen((), (), ())


class SweepCourse(NamedTuple):
    """One reading of the sweep that goes on, of one that was finished today, or of none."""

    number: int | None
    finished: bool
    turns: tuple[Turn, ...]
    boxed: tuple[Finding, ...]
    missing: tuple[Roll, ...]
    """What is missing, or will be when it is finished now."""
    turned_up: tuple[Roll, ...] = ()
    """What it named as missing and somebody found since."""
    changed: datetime | None = None
    """When something was found or missed last after the sweep was finished, if anything was: slips
    that were printed before are wrong about it."""
    open: tuple[OpenCount, ...] = ()
    """Counts that nobody has explained, or had when it was finished."""

    def turn(self, rod: int | None) -> Turn | None:
        """Return the turn of a rod, or None."""
        return next((turn for turn in self.turns if turn.rod.number == rod), None)

    @property
    def passed_by(self) -> frozenset[int]:
        """Return the rods of which nothing is told though something is of a later one."""
        told = [nth for nth, turn in enumerate(self.turns) if turn.count is not None]
        before = self.turns[: max(told, default=0)]
        return frozenset(turn.rod.number for turn in before if turn.count is None)

    @property
    def not_looked_at(self) -> tuple[Turn, ...]:
        """Return the rods with film on them that nobody counted and nobody scanned."""
        return tuple(turn for turn in self.turns if turn.count is None and turn.hanging)

    @property
    def astray(self) -> tuple[Finding, ...]:
        """Return what was found where the record did not have it."""
        return tuple(each for each in self.boxed if each.recorded is not None)

    @property
    def in_boxes(self) -> tuple[Roll, ...]:
        """Return what it put in a box, and what turned up since and went to one."""
        later = (roll for roll in self.turned_up if roll.place.kind == "box")
        return (*(each.roll for each in self.boxed), *later)

    @property
    def taken_since(self) -> str:
        """Return how many of those that it boxed are in no box any more: ` (1 taken since)`, or
        ` (2 in none now)` where not each is with its owner; else nothing.
        """
        gone = [roll.place.kind for roll in self.in_boxes if roll.place.kind != "box"]
        how = "taken since" if set(gone) == {"owner"} else "in none now"
        return f" ({len(gone)} {how})" if gone else ""

    @property
    def slips(self) -> tuple[object, ...]:
        """Return what its slips say: those that said something else are out of date."""
        boxed = {(each.roll.id, each.box) for each in self.boxed}
        later = {(roll.id, roll.place.number) for roll in self.turned_up}
        return self.number, boxed | later, {roll.id for roll in self.missing}, self.open

    @property
    def unknown(self) -> tuple[Finding, ...]:
        """Return what it boxed that nobody knows whose it is, on the record before or not."""
        return tuple(each for each in self.boxed if each.roll.person is None)


def read_sweep(session: Session, now: Now, aside: int = 0) -> SweepCourse:
    """Read the sweep that goes on; if none does, the last one that was finished today.

    A finished one of the number `aside` is not looked at. The owners of all that it found join
    those of the moment.
    """
    conn, room = session.file.conn, now.room
    going = sweeps.going_on(conn)
    shown = going or _of_today(conn, now, aside)
    if shown is None:
        none = _turns(now, room.rods, {}, told=_NOTHING, not_seen=_NONE_UNSEEN, came={})
        return SweepCourse(None, False, none, (), ())
    told, not_seen = findings(conn, shown.id), unseen(conn, shown.id, now.hanging)
    if going is not None:
        unexplained = open_counts(conn, shown.id, now.hanging, not_seen.missing)
        missing = told.missing + not_seen.missing
    else:  # what was named at its end is missing, and nothing more will be
        unexplained, missing = left_open(conn, shown.id), told.missing
    owned = [*(each.roll for each in told.boxed), *missing, *told.turned_up]
    now.people.update(people.read_people(conn, (roll.person for roll in owned if roll.person)))
    rods, counts = room.rods_swept(shown.period), sweeps.counts(conn, shown.id)
    return SweepCourse(
        number=shown.id,
        finished=going is None,
        turns=_turns(
            now,
            rods,
            counts,
            told=told,
            not_seen=not_seen._replace(missing=missing),
            came=sweeps.turns(conn, shown.id),
        ),
        boxed=told.boxed,
        missing=missing,
        turned_up=told.turned_up,
        changed=told.changed,
        open=unexplained,
    )


def _of_today(conn: sqlite3.Connection, now: Now, aside: int) -> sweeps.Sweep | None:
    zone = now.room.timetable.zone
    last = next((sweep for sweep, _ in sweeps.finished(conn, 1)), None)
    if last is None or last.finished is None or last.id == aside:
        return None
    today = now.at.astimezone(zone).date()
    return last if last.finished.astimezone(zone).date() == today else None


def _turns(
    now: Now,
    rods: tuple[Rod, ...],
    counts: dict[int, RodCount],
    *,
    told: Findings,
    not_seen: Unseen,
    came: dict[int, datetime],
) -> tuple[Turn, ...]:
    dry = {roll.id for roll in not_seen.dry}
    looked_for = dry | {roll.id for roll in not_seen.missing}
    wet = {roll.id for roll in not_seen.wet}
    turns = []
    for rod in rods:
        count = counts.get(rod.number)
        hanging = tuple(now.by_rod.get(rod.number, {}).values())
        off = 0
        if count is not None:
            there = (each.roll for each in hanging)
            off = count.off(len(hung_by(there, came[rod.number])))
        looked = count is not None and (count.looked_through or count.right)
        turn = Turn(
            rod,
            count,
            hanging,
            found=tuple(each for each in told.boxed if each.rod == rod.number),
            unseen=tuple(s for s in hanging if s.roll.id in looked_for) if looked else hanging,
            staying=tuple(s for s in hanging if s.roll.id in wet),
            passed_over=tuple(s for s in hanging if s.roll.id in dry),
            lost=sum(roll.seen.is_rod(rod.number) for roll in not_seen.missing),
            off=off,
        )
        turns.append(turn)
    return tuple(turns)
