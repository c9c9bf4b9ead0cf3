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
        darkroom, chance = self.darkroom, self.darkroom.chance
        film = chance.choice(_FILMS)
        hung = min(darkroom.later(at, *PROCESS), meeting.ends - chance.uniform(1, 5) * MINUTE)
        if darkroom.happens(0.04):  # nobody had dry hands: hung without having been loaded
            darkroom.diary.at(hung, partial(self._hang, meeting, None, person, film))
            return
        clips = darkroom.free_clips(2 if darkroom.happens(0.05) else 1)
        hand = darkroom.hand(at, STUDENT)
        loaded = hanging.load(darkroom.file, hand, person, clips, film).rolls
        if darkroom.happens(0.006):  # the wrong name, seen at once
            undoing.undo(darkroom.file, hand, loaded[0].id)
            loaded = hanging.load(darkroom.file, hand, person, clips, film).rolls
        for nth, roll in enumerate(loaded):
            moment = hung + nth * MINUTE / 2
            darkroom.diary.at(moment, partial(self._hang, meeting, roll.id, person, film))

    def _hang(
        self, meeting: Meeting, number: int | None, person: int, film: str, at: datetime
    ) -> None:
        darkroom = self.darkroom
        clip = darkroom.free_clips()[0] if number is None else None
        hand = darkroom.hand(at, STUDENT)
        hung = hanging.hang(darkroom.file, hand, roll=number, person=person, clip=clip, film=film)
        self.hung(hung.roll.id, meeting, at)

    def hung(self, number: int, meeting: Meeting, at: datetime) -> None:
        """Write down what becomes of a roll that was hung just now."""
        darkroom = self.darkroom
        self.archive.expect(number, meeting)
        if darkroom.happens(0.86):
            darkroom.diary.at(darkroom.later(at, 3.6, 6.5), partial(self.flip, number))
        touched = darkroom.later(at, 7.0, 11.5)
        if touched < meeting.ends and darkroom.happens(self._diligence(at)):
            darkroom.diary.at(touched, partial(self._touch, number, meeting))
        elif darkroom.happens(0.004):
            darkroom.diary.at(
                darkroom.later(meeting.ends, 5, 30), partial(self._take_unsaid, number)
            )
        elif darkroom.happens(0.004):
            darkroom.diary.at(darkroom.later(at, 1, 2), partial(self._push_along, number))
        elif darkroom.happens(0.004):
            darkroom.unknown_clips.setdefault(darkroom.roll(number).place.number or 0, []).extend(
                darkroom.free_clips()
            )

    def _diligence(self, at: datetime) -> float:
        """Telling of touch checks has caught on only this term."""
        return _DILIGENCE.get((at.year, at.month), 0.02)

    def flip(self, number: int, at: datetime) -> None:
        """Flip a roll, if it hangs still; now and then that is told a quarter of an hour late."""
        darkroom = self.darkroom
        if not darkroom.hangs(number):
            return
        if darkroom.happens(0.01):
            darkroom.diary.at(at + 15 * MINUTE, partial(self._flipped_earlier, number, at))
        else:
            drying.flip(darkroom.file, darkroom.hand(at, STUDENT), [number])

    def _flipped_earlier(self, number: int, then: datetime, at: datetime) -> None:
        darkroom = self.darkroom
        roll = darkroom.roll(number)
        if darkroom.hangs(number) and not roll.checks and len(roll.stays) == 1:
            drying.flip(darkroom.file, darkroom.hand(then, STUDENT, told=at), [number])

    def _touch(self, number: int, meeting: Meeting, at: datetime) -> None:
        darkroom = self.darkroom
        if not darkroom.hangs(number):
            return
        if not darkroom.touch(number, at):
            again = darkroom.later(at, 2, 4)
            if again < meeting.ends:
                darkroom.diary.at(again, partial(self._touch, number, meeting))
        elif darkroom.happens(0.45):
            darkroom.diary.at(darkroom.later(at, 0.3, 2), partial(self._take_down, number))

    def _take_down(self, number: int, at: datetime) -> None:
        darkroom = self.darkroom
        if not darkroom.hangs(number):
            return
        if darkroom.happens(0.5):
            darkroom.take(number, at)
        else:
            box(darkroom.file, darkroom.hand(at, TEACHER), [number])

    def _take_unsaid(self, number: int, at: datetime) -> None:
        if self.darkroom.hangs(number) and self.darkroom.is_really_dry(number, at):
            self.darkroom.taken_unsaid.add(number)

    def _push_along(self, number: int, _: datetime) -> None:
        """Somebody hung it over to a rod where there was more room, and said nothing."""
        darkroom = self.darkroom
        if darkroom.hangs(number):
            rods = [
                r.number
                for r in darkroom.room.rods
                if r.number != darkroom.roll(number).place.number
            ]
            darkroom.really_on[number] = darkroom.chance.choice(rods)


def students_of(darkroom: Darkroom, term: str, period: int) -> list[int]:
    """Return the numbers of who is in a class."""
    return [one.number for one in people.in_period(darkroom.file.conn, term, period)]
