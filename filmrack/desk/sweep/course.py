"""How a sweep stands, rod by rod, as the file has it: the same at every desk."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.domain.attention import Standing
from filmrack.domain.outlook import damp
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod
from filmrack.domain.sweep import OpenCount, RodCount
from filmrack.store import people, sweeps
from filmrack.store.findings import Finding, Findings, findings
from filmrack.store.open_counts import left_open, open_counts
from filmrack.store.unseen import Unseen, unseen

_NOTHING = Findings((), ())
_NONE_UNSEEN = Unseen((), (), ())


@dataclass(frozen=True, slots=True)
class Turn:
    """One rod of the sweep: what was told of it, what hangs there still, what was found there."""

    rod: Rod
    count: RodCount | None
    hanging: tuple[Standing, ...]
    found: tuple[Finding, ...]
    unseen: tuple[Standing, ...]
    """What hangs there by the record and that no hand has had since its turn came."""
    staying: tuple[Standing, ...]
    """What was not dry by the clock when its turn came, and hangs on unseen."""
    passed_over: tuple[Standing, ...]
    """What of the unseen hangs beside wet film, and on with it if no hand says that it is gone."""
    lost: int
    """How many that should hang there are missing, or will be when the sweep is finished now."""

    @property
    def expected(self) -> int:
        """Return how many rolls should hang there, or should have when its turn came."""
        return len(self.hanging) if self.count is None else self.count.expected

    @property
    def gone(self) -> int:
        """Return how many that should hang there are missing by a hand's word."""
        return max(0, self.lost - len(self.given_up))

    @property
    def listed(self) -> int:
        """Return how many of its own it had: in a box now, hanging still, or missing."""
        return self.scanned + len(self.hanging) + self.gone

    @property
    def boxed(self) -> int:
        """Return how many rolls went to a box from there."""
        return len(self.found)

    @property
    def scanned(self) -> int:
        """Return how many of the rod's own rolls were found there."""
        return sum(each.own for each in self.found)

    @property
    def strayed(self) -> tuple[Roll, ...]:
        """Return what was found there that the record has elsewhere or nowhere."""
        return tuple(each.roll for each in self.found if not each.own)

    @property
    def strays(self) -> int:
        """Return how many were found there that the record has elsewhere or nowhere."""
        return len(self.strayed)

    @property
    def right(self) -> bool:
        """Tell whether the count was right, so that nothing is looked for."""
        return self.count is not None and self.count.right

    @property
    def short(self) -> int:
        """Return how many fewer were counted than should be there; 0 where a stray was found, for
        that may be one of those counted.
        """
        if self.count is None or self.count.counted is None or self.right or self.strays:
            return 0
        return max(0, self.scanned + len(self.hanging) - self.count.counted)

    def without(self, roll: int) -> tuple[Standing, ...]:
        """Return what hangs there for certain once a roll is missing: all else, if it is as many as
        were counted; nothing where that is not clear.
        """
        others = tuple(each for each in self.hanging if each.roll.id != roll)
        clear = self.short == 1 and len(others) < len(self.hanging)
        return others if clear else ()

    @property
    def scanning(self) -> bool:
        """Tell whether its rolls are being scanned one by one."""
        return self.count is not None and not self.right

    @property
    def looked_through(self) -> bool:
        """Tell whether a hand went through it: what is dry and not seen is missing then."""
        return self.count is not None and self.count.looked_through

    @property
    def done(self) -> bool:
        """Tell whether there is nothing more to do at it."""
        if self.count is None:
            return False
        unseen = len(self.unseen)
        kept = len(self.hanging) - unseen
        return self.count.through(found=self.scanned, kept=kept, unseen=unseen)

    @property
    def closed(self) -> bool:
        """Tell whether nobody needs to go there again: it is through, or a hand left it."""
        return self.done or (self.count is not None and self.count.left)

    @property
    def cleared(self) -> bool:
        """Tell whether it is through and nothing hangs there that somebody could still scan."""
        hangs_on = self.staying or (self.right and self.hanging)
        return self.done and not self.unseen and not hangs_on

    @property
    def beside_wet(self) -> bool:
        """Tell whether a hand went through it for what is dry, and left what is wet."""
        return bool(self.staying or self.passed_over)

    @property
    def given_up(self) -> tuple[Standing, ...]:
        """Return what is missing when the sweep is finished now, for no hand has seen it."""
        if not self.looked_through:
            return ()
        kept = {each.roll.id for each in self.passed_over}
        return tuple(each for each in self.unseen if each.roll.id not in kept)

    @property
    def answered(self) -> bool:
        """Tell whether its count was told and no strip of it was scanned: it is asked of no more
        unless somebody goes there.
        """
        return self.count is not None and self.count.counted is not None and not self.boxed

    @property
    def dry(self) -> tuple[Standing, ...]:
        """Return what of those that hang there is dry by the clock."""
        return tuple(each for each in self.hanging if each.state == "dry")

    @property
    def left_hanging(self) -> int:
        """Return how many hang there and stay there when the sweep is finished now."""
        return len(self.hanging) - len(self.given_up)

    @property
    def damp(self) -> str:
        """Return how many of those that hang there are wet or to touch: `5 wet, 3 to touch`."""
        return damp(each.state for each in self.hanging)

    @property
    def not_dry(self) -> int:
        """Return how many of those that hang there are not dry by the clock."""
        return len(self.hanging) - len(self.dry)


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
    """When something was found or missed last, after it was finished, if anything was: slips from
    before have that otherwise."""
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
    def slips(self) -> tuple[object, ...]:
        """Return what its slips say: those that said something else are out of date."""
        boxed = {(each.roll.id, each.box) for each in self.boxed}
        later = {(roll.id, roll.place.number) for roll in self.turned_up}
        return self.number, boxed | later, {roll.id for roll in self.missing}, self.open

    @property
    def unknown(self) -> tuple[Finding, ...]:
        """Return what no record explained."""
        return tuple(each for each in self.boxed if each.unknown)


def read_sweep(session: Session, now: Now, aside: int = 0) -> SweepCourse:
    """Read the sweep that goes on; if none does, the last one that was finished today.

    A finished one of the number `aside` is not looked at. The owners of all that it found join
    those of the moment.
    """
    conn, room = session.file.conn, now.room
    going = sweeps.going_on(conn)
    shown = going or _of_today(conn, now, aside)
    if shown is None:
        return SweepCourse(None, False, _turns(now, room.rods, {}, _NOTHING, _NONE_UNSEEN), (), ())
    number = shown.id
    counts, told = sweeps.counts(conn, number), findings(conn, number)
    not_seen = unseen(conn, number, now.hanging)
    if going is not None:
        unexplained = open_counts(conn, number, now.hanging, not_seen.missing)
    else:  # what was named then is missing, and nothing more will be
        unexplained = left_open(conn, number)
        not_seen = not_seen._replace(missing=())
    missing = told.missing + not_seen.missing
    not_seen = not_seen._replace(missing=missing)
    owned = [*(each.roll for each in told.boxed), *missing, *told.turned_up]
    now.people.update(people.read_people(conn, (roll.person for roll in owned if roll.person)))
    turns = _turns(now, room.rods_swept(shown.period), counts, told, not_seen)
    return SweepCourse(
        number,
        going is None,
        turns,
        told.boxed,
        missing,
        told.turned_up,
        told.changed,
        unexplained,
    )


def _of_today(conn: sqlite3.Connection, now: Now, aside: int) -> sweeps.Sweep | None:
    zone = now.room.timetable.zone
    for last, _ in sweeps.finished(conn, 1):
        ended = last.finished
        today = now.at.astimezone(zone).date()
        if last.id != aside and ended is not None and ended.astimezone(zone).date() == today:
            return last
    return None


def _turns(
    now: Now,
    rods: tuple[Rod, ...],
    counts: dict[int, RodCount],
    told: Findings,
    not_seen: Unseen,
) -> tuple[Turn, ...]:
    dry = {roll.id for roll in not_seen.dry}
    looked_for = dry | {roll.id for roll in not_seen.missing}
    wet = {roll.id for roll in not_seen.wet}
    turns = []
    for rod in rods:
        count = counts.get(rod.number)
        hanging = tuple(now.by_rod.get(rod.number, {}).values())
        looked = count is not None and (count.looked_through or count.right)
        unseen = tuple(s for s in hanging if s.roll.id in looked_for) if looked else hanging
        staying = tuple(s for s in hanging if s.roll.id in wet)
        passed_over = tuple(s for s in hanging if s.roll.id in dry)
        found = tuple(each for each in told.boxed if each.rod == rod.number)
        lost = sum(r.seen.is_rod(rod.number) for r in not_seen.missing)
        turns.append(Turn(rod, count, hanging, found, unseen, staying, passed_over, lost))
    return tuple(turns)
