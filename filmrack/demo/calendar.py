"""When the classes of the demo school develop, when the dryer is emptied and sleeves are filed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import partial

from filmrack.demo.archive import Archive
from filmrack.demo.classwork import Classwork, students_of
from filmrack.demo.darkroom import MINUTE, Darkroom
from filmrack.demo.emptying import Emptying
from filmrack.demo.school import BLOCKS, EARLY_RELEASE, MOMENT
from filmrack.domain.timetable import Meeting
from filmrack.store import labelling

TODAY = date(2026, 11, 17)
YESTERDAY = date(2026, 11, 16)

_DEVELOPING = (
    (date(2025, 9, 15), date(2025, 9, 24)),
    (date(2025, 10, 20), date(2025, 10, 29)),
    (date(2025, 12, 1), date(2025, 12, 10)),
    (date(2026, 1, 26), date(2026, 2, 5)),
    (date(2026, 3, 2), date(2026, 3, 11)),
    (date(2026, 4, 15), date(2026, 4, 24)),
    (date(2026, 9, 14), date(2026, 9, 23)),
    (date(2026, 10, 12), date(2026, 10, 21)),
)
"""Stretches in which each class has two lessons for developing."""
_LAST_WEEK = (date(2026, 11, 9), date(2026, 11, 13))
_HANGING_OVER = (BLOCKS["D"], BLOCKS["F"])
"""Yesterday's last two blocks, whose rods were not emptied."""
_BEFORE_NOON = BLOCKS["G"]
_AFTER_YESTERDAY, _THIS_MORNING = 8, 12
"""Students of a class who develop then; the others of it did last week."""


@dataclass(frozen=True, slots=True)
class Calendar:
    """Writes the school year into the diary."""

    darkroom: Darkroom
    archive: Archive
    classwork: Classwork
    emptying: Emptying

    def plan(self) -> None:
        """Write down every lesson and every end of a day until the demo's moment."""
        for first, last in _DEVELOPING:
            for block in BLOCKS.values():
                lessons = list(self._lessons(block, first, last))
                chosen = sorted(self.darkroom.chance.sample(lessons, 2), key=lambda m: m.starts)
                self._in_halves(*chosen)
        self._this_fortnight()
        self._ends_of_days()
        for term in self.darkroom.room.terms:
            end = self.darkroom.room.timetable.school_day_ends(term.ends)
            if end is not None:
                self.darkroom.diary.at(end + 90 * MINUTE, self._close_off)

    def _lessons(self, block: int, first: date, last: date) -> Iterator[Meeting]:
        day = first
        while day <= last:
            for meeting in self.darkroom.room.timetable.meetings_on(day):
                if meeting.period == block and day != EARLY_RELEASE:
                    yield meeting
            day += timedelta(days=1)

    def _students(self, meeting: Meeting) -> list[int]:
        term = self.darkroom.room.term_at(meeting.starts)
        assert term is not None
        students = students_of(self.darkroom, term.code, meeting.period)
        self.darkroom.chance.shuffle(students)
        return students

    def _in_halves(self, first: Meeting, second: Meeting) -> None:
        """Who was away in both lessons develops nothing this time."""
        # Only when the first one begins is it known who is in the class.
        self.darkroom.diary.at(first.starts, partial(self._begin, first, second))

    def _begin(self, first: Meeting, second: Meeting, _: datetime) -> None:
        students = self._students(first)
        away = self.darkroom.chance.choice((0, 1, 1, 2))
        half = len(students) // 2
        self.classwork.develop(first, students[away:half])
        self.classwork.develop(second, students[half:])

    def _this_fortnight(self) -> None:
        """Yesterday and today are arranged, so that there is something to see."""
        for block in BLOCKS.values():
            lessons = list(self._lessons(block, *_LAST_WEEK))
            if block in _HANGING_OVER:
                (late,) = self._lessons(block, YESTERDAY, YESTERDAY)
                self._split(lessons[0], late, _AFTER_YESTERDAY)
            elif block == _BEFORE_NOON:
                (late,) = self._lessons(block, TODAY, TODAY)
                self._split(lessons[-1], late, _THIS_MORNING)
            else:
                self._in_halves(lessons[0], lessons[-1])

    def _split(self, earlier: Meeting, later: Meeting, develop_later: int) -> None:
        def begin(_: datetime) -> None:
            students = self._students(earlier)
            self.classwork.develop(earlier, students[develop_later:])
            self.classwork.develop(later, students[:develop_later])

        self.darkroom.diary.at(earlier.starts, begin)

    def _ends_of_days(self) -> None:
        darkroom = self.darkroom
        timetable = darkroom.room.timetable
        day = darkroom.room.terms[0].starts
        while day < timetable.local_date(MOMENT):
            end = timetable.school_day_ends(day)
            if end is not None:
                leaving = [rod.number for rod in darkroom.room.rods if rod.period in _HANGING_OVER]
                left = leaving if day == YESTERDAY else []
                if left or not darkroom.happens(0.04):
                    darkroom.diary.at(
                        darkroom.later(end, 8, 25), partial(self.emptying.sweep, leaving=left)
                    )
                if day.weekday() == 4:
                    darkroom.diary.at(end + 45 * MINUTE, self._friday)
            day += timedelta(days=1)

    def _friday(self, at: datetime) -> None:
        """Labels are printed, and what has its contact sheet is filed."""
        self.archive.file_all(at)
        with self.darkroom.file.writing() as conn:
            labelling.forget_queued(conn, labelling.queued_sleeves(conn))
            labelling.remember_next_label(conn, "letter-30", self.darkroom.chance.randint(1, 30))

    def _close_off(self, at: datetime) -> None:
        self.archive.sleeve_the_rest(at)
        self.archive.file_all(at + 60 * MINUTE, also_without_contact=True)
