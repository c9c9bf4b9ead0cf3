"""From box to binder: cutting and sleeving, contact sheets, filing on Fridays."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import partial

from filmrack.acts import archiving, fetching
from filmrack.demo.darkroom import MINUTE, STUDENT, TEACHER, Darkroom
from filmrack.domain.film import film_named
from filmrack.domain.roll import BEFORE_SLEEVING
from filmrack.domain.timetable import Meeting
from filmrack.store import rolls

_PAGES = ("7x5", "7x5", "6x6", "7x6", "7x6")
_PAPERS = ("8x10in", "8x10in", "8x10in", "8.5x11in", "9.5x12in")


@dataclass(frozen=True, slots=True)
class Archive:
    """What becomes of rolls once they are dry."""

    darkroom: Darkroom

    def expect(self, number: int, hung_in: Meeting) -> None:
        """Write down that a roll will be cut and sleeved in a later lesson, if ever."""
        darkroom = self.darkroom
        if darkroom.happens(0.02):
            return
        lesson = self._lesson_after(
            hung_in.ends, hung_in.period, darkroom.chance.choice((1, 1, 2, 3))
        )
        if lesson is not None:
            darkroom.diary.at(darkroom.later(lesson.starts, 4, 35), partial(self._sleeve, number))

    def _lesson_after(self, moment: datetime, period: int, nth: int) -> Meeting | None:
        timetable, lesson = self.darkroom.room.timetable, None
        for _ in range(nth):
            lesson = timetable.next_meeting_after(moment, period)
            if lesson is None:
                return None
            moment = lesson.ends
        return lesson

    def _sleeve(self, number: int, at: datetime) -> None:
        darkroom = self.darkroom
        roll = darkroom.roll(number)
        if roll.place.kind not in BEFORE_SLEEVING - {"tank", "rod"} or roll.sleeved_at:
            return
        if roll.place.kind == "missing":
            if darkroom.happens(0.3):
                return
            if darkroom.happens(0.5):  # "it was in my bag"
                fetching.take(darkroom.file, darkroom.hand(at, STUDENT), number)
        film = film_named(roll.film)
        page = darkroom.chance.choice(_PAGES)
        frames = None
        if film.format.gauge == "135" and darkroom.happens(0.4):
            frames = film.frames + darkroom.chance.choice((-3, -2, -1, 1, 1, 2))
        elif film.format.gauge == "120":
            page = "4x3"
        elif film.format.gauge == "sheet":
            page = "2x2"
        archiving.sleeve(darkroom.file, darkroom.hand(at, TEACHER), number, page, frames)
        lesson = self._lesson_after(at, roll.period or 0, darkroom.chance.choice((1, 1, 2, 3)))
        if lesson is not None and darkroom.happens(0.96):
            darkroom.diary.at(darkroom.later(lesson.starts, 10, 45), partial(self._contact, number))

    def _contact(self, number: int, at: datetime) -> None:
        darkroom = self.darkroom
        most = darkroom.roll(number).frames or 12
        picks = sorted(
            darkroom.chance.sample(range(1, most + 1), darkroom.chance.choice((0, 1, 2, 2, 3)))
        )
        paper = darkroom.chance.choice(_PAPERS)
        archiving.contact(darkroom.file, darkroom.hand(at, TEACHER), number, paper, picks)

    def file_all(self, at: datetime, *, also_without_contact: bool = False) -> None:
        """File what is ready for it: one binder for each class of a term."""
        darkroom = self.darkroom
        sleeved = rolls.in_places(darkroom.file.conn, "sleeve")
        together: dict[tuple[str, int], list[int]] = {}
        for roll in sorted(sleeved, key=lambda roll: roll.term):
            if roll.sheets or also_without_contact:
                together.setdefault((roll.term, roll.period or 1), []).append(roll.id)
        for nth, ((_, binder), numbers) in enumerate(together.items()):
            hand = darkroom.hand(at + nth * MINUTE / 2, TEACHER)
            archiving.file_in_binder(darkroom.file, hand, numbers, binder)

    def sleeve_the_rest(self, at: datetime) -> None:
        """At the end of a term the teacher cuts what still lies in the boxes."""
        darkroom = self.darkroom
        for nth, roll in enumerate(rolls.in_places(darkroom.file.conn, "box")):
            hand = darkroom.hand(at + nth * MINUTE, TEACHER)
            archiving.sleeve(darkroom.file, hand, roll.id)
