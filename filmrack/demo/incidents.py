"""Single things that happen in a darkroom, each on a day of its own."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime

from filmrack.acts import drying, fetching, hanging, owning
from filmrack.demo.classwork import Classwork, students_of
from filmrack.demo.darkroom import MINUTE, STUDENT, TEACHER, Darkroom
from filmrack.domain.roll import Roll
from filmrack.store import rolls

NOTES = (
    "came out thin: pushed too little or the developer was tired",
    "light leak across frames 8 to 11",
    "two films on one reel touched, see the marks at the end",
    "best portraits of the class so far",
    "scratched along the edge while squeegeeing",
    "half of it double exposed, on purpose",
)
_NOTES_FROM = datetime(2026, 10, 20, 20, 30, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Incidents:
    """What does not happen by chance."""

    darkroom: Darkroom
    classwork: Classwork

    def plan(self) -> None:
        """Write each incident into the diary."""
        at = self.darkroom.diary.at
        at(datetime(2026, 4, 22, 14, 30, tzinfo=UTC), self._a_set_of_sheets)
        at(datetime(2026, 3, 10, 19, 0, tzinfo=UTC), self._two_mixed_up)
        at(datetime(2026, 10, 21, 18, 50, tzinfo=UTC), self._fan_found_off)
        at(datetime(2026, 11, 16, 21, 30, tzinfo=UTC), self._in_the_wrong_box)
        at(datetime(2026, 11, 13, 15, 10, tzinfo=UTC), self._a_clip_taken_again)
        at(datetime(2026, 11, 16, 22, 5, tzinfo=UTC), self._nobody_knows_whose)
        for nth, text in enumerate(NOTES):

            def note(moment: datetime, text: str = text) -> None:
                some = rolls.of_term(self.darkroom.file.conn, "26F")
                chosen = self.darkroom.chance.choice([roll for roll in some if roll.sleeved_at]).id
                owning.note(self.darkroom.file, self.darkroom.hand(moment, TEACHER), chosen, text)

            at(_NOTES_FROM + nth * 4 * 24 * 60 * MINUTE, note)

    def _in(self, *places: str) -> list[Roll]:
        return rolls.in_places(self.darkroom.file.conn, *places)

    def _a_set_of_sheets(self, at: datetime) -> None:
        darkroom = self.darkroom
        meeting = darkroom.room.timetable.meeting_at(at)
        assert meeting is not None
        person = darkroom.chance.choice(students_of(darkroom, "26S", meeting.period))
        hung = hanging.hang(
            darkroom.file,
            darkroom.hand(at, STUDENT),
            person=person,
            clip=darkroom.free_clips()[0],
            rod=5,
            film="sheet-4x5",
        )
        self.classwork.archive.expect(hung.roll.id, meeting)

    def _two_mixed_up(self, at: datetime) -> None:
        some = [roll for roll in self._in("box", "sleeve") if roll.person and roll.period == 2]
        one, other = (roll.id for roll in some[:2])
        owning.swap(self.darkroom.file, self.darkroom.hand(at, TEACHER), one, other)

    def _fan_found_off(self, at: datetime) -> None:
        """The plug had been pulled for the vacuum cleaner."""
        darkroom = self.darkroom
        drying.turn_dial(darkroom.file, darkroom.hand(at, TEACHER), 0)
        drying.turn_dial(darkroom.file, darkroom.hand(at + MINUTE, TEACHER), 2)

    def _in_the_wrong_box(self, at: datetime) -> None:
        darkroom = self.darkroom
        own = [roll for roll in self._in("box", "owner") if roll.period in (2, 3)]
        roll = [roll for roll in own if roll.term == "26F"][-1]
        fetching.box(darkroom.file, darkroom.hand(at, TEACHER), [roll.id], box_number=4)

    def _a_clip_taken_again(self, at: datetime) -> None:
        """A clip pair that the record still has in a box is on a new roll: the hand is right."""
        darkroom = self.darkroom
        meeting = darkroom.room.timetable.meeting_at(at)
        assert meeting is not None
        clip = next(roll.clip for roll in self._in("box") if roll.clip is not None)
        assert clip is not None
        person = darkroom.chance.choice(students_of(darkroom, "26F", meeting.period))
        hung = hanging.hang(darkroom.file, darkroom.hand(at, STUDENT), person=person, clip=clip)
        self.classwork.hung(hung.roll.id, meeting, at)

    def _nobody_knows_whose(self, at: datetime) -> None:
        darkroom = self.darkroom
        clip = darkroom.free_clips()[0]
        hanging.hang(
            darkroom.file, darkroom.hand(at, TEACHER), clip=clip, rod=6, clue="a dog in snow"
        )
