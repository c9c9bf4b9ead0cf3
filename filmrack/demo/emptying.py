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
        darkroom = self.darkroom
        recorded: dict[int, list[int]] = {}
        there: dict[int, list[int]] = {}
        for roll in rolls.hanging(darkroom.file.conn):
            rod = roll.place.number or 0
            recorded.setdefault(rod, []).append(roll.id)
            if roll.id not in darkroom.taken_unsaid:
                there.setdefault(darkroom.really_on.get(roll.id, rod), []).append(roll.id)
        rods = sorted({*recorded, *there, *darkroom.unknown_clips} - set(leaving))
        if not rods:
            return
        counts = {
            rod: len(there.get(rod, ())) + len(darkroom.unknown_clips.get(rod, ())) for rod in rods
        }
        # This teacher feels each strip that the clock does not call dry, and boxes what is.
        sweep(darkroom.file, darkroom.hand(at, TEACHER), counts=counts, not_dry_too=True)
        scans: list[Scan] = []
        for rod in rods:
            if counts[rod] != len(recorded.get(rod, ())):
                scans += [Scan(number, None, rod) for number in there.get(rod, ())]
                scans += [Scan(None, clip, rod) for clip in darkroom.unknown_clips.get(rod, ())]
        if scans:
            sweep(darkroom.file, darkroom.hand(at + 2 * MINUTE, TEACHER), scans=scans)
        done = sweep(darkroom.file, darkroom.hand(at + 4 * MINUTE, TEACHER), finish=True)
        self._look_after(at, done.missing)
        for rod in rods:
            darkroom.unknown_clips.pop(rod, None)

    def _look_after(self, at: datetime, missing: list[int]) -> None:
        """Whose an unknown roll is comes out a day or two later, mostly."""
        darkroom = self.darkroom
        darkroom.taken_unsaid.difference_update(missing)
        darkroom.really_on.clear()
        for roll in rolls.in_places(darkroom.file.conn, "box"):
            if roll.person is None and darkroom.happens(0.7):
                later = darkroom.later(at, 17 * 60, 44 * 60)
                darkroom.diary.at(later, partial(self._claim, roll.id))

    def _claim(self, number: int, at: datetime) -> None:
        darkroom = self.darkroom
        roll = darkroom.roll(number)
        if roll.person is None:
            owners = sorted(students_of(darkroom, roll.term, roll.period or 0))
            owning.claim(
                darkroom.file, darkroom.hand(at, TEACHER), number, darkroom.chance.choice(owners)
            )
