"""The block that is on at the demo's moment, minute by minute, so that every state is there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial

from filmrack.acts import drying, hanging
from filmrack.demo.classwork import students_of
from filmrack.demo.darkroom import MINUTE, STUDENT, Darkroom
from filmrack.demo.diary import Happening
from filmrack.demo.school import BLOCKS, MOMENT

_BLOCK = BLOCKS["A"]
_NEIGHBOUR = 2
"""A rod that is not this block's."""


@dataclass(frozen=True, slots=True)
class Planned:
    """What was done to one roll, each in minutes before the demo's moment."""

    hung: float
    flipped: float | None = None
    touched: tuple[tuple[float, bool], ...] = ()
    taken: float | None = None
    rod: int | None = None
    film: str = "135-36"


_HUNG = (
    Planned(17.8, 13.2, ((6.0, True),), taken=4.5),
    Planned(17.1, 12.4, ((8.2, False), (5.0, True))),
    Planned(15.9, 11.0, ((4.0, False), (1.5, True))),
    Planned(14.6, 10.1),
    Planned(13.2, 8.9, ((2.6, False),)),
    Planned(10.6, 6.2, film="135-24"),
    Planned(10.1, 5.5, rod=_NEIGHBOUR),
    Planned(8.6, 4.4),
    Planned(6.9),
    Planned(5.8),
    Planned(3.4, film="120-6x6"),
    Planned(1.2),
)
_STILL_IN_THE_TANK = 4
_UNKNOWN_HUNG = 7.4
_LOADED_BEFORE_HANGING = 37.0


@dataclass(frozen=True, slots=True)
class Morning:
    """The lesson at the demo's moment."""

    darkroom: Darkroom

    def plan(self) -> None:
        """Write the lesson into the diary when it begins, for then the class is known."""
        meeting = self.darkroom.room.timetable.meeting_at(MOMENT)
        assert meeting is not None
        assert meeting.period == _BLOCK
        self.darkroom.diary.at(meeting.starts, self._begin)

    def _begin(self, _: datetime) -> None:
        darkroom = self.darkroom
        students = students_of(darkroom, "26F", _BLOCK)
        darkroom.chance.shuffle(students)
        for person, roll in zip(students, _HUNG, strict=False):
            self._at(roll.hung + _LOADED_BEFORE_HANGING, partial(self._load, person, roll))
        for nth, person in enumerate(students[len(_HUNG) :][:_STILL_IN_THE_TANK]):
            self._at(33.0 - 2.4 * nth, partial(self._load, person, None))
        self._at(_UNKNOWN_HUNG, self._hang_an_unknown_roll)

    def _at(self, before: float, happening: Happening) -> None:
        self.darkroom.diary.at(MOMENT - before * MINUTE, happening)

    def _load(self, person: int, roll: Planned | None, at: datetime) -> None:
        darkroom = self.darkroom
        film = roll.film if roll else "135-36"
        hand = darkroom.hand(at, STUDENT)
        (loaded,) = hanging.load(darkroom.file, hand, person, darkroom.free_clips(), film).rolls
        if roll is not None:
            self._at(roll.hung, partial(self._hang, loaded.id, roll))

    def _hang(self, number: int, roll: Planned, at: datetime) -> None:
        darkroom = self.darkroom
        hanging.hang(darkroom.file, darkroom.hand(at, STUDENT), roll=number, rod=roll.rod)
        if roll.flipped is not None:
            self._at(roll.flipped, partial(self._flip, number))
        self._touch_all(number, roll.touched)
        if roll.taken is not None:
            self._at(roll.taken, partial(darkroom.take, number))

    def _flip(self, number: int, at: datetime) -> None:
        drying.flip(self.darkroom.file, self.darkroom.hand(at, STUDENT), [number])

    def _touch_all(self, number: int, touched: Sequence[tuple[float, bool]]) -> None:
        for before, dry in touched:
            self._at(before, partial(self._touch, number, dry))

    def _touch(self, number: int, dry: bool, at: datetime) -> None:
        darkroom = self.darkroom
        drying.touch(darkroom.file, darkroom.hand(at, STUDENT), number, dry=dry)

    def _hang_an_unknown_roll(self, at: datetime) -> None:
        """Nobody at the desk knows whose this is."""
        darkroom = self.darkroom
        hand, clip = darkroom.hand(at, STUDENT), darkroom.free_clips()[0]
        hanging.hang(
            darkroom.file, hand, clip=clip, rod=1, clue="two people on a pier, first frames"
        )
