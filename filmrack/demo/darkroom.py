"""The demo's darkroom as it is, beside what its record says of it.

The record is written by the same acts that people use. What it cannot know is kept here: how long
a roll really takes to dry, who took film without saying so, what hangs and was never loaded.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from random import Random

from filmrack.acts import drying, fetching
from filmrack.acts.group import Hand
from filmrack.demo.diary import Diary
from filmrack.domain.dryer import minutes_hung
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.domain.student_desk import By
from filmrack.store import clips, fan, rolls
from filmrack.store.file import DarkroomFile

MINUTE = timedelta(minutes=1)

MEDIAN_MINUTES = 8.0
SPREAD = 0.17
"""Of the natural logarithm of the dryer minutes that rolls need here."""
WRONG_ANSWERS = 0.025
CLIP_PAIRS = 150

STUDENT: By = "student desk"
TEACHER: By = "teacher"


@dataclass(slots=True)
class Darkroom:
    """One open darkroom file, chance, what is to come, and what the record does not know."""

    file: DarkroomFile
    chance: Random
    diary: Diary = field(default_factory=Diary)
    needs: dict[int, float] = field(default_factory=dict)
    """Dryer minutes until a roll is really dry, by roll."""
    taken_unsaid: set[int] = field(default_factory=set)
    really_on: dict[int, int] = field(default_factory=dict)
    """The rod on which a roll hangs that the record has on another one."""
    unknown_clips: dict[int, list[int]] = field(default_factory=dict)
    """Clips of rolls that nobody loaded, by the rod on which they hang."""

    @property
    def room(self) -> Room:
        """Return the room."""
        return self.file.room()

    def roll(self, number: int) -> Roll:
        """Return a roll as the record has it now."""
        return rolls.by_id(self.file.conn, number)

    def hand(self, at: datetime, by: By, told: datetime | None = None) -> Hand:
        """Return whose hand it is: students stand at the dryer's desk, the teacher at hers."""
        desk = "dryer" if by == STUDENT else "archive"
        return Hand(at, told or at, desk, by)

    def later(self, moment: datetime, least: float, most: float) -> datetime:
        """Return a moment that comes some minutes after another one."""
        return moment + self.chance.uniform(least, most) * MINUTE

    def happens(self, probability: float) -> bool:
        """Tell whether something of that probability happens this time."""
        return self.chance.random() < probability

    def free_clips(self, number: int = 1) -> list[int]:
        """Return clip pairs that are on no roll."""
        taken = clips.in_use(self.file.conn).union(*self.unknown_clips.values())
        free = [clip for clip in range(1, CLIP_PAIRS + 1) if clip not in taken]
        return self.chance.sample(free, number)

    def is_really_dry(self, number: int, at: datetime) -> bool:
        """Tell whether the slow end of a hanging roll is dry."""
        stays = [stay.way_up for stay in self.roll(number).stays]
        dryer = self.room.dryer_of(self.roll(number).stays[-1].rod).number
        runs = fan.runs(self.file.conn, stays[0].hung).get(dryer, [])
        drawn = math.log(MEDIAN_MINUTES) + SPREAD * self.chance.gauss(0, 1)
        need = self.needs.setdefault(number, math.exp(drawn))
        return dryer_minutes(*minutes_hung(stays, runs, at)) >= need

    def touch(self, number: int, at: datetime) -> bool:
        """Touch a roll, keep what the finger says, and return that; it is wrong now and then."""
        dry = self.is_really_dry(number, at) != self.happens(WRONG_ANSWERS)
        drying.touch(self.file, self.hand(at, STUDENT), number, dry=dry)
        return dry

    def hangs(self, number: int) -> bool:
        """Tell whether a roll hangs, by the record and in truth."""
        return self.roll(number).place.kind == "rod" and number not in self.taken_unsaid

    def take(self, number: int, at: datetime) -> None:
        """Let the owner take a roll home."""
        fetching.take(self.file, self.hand(at, STUDENT), number)
