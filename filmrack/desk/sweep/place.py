"""Where one desk is in the sweep: which rod's turn it is, which were left, where it goes on."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Literal, NamedTuple

from filmrack.acts.scans import scanned
from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.desk.sweep.course import SweepCourse, read_sweep
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.refusal import Refused

_LATE_ENTER = timedelta(seconds=2)
"""How long an Enter can still belong to the rod before, which its last scan has left."""

_LATE_SCAN = timedelta(seconds=15)
"""How long one strip more can still be from the rod that the last scan has left."""


class SweepShown(NamedTuple):
    """The rod or the box that a desk shows in the sweep, and what was told of the rod."""

    rod: int | None
    box: int | None
    told: tuple[object, ...]


class SweepPlace:
    """Where one desk is in the sweep; the file knows how far the sweep is.

    That is at a rod, looking into a box, or, at neither, at the end behind the last rod.
    """

    def __init__(self, session: Session) -> None:
        self.session = session
        self.rod: int | None = None
        """The rod whose turn it is; None before the first look, and at the end."""
        self.box: int | None = None
        """A box that was scanned: what is scanned next lies in it."""
        self.left: set[int] = set()
        """Rods that were left as they are, at this desk."""
        self._led_on: datetime | None = None
        """When the last scan of a rod led to the next one by itself."""
        self._before: int | None = None
        """The rod before that one."""
        self._begun = False
        self._aside = 0
        """The finished sweep that gave way to another one at this desk."""
        self._state: tuple[int | None, bool] = None, False
        """Which sweep was seen last, and whether it was finished."""
        self._known: tuple[tuple[object, ...], SweepCourse] | None = None

    # How the sweep stands.

    def look(self, now: Now | None = None) -> SweepCourse:
        """Return how the sweep stands; a finished one stays until another is begun, or all day."""
        now = now or self.session.look()
        # Whoever hangs and how is judged each second; the file is read when it has changed.
        today = now.at.astimezone(now.room.timetable.zone).date()
        key = self.session.stamp, self._aside, today, now.hanging
        if self._known is None or self._known[0] != key:
            self._known = key, read_sweep(self.session, now, self._aside)
        course = self._known[1]
        before, self._state = self._state, (course.number, course.finished)
        if course.finished and self._state != before:
            self.to(None)
        elif course.number is None and before[0] is not None:
            # Its beginning was taken back, and the hand is still at the rod; or its day is over.
            self._begun = self.rod is not None
            if before[1]:
                self._anew()
        if not self._begun or (self.rod is not None and course.turn(self.rod) is None):
            self._begun = True
            self.go_on(course)
        return course

    def look_again(self) -> SweepCourse:
        """Look again behind an act of this desk."""
        self.session.acted()
        return self.look()

    @property
    def turn(self) -> Turn | None:
        """Return the turn of the rod that is shown; None at the end."""
        return self.look().turn(self.rod)

    @property
    def at_end(self) -> bool:
        """Tell whether it is behind the last rod, where the sweep is finished."""
        return self.rod is None and self.box is None

    @property
    def shown(self) -> SweepShown:
        """Return what is shown, and what is told of it: to see whether either has changed."""
        turn = self.turn
        return SweepShown(self.rod, self.box, () if turn is None else turn.told)

    # Going from one rod to another.

    def go_on(self, course: SweepCourse) -> None:
        """Go to the next rod that has had no turn, or to the end; one that was left stays so."""
        numbers = [turn.rod.number for turn in course.turns]
        at = numbers.index(self.rod) + 1 if self.rod in numbers else 0
        ahead = [turn for turn in course.turns[at:] if not (turn.closed or turn.answered)]
        if self.rod is None:
            # Taken up: first what is being scanned, then where nobody was, then what was passed by.
            passed = course.passed_by
            ahead.sort(key=lambda turn: (turn.count is None, turn.rod.number in passed))
        self.to(ahead[0].rod.number if ahead and not course.finished else None)

    def to(self, rod: int | None) -> None:
        """Go to a rod; without one, to the end."""
        self.rod, self.box, self._begun, self._led_on = rod, None, True, None

    def to_rod(self, rod: int) -> None:
        """Go to a rod that was named. Raises Refused for one that the sweep does not go over."""
        course = self.look()
        if course.turn(rod) is None:
            numbers = ", ".join(str(each.rod.number) for each in course.turns)
            raise Refused(f"there is no rod {rod} in this sweep: it goes over the rods {numbers}")
        self.to(rod)

    def to_box(self, box: int) -> None:
        """Look into a box. Raises Refused for one that the room has not."""
        self.box = self.session.file.room().box_meant(box).number

    def go(self, key: Literal["up", "down", "first", "last"]) -> None:
        """Go from rod to rod; one that is passed by stays as it is."""
        course = self.look()
        stops: list[int | None] = [*(turn.rod.number for turn in course.turns), None]
        at = stops.index(self.rod) if self.rod in stops else 0
        if key in ("first", "last"):
            self.to(stops[0 if key == "first" else -1])
            return
        self.to(stops[max(0, min(at + (1 if key == "down" else -1), len(stops) - 1))])

    def go_to(self, nth: int) -> None:
        """Go to a rod by its place in the list, or to the end behind the last."""
        stops = [*(turn.rod.number for turn in self.look().turns), None]
        self.to(stops[nth])

    @property
    def is_looked_at(self) -> bool:
        """Tell whether a box, or in a finished sweep a rod, is but looked at."""
        return self.box is not None or (self.rod is not None and self.look().finished)

    def back(self) -> bool:
        """Leave what is but looked at; False if there is nothing to leave."""
        if not self.is_looked_at:
            return False
        if self.box is not None:
            self.box = None
        else:
            self.to(None)
        return True

    def pass_by(self) -> None:
        """Go to the next rod and leave this one as it is. Raises Refused where none comes next."""
        if self.back():
            return
        if self.rod is None:
            raise Refused("no rod comes next: a rod's number goes there, and “finish” finishes")
        self.leave()
        self.go("down")

    def leave(self) -> None:
        """Leave the rod whose turn it is as it is: at this desk, if nothing was scanned there."""
        turn = self.turn
        if turn is not None and not turn.through:
            self.left.add(turn.rod.number)

    def follow(self, before: SweepCourse, after: SweepCourse) -> None:
        """Go to the rod whose count has changed; from another rod also to one where more hangs."""
        were = [(before.turn(turn.rod.number), turn) for turn in after.turns]
        changed = [(was, turn) for was, turn in were if was is not None and was.told != turn.told]
        counted = [(was, turn) for was, turn in changed if was.count != turn.count]
        for _, turn in (counted or ([] if self.rod is None else changed))[:1]:
            self.left.discard(turn.rod.number)
            self.to(turn.rod.number)

    def begin_another(self) -> None:
        """Put the sweep aside that is finished, and begin at the first rod."""
        self._aside = self.look().number or 0
        self._anew()
        self.look()

    def _anew(self) -> None:
        self.left.clear()
        self.rod, self.box, self._begun = None, None, False

    # What comes a moment after a rod was left for the next one.

    def led_on(self, course: SweepCourse) -> None:
        """Go to the next rod by itself, behind the last scan of this one."""
        before = self.rod
        self.go_on(course)
        self._before, self._led_on = before, self.session.now

    def is_enter_of_rod_before(self) -> bool:
        """Tell, once, whether an Enter comes so soon that the hand is at the rod before still."""
        late = self._just(_LATE_ENTER)
        self._led_on = None if late else self._led_on
        return late

    def hand_is_at(self, course: SweepCourse, text: str) -> int | None:
        """Return the rod that a scan is from: one more strip behind the last one that was looked
        for hung there too, unless the next rod has it by the record.
        """
        turn = course.turn(self.rod)
        if not self._just(_LATE_SCAN) or turn is None or turn.count is not None:
            return self.rod
        roll = scanned(self.session.file, text).roll
        here = any(each.roll.id == roll for each in turn.hanging)
        return self.rod if here else self._before

    def _just(self, within: timedelta) -> bool:
        return self._led_on is not None and self.session.now - self._led_on < within
