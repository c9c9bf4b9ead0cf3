"""A class that develops: tanks are loaded, wet film is hung, flipped, touched and fetched."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial

from filmrack.acts import drying, hanging, undoing
from filmrack.acts.fetching import box
from filmrack.demo.archive import Archive
from filmrack.demo.darkroom import MINUTE, STUDENT, TEACHER, Darkroom
from filmrack.domain.timetable import Meeting
from filmrack.store import people

_FILMS = ("135-36",) * 22 + ("135-24",) * 6 + ("120-6x6", "120-6x7", "120-6x4.5")

_DILIGENCE = {(2026, 9): 0.15, (2026, 10): 0.4, (2026, 11): 0.75}
"""How many touch their film before the bell and say so, by year and month."""
LOADED_AFTER = (4.0, 11.0)
PROCESS = (33.0, 40.0)
"""Minutes into the lesson, and from then to hanging."""


@dataclass(frozen=True, slots=True)
class Classwork:
    """What one class does in the lessons in which it develops."""

    darkroom: Darkroom
    archive: Archive

    def develop(self, meeting: Meeting, students: Sequence[int]) -> None:
        """Write down that some students develop a roll each in one lesson."""
        diary, later = self.darkroom.diary, self.darkroom.later
        for person in students:
            loaded = later(meeting.starts, *LOADED_AFTER)
            diary.at(loaded, partial(self._load, meeting, person))

    def _load(self, meeting: Meeting, person: int, at: datetime) -> None:
        room, chance = self.darkroom, self.darkroom.chance
        film = chance.choice(_FILMS)
        hung = min(room.later(at, *PROCESS), meeting.ends - chance.uniform(1, 5) * MINUTE)
        if room.happens(0.04):  # nobody had dry hands: hung without having been loaded
            room.diary.at(hung, partial(self._hang, meeting, None, person, film))
            return
        clips = room.free_clips(2 if room.happens(0.05) else 1)
        hand = room.hand(at, STUDENT)
        loaded = hanging.load(room.file, hand, person, clips, film).rolls
        if room.happens(0.006):  # the wrong name, seen at once
            undoing.undo(room.file, hand, loaded[0].id)
            loaded = hanging.load(room.file, hand, person, clips, film).rolls
        for nth, roll in enumerate(loaded):
            moment = hung + nth * MINUTE / 2
            room.diary.at(moment, partial(self._hang, meeting, roll.id, person, film))

    def _hang(
        self, meeting: Meeting, number: int | None, person: int, film: str, at: datetime
    ) -> None:
        room = self.darkroom
        clip = room.free_clips()[0] if number is None else None
        hand = room.hand(at, STUDENT)
        hung = hanging.hang(room.file, hand, roll=number, person=person, clip=clip, film=film)
        self.hung(hung.roll.id, meeting, at)

    def hung(self, number: int, meeting: Meeting, at: datetime) -> None:
        """Write down what becomes of a roll that was hung just now."""
        room = self.darkroom
        self.archive.expect(number, meeting)
        if room.happens(0.86):
            room.diary.at(room.later(at, 3.6, 6.5), partial(self.flip, number))
        touched = room.later(at, 7.0, 11.5)
        if touched < meeting.ends and room.happens(self._diligence(at)):
            room.diary.at(touched, partial(self._touch, number, meeting))
        elif room.happens(0.004):
            room.diary.at(room.later(meeting.ends, 5, 30), partial(self._take_unsaid, number))
        elif room.happens(0.004):
            room.diary.at(room.later(at, 1, 2), partial(self._push_along, number))
        elif room.happens(0.004):
            room.unknown_clips.setdefault(room.roll(number).place.number or 0, []).extend(
                room.free_clips()
            )

    def _diligence(self, at: datetime) -> float:
        """Telling of touch checks has caught on only this term."""
        return _DILIGENCE.get((at.year, at.month), 0.02)

    def flip(self, number: int, at: datetime) -> None:
        """Flip a roll, if it hangs still; now and then that is told a quarter of an hour late."""
        room = self.darkroom
        if not room.hangs(number):
            return
        if room.happens(0.01):
            room.diary.at(at + 15 * MINUTE, partial(self._flipped_earlier, number, at))
        else:
            drying.flip(room.file, room.hand(at, STUDENT), [number])

    def _flipped_earlier(self, number: int, then: datetime, at: datetime) -> None:
        room = self.darkroom
        roll = room.roll(number)
        if room.hangs(number) and not roll.checks and len(roll.stays) == 1:
            drying.flip(room.file, room.hand(then, STUDENT, told=at), [number])

    def _touch(self, number: int, meeting: Meeting, at: datetime) -> None:
        room = self.darkroom
        if not room.hangs(number):
            return
        if not room.touch(number, at):
            again = room.later(at, 2, 4)
            if again < meeting.ends:
                room.diary.at(again, partial(self._touch, number, meeting))
        elif room.happens(0.45):
            room.diary.at(room.later(at, 0.3, 2), partial(self._take_down, number))

    def _take_down(self, number: int, at: datetime) -> None:
        room = self.darkroom
        if not room.hangs(number):
            return
        if room.happens(0.5):
            room.take(number, at)
        else:
            box(room.file, room.hand(at, TEACHER), [number])

    def _take_unsaid(self, number: int, at: datetime) -> None:
        if self.darkroom.hangs(number) and self.darkroom.is_really_dry(number, at):
            self.darkroom.taken_unsaid.add(number)

    def _push_along(self, number: int, _: datetime) -> None:
        """Somebody hung it over to a rod where there was more room, and said nothing."""
        room = self.darkroom
        if room.hangs(number):
            rods = [r.number for r in room.room.rods if r.number != room.roll(number).place.number]
            room.really_on[number] = room.chance.choice(rods)


def students_of(darkroom: Darkroom, term: str, period: int) -> list[int]:
    """Return the numbers of who is in a class."""
    return [one.number for one in people.in_period(darkroom.file.conn, term, period)]
