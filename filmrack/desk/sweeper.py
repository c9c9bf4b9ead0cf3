"""Whoever sweeps at this desk: which rod's turn it is, and what a key or a line does to it."""

from __future__ import annotations

from typing import Literal

from filmrack.desk.course import Course, Turn, read_course
from filmrack.desk.said import Said
from filmrack.desk.session import Now, Session
from filmrack.desk.sweep_acts import (
    count,
    finish,
    look_up,
    miss,
    print_slips,
    scan,
    undo,
    which_is_missing,
)
from filmrack.desk.sweep_lines import AGAIN, MISSING, UNDO, meant
from filmrack.domain.refusal import Refused

_ENDED = ("number", "clip", "roll")
"""What a line alone is once the sweep is finished: whose a roll is and where, and no find."""


class Sweeper:
    """Where one desk is in the sweep; the file knows how far the sweep is."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.rod: int | None = None
        """The rod whose turn it is; None before the first look, and at the end."""
        self.box: int | None = None
        """A box that was scanned: what is scanned next lies in it."""
        self.left: set[int] = set()
        """Rods that were left as they are, at this desk."""
        self._begun = False
        self._aside = 0
        """The finished sweep that gave way to another one at this desk."""
        self._state: tuple[int | None, bool] = None, False
        """Which sweep was seen last, and whether it was finished."""
        self._known: tuple[tuple[object, ...], Course] | None = None

    def look(self, now: Now | None = None) -> Course:
        """Return how the sweep stands; a finished one stays until another is begun, or all day."""
        now = now or self.session.look()
        # Whoever hangs and how is judged each second; the file is read when it has changed.
        today = now.at.astimezone(now.room.timetable.zone).date()
        key = self.session.stamp, self._aside, today, now.hanging
        if self._known is None or self._known[0] != key:
            self._known = key, read_course(self.session, now, self._aside)
        course = self._known[1]
        before, self._state = self._state, (course.number, course.finished)
        if course.finished and self._state != before:
            self._to(None)
        elif course.number is None and before[0] is not None:
            self._begun = False  # its beginning was taken back, or its day is over
            if before[1]:
                self._anew()
        if not self._begun or (self.rod is not None and course.turn(self.rod) is None):
            self._begun = True
            self._go_on(course)
        return course

    def _go_on(self, course: Course) -> None:
        """Go to the next rod that has had no turn, or to the end; one that was left stays so."""
        numbers = [turn.rod.number for turn in course.turns]
        at = numbers.index(self.rod) + 1 if self.rod in numbers else 0
        ahead = [turn for turn in course.turns[at:] if not turn.done]
        self._to(ahead[0].rod.number if ahead and not course.finished else None)

    def _to(self, rod: int | None) -> None:
        self.rod, self.box, self._begun = rod, None, True

    def _anew(self) -> None:
        self.left.clear()
        self.rod, self.box, self._begun = None, None, False

    def go(self, key: Literal["up", "down", "first", "last"]) -> None:
        """Go from rod to rod; in a sweep that goes on, one that is passed by is left as it is."""
        course = self.look()
        stops: list[int | None] = [*(turn.rod.number for turn in course.turns), None]
        at = stops.index(self.rod) if self.rod in stops else 0
        if key in ("first", "last"):
            self._to(stops[0 if key == "first" else -1])
            return
        if not course.finished:
            self._leave(course)
        self._to(stops[max(0, min(at + (1 if key == "down" else -1), len(stops) - 1))])

    def go_to(self, nth: int) -> None:
        """Go to a rod by its place in the list, or to the end behind the last."""
        stops = [*(turn.rod.number for turn in self.look().turns), None]
        self._to(stops[nth])

    def back(self) -> bool:
        """Leave a box, or in a finished sweep a rod; False if there is nothing to leave."""
        if self.box is not None:
            self.box = None
            return True
        if self.rod is not None and self.look().finished:
            self._to(None)
            return True
        return False

    def _leave(self, course: Course) -> None:
        turn = course.turn(self.rod)
        if turn is not None and not turn.done:
            self.left.add(turn.rod.number)

    def enter_does(self) -> str:
        """Return what Enter does, in the words that the screen and the footer both say."""
        course = self.look()
        turn = course.turn(self.rod)
        if course.finished:
            inside = self.box is not None or turn is not None
            return "back to the result" if inside else "print the slips"
        if self.box is not None:
            return f"back to rod {self.rod}" if turn else "back to the end"
        if turn is None:
            return "finish"
        if turn.count is None and turn.not_dry:
            return "leave this rod"
        if turn.count is None:
            return f"{turn.expected} is right" if turn.expected else "it is empty"
        return "next rod" if turn.done else "that is all of them"

    def enter(self) -> Said:
        """Do what Enter does; if another desk changed what it would do, say so instead."""
        shown = self.enter_does(), _told(self.look().turn(self.rod))
        if self.session.changed() and shown != (
            self.enter_does(),
            _told(self.look().turn(self.rod)),
        ):
            what = "the sweep" if self.rod is None else f"rod {self.rod}"
            return Said(what, "another desk changed it just now: look once more")
        course = self.look()
        turn = course.turn(self.rod)
        if self.box is not None or (course.finished and turn is not None):
            self.back()
            return Said("")
        if turn is None:
            return print_slips(self.session) if course.finished else self._finish(course)
        if turn.count is None and turn.not_dry:
            self.go("down")
            few = f"{turn.not_dry} of {turn.expected} not dry"
            words = f"left hanging, {few}. Type the count to box them all the same"
            return Said(f"rod {turn.rod.number}", words)
        if turn.count is None:
            return self._count(turn, turn.expected)
        self._leave(course)
        self._go_on(course)
        return Said("")

    def takes(self, text: str) -> bool:
        """Scans, counts and places are the sweep's; names and other sentences are not."""
        line = meant(text)
        if line is None:
            return False
        sentence = line.kind == "roll" and line.box is not None
        return not (sentence and self.look().finished)

    def take(self, text: str) -> Said | None:
        """Take a count, a clip or roll, a rod or a box. Raises Refused for what cannot be."""
        line = meant(text)
        if line is None:
            return None
        kind, value = line.kind, line.value
        course = self.look()
        if kind == UNDO:
            return self._undo(course)
        if kind == AGAIN:
            return self._sweep_again(course)
        if kind == MISSING:
            return self._missing(course, value)
        if kind == "rod":
            return self._to_rod(course, int(value))
        if kind == "box":
            return self._to_box(int(value))
        if course.finished and kind == "count":
            raise Refused("the sweep is finished, so nothing is counted: type “sweep again” first")
        if course.finished and kind in _ENDED:
            return look_up(self.session, text)
        turn = course.turn(self.rod)
        if turn is None and kind == "number" and self.box is None:
            # No rod is shown at the end, so a bare number is one that was left out, and no clip.
            return self._to_rod(course, int(value))
        untouched = turn is not None and turn.count is None and self.box is None
        if kind == "count" or (kind == "number" and untouched):
            if turn is None:
                raise Refused("which rod was counted is not said: go to it, or scan its label")
            return self._count(turn, int(value))
        return self._scan(course, text)

    def _sweep_again(self, course: Course) -> Said:
        if not course.finished:
            raise Refused("this sweep goes on still: go to the end of the list and finish it first")
        self._aside = course.number or 0
        self._anew()
        self.look()
        return Said("another sweep", "it begins with the first rod that is counted or scanned")

    def _missing(self, course: Course, which: str) -> Said:
        turn = course.turn(self.rod)
        roll = which_is_missing(self.session, turn, which)
        said = miss(self.session, roll, in_sweep=not course.finished)
        after = self._again()
        turn = after.turn(self.rod)
        if turn is not None and turn.done and not after.finished:
            self._go_on(after)
        return said

    def _count(self, turn: Turn, counted: int) -> Said:
        said = count(self.session, turn, counted)
        self.left.discard(turn.rod.number)
        after = self._again()
        now = after.turn(turn.rod.number)
        if now is not None and now.right:
            self._go_on(after)
        return said

    def _scan(self, course: Course, text: str) -> Said:
        rod = None if self.box is not None else self.rod
        said = scan(self.session, course, text, rod=rod, box=self.box)
        after = self._again()
        if self.rod is None and self.box is None:
            self._follow(course, after)
        turn = after.turn(self.rod)
        if turn is not None and turn.done and self.box is None:
            self._go_on(after)
            if turn.unseen:
                many = len(turn.unseen)
                words = f"Rod {turn.rod.number} is through, {many} not seen. {said.words}"
                return said._replace(words=words)
        return said

    def _finish(self, course: Course) -> Said:
        said = finish(self.session, course)
        self._again()
        return said

    def _undo(self, before: Course) -> Said:
        said = undo(self.session)
        self._follow(before, self._again())
        return said

    def _follow(self, before: Course, after: Course) -> None:
        """Go to the rod whose count has changed, if there is one."""
        for turn in after.turns:
            was = before.turn(turn.rod.number)
            if was is not None and was.count != turn.count:
                self.left.discard(turn.rod.number)
                self._to(turn.rod.number)
                break

    def _again(self) -> Course:
        """Look again after an act of this desk."""
        self.session.acted()
        return self.look()

    def _to_rod(self, course: Course, rod: int) -> Said:
        if course.turn(rod) is None:
            numbers = ", ".join(str(each.rod.number) for each in course.turns)
            raise Refused(f"there is no rod {rod} in this sweep: it goes over the rods {numbers}")
        self._to(rod)
        return Said("")

    def _to_box(self, box: int) -> Said:
        room = self.session.file.room()
        if room.box(box) is None:
            numbers = ", ".join(str(known.number) for known in room.boxes)
            raise Refused(f"there is no box {box}: this room has the boxes {numbers}")
        self.box = box
        return Said("")

    def hint(self) -> str:
        """Say what is wanted of the hand at the cabinet; what Enter does is said in the footer."""
        course = self.look()
        turn = course.turn(self.rod)
        if course.finished:
            return "another sweep: type “sweep again”"
        if self.box is not None:
            return f"scan what lies in box {self.box}"
        if turn is None:
            return "a rod's number goes there"
        if turn.count is None and turn.not_dry:
            return f"scan what is dry, or type {turn.expected} to box all of rod {self.rod}"
        if turn.count is None:
            if not turn.expected:
                return f"rod {self.rod} should be empty: if it is not, type how many hang there"
            return f"count rod {self.rod}: if it is not {turn.expected}, type the number"
        if turn.done:
            return f"rod {self.rod} is through"
        return f"scan what hangs on rod {self.rod}, or type the clip"


def _told(turn: Turn | None) -> tuple[object, ...]:
    return () if turn is None else (turn.count, tuple(each.roll.id for each in turn.hanging))
