"""The end of the day: the dryer is swept, rod by rod."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from functools import partial

from filmrack.acts import owning
from filmrack.acts.scans import Scan
from filmrack.acts.sweeping import sweep
from filmrack.demo.classwork import students_of
from filmrack.demo.darkroom import MINUTE, TEACHER, Darkroom
from filmrack.store import rolls


@dataclass(frozen=True, slots=True)
class Emptying:
    """How the teacher empties the dryer: counts each rod, scans where the count is wrong."""

    darkroom: Darkroom

    def sweep(self, at: datetime, leaving: Collection[int] = ()) -> None:
        """Sweep all rods on which something hangs or should, but those that are left for later."""
        room = self.darkroom
        recorded: dict[int, list[int]] = {}
        there: dict[int, list[int]] = {}
        for roll in rolls.hanging(room.file.conn):
            rod = roll.place.number or 0
            recorded.setdefault(rod, []).append(roll.id)
            if roll.id not in room.taken_unsaid:
                there.setdefault(room.really_on.get(roll.id, rod), []).append(roll.id)
        rods = sorted({*recorded, *there, *room.unknown_clips} - set(leaving))
        if not rods:
            return
        counts = {
            rod: len(there.get(rod, ())) + len(room.unknown_clips.get(rod, ())) for rod in rods
        }
        # This teacher feels each strip that the clock does not call dry, and boxes what is.
        sweep(room.file, room.hand(at, TEACHER), counts=counts, not_dry_too=True)
        scans: list[Scan] = []
        for rod in rods:
            if counts[rod] != len(recorded.get(rod, ())):
                scans += [Scan(number, None, rod) for number in there.get(rod, ())]
                scans += [Scan(None, clip, rod) for clip in room.unknown_clips.get(rod, ())]
        if scans:
            sweep(room.file, room.hand(at + 2 * MINUTE, TEACHER), scans=scans)
        done = sweep(room.file, room.hand(at + 4 * MINUTE, TEACHER), finish=True)
        self._look_after(at, done.missing)
        for rod in rods:
            room.unknown_clips.pop(rod, None)

    def _look_after(self, at: datetime, missing: list[int]) -> None:
        """Whose an unknown roll is comes out a day or two later, mostly."""
        room = self.darkroom
        room.taken_unsaid.difference_update(missing)
        room.really_on.clear()
        for roll in rolls.in_places(room.file.conn, "box"):
            if roll.person is None and room.happens(0.7):
                later = room.later(at, 17 * 60, 44 * 60)
                room.diary.at(later, partial(self._claim, roll.id))

    def _claim(self, number: int, at: datetime) -> None:
        room = self.darkroom
        roll = room.roll(number)
        if roll.person is None:
            owners = sorted(students_of(room, roll.term, roll.period or 0))
            owning.claim(room.file, room.hand(at, TEACHER), number, room.chance.choice(owners))
