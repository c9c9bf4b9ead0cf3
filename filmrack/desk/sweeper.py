"""Whoever sweeps at this desk: what a key or a line does at the rod whose turn it is."""

from __future__ import annotations

from collections.abc import Callable

from filmrack.acts.scans import scanned
from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.session import Session
from filmrack.desk.sweep_acts import (
    count,
    finish,
    look_up,
    miss,
    most,
    print_slips,
    scan,
    undo,
    which_is_missing,
)
from filmrack.desk.sweep_course import SweepCourse, Turn
from filmrack.desk.sweep_hints import overlooked, rest, wanted
from filmrack.desk.sweep_lines import AGAIN, MISSING, SLIPS, UNDO, is_print, meant
from filmrack.desk.sweep_place import SweepPlace
from filmrack.desk.sweep_questions import ask_of_unknown, ask_of_wet
from filmrack.domain.codes import read
from filmrack.domain.refusal import Refused

_ENDED = ("number", "clip", "roll")
"""What a line alone is once the sweep is finished: whose a roll is and where, and no find."""


class Sweeper(SweepPlace):
    """Does what keys and lines say, at the place where this desk is."""

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._printed: int | None = None
        """The finished sweep whose slips were printed here."""

    def enter_does(self) -> str:
        """Return what Enter does, in the words that the screen and the footer both say."""
        course = self.look()
        turn = course.turn(self.rod)
        if course.finished:
            inside = self.box is not None or turn is not None
            if inside:
                return "back to the result"
            return "" if self._printed == course.number else "save the slips as a PDF"
        if self.box is not None:
            return f"back to rod {self.rod}" if turn else "back to the end"
        if turn is None:
            return "finish"
        if turn.count is None and turn.not_dry:
            return "leave this rod"
        if turn.count is None:
            return f"{turn.expected} is right" if turn.expected else "it is empty"
        if turn.done:
            return "next rod"
        if not turn.looked_through:
            return "leave this rod"
        return "that is all that is dry" if turn.beside_wet else "that is all of them"

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
        if self.is_enter_of_rod_before():
            what = "the end" if turn is None else f"rod {self.rod}"
            return Said(what, f"the rod before is through. Enter here: {self.enter_does()}")
        if self.box is not None or (course.finished and turn is not None):
            self.back()
            return Said("")
        if turn is None:
            return self._slips(course) if course.finished else self._finish(course)
        if turn.count is None and turn.not_dry:
            self.leave(course)
            self.go("down")
            few = f"{turn.not_dry} of {turn.expected} not dry"
            words = f"left hanging, {few}. Type the count to box them all the same"
            return Said(f"rod {turn.rod.number}", words)
        if turn.count is None:
            return self._count(turn, turn.expected)
        self.leave(course)
        self.go_on(course)
        words = capital(overlooked(turn, self.session.look().people))
        return Said(f"rod {turn.rod.number}" if words else "", words)

    def _slips(self, course: SweepCourse, *, again: bool = False) -> Said:
        if self._printed == course.number and not again:
            return Said("the slips", "are saved already: type “slips” for another PDF")
        said = print_slips(self.session)
        self._printed = course.number
        return said

    def takes(self, text: str) -> bool:
        """Scans, counts and places are the sweep's; names and other sentences are not."""
        if is_print(text):
            return self.look().finished
        line = meant(text)
        if line is None:
            return False
        sentence = line.kind == "roll" and line.box is not None
        return not (sentence and self.look().finished)

    def take(self, text: str) -> Said | Question | None:
        """Take a count, a clip or roll, a rod or a box; what is costly is asked about first.

        Raises Refused for what cannot be.
        """
        course = self.look()
        if is_print(text):
            return self._slips(course, again=True)
        line = meant(text)
        if line is None:
            return None
        kind, value = line.kind, line.value
        if kind == UNDO:
            return self._undo(course)
        if kind == AGAIN:
            return self._sweep_again(course)
        if kind == MISSING:
            return self._missing(course, value)
        if kind == SLIPS:
            if not course.finished:
                raise Refused("the slips tell what went into each box: finish the sweep first")
            return self._slips(course, again=True)
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
        if kind == "number" and turn is not None and turn.right and self.box is None:
            raise Refused(
                f"rod {turn.rod.number} is boxed by its count: if that was wrong type “undo”, and"
                f" if you mean the clip type “clip {value}”"
            )
        if kind == "count" or (kind == "number" and self._is_count(turn, int(value))):
            if turn is None:
                raise Refused("which rod was counted is not said: go to it, or scan its label")
            return self._ask_or_count(turn, int(value))
        if kind == "roll" or read(text) is not None or scanned(self.session.file, text).roll:
            return self._scan(course, text)
        counting = turn is not None and int(value) <= most(turn.rod)
        return ask_of_unknown(
            value, self._here(lambda: self._scan(self.look(), text)), counting=counting
        )

    def _here(self, do: Callable[[], Said]) -> Callable[[], Said]:
        """Return what an answer does, as long as the rod that was asked about is the one shown."""
        place = self.rod, self.box

        def done() -> Said:
            if (self.rod, self.box) != place:
                return Said("nothing done", "another rod is shown now: go back and say it again")
            return do()

        return done

    def _is_count(self, turn: Turn | None, number: int) -> bool:
        """Tell whether a bare number counts a rod: one of which nothing is told, if it holds so
        many. Raises Refused where it is a clip that hangs there as likely.
        """
        if turn is None or turn.count is not None or self.box is not None:
            return False
        if number > most(turn.rod):
            return False
        clips = {each.roll.clip for each in turn.hanging}
        if number > turn.expected and number in clips:
            raise Refused(
                f"{number} can be the count or clip {number}, which hangs here: type"
                f" “count {number}” or “clip {number}”"
            )
        return True

    def _ask_or_count(self, turn: Turn, counted: int) -> Said | Question:
        number = turn.rod.number

        def tell() -> Said:
            now = self.look().turn(number)
            if now is None or _told(now) != _told(turn):
                return Said(f"rod {number}", "another desk changed it just now: look once more")
            return self._count(now, counted)

        if counted == len(turn.hanging) and turn.not_dry:
            return ask_of_wet(turn, self._here(tell))
        return self._count(turn, counted)

    def _sweep_again(self, course: SweepCourse) -> Said:
        if not course.finished:
            raise Refused("this sweep goes on still: go to the end of the list and finish it first")
        self.aside = course.number or 0
        self.anew()
        self.look()
        return Said("another sweep", "it begins with the first rod that is counted or scanned")

    def _missing(self, course: SweepCourse, which: str) -> Said:
        turn = course.turn(self.rod)
        roll = which_is_missing(self.session, turn, which)
        said = miss(self.session, course, roll)
        after = self._again()
        turn = after.turn(self.rod)
        if turn is not None and turn.done and not after.finished:
            self.go_on(after)
        return said

    def _count(self, turn: Turn, counted: int) -> Said:
        said = count(self.session, turn, counted)
        self.left.discard(turn.rod.number)
        after = self._again()
        now = after.turn(turn.rod.number)
        if now is not None and now.right:
            self.go_on(after)
        return said

    def _scan(self, course: SweepCourse, text: str) -> Said:
        rod = None if self.box is not None else self.hand_is_at(course, text)
        said = scan(self.session, course, text, rod=rod, box=self.box)
        after = self._again()
        if self.rod is None and self.box is None:
            self.follow(course, after)
        turn = after.turn(self.rod)
        if turn is not None and turn.cleared and self.box is None:
            self.led_on(after)
        elif turn is not None and turn.done and self.box is None:
            through = f"Rod {turn.rod.number} is through, {rest(turn)}"
            return said._replace(words=f"{through}. {said.words}")
        return said

    def _finish(self, course: SweepCourse) -> Said:
        said = finish(self.session, course)
        self._again()
        return said

    def _undo(self, before: SweepCourse) -> Said:
        said = undo(self.session)
        after = self._again()
        self.follow(before, after)
        if before.finished and not after.finished and after.number is not None:
            return said._replace(
                words=f"{said.words}. The sweep goes on again: finish it once more"
            )
        return said

    def _again(self) -> SweepCourse:
        """Look again after an act of this desk."""
        self.session.acted()
        return self.look()

    def _to_rod(self, course: SweepCourse, rod: int) -> Said:
        if course.turn(rod) is None:
            numbers = ", ".join(str(each.rod.number) for each in course.turns)
            raise Refused(f"there is no rod {rod} in this sweep: it goes over the rods {numbers}")
        self.to(rod)
        return Said("")

    def _to_box(self, box: int) -> Said:
        self.box = self.session.file.room().box_meant(box).number
        return Said("")

    def hint(self) -> str:
        """Say what is wanted of the hand at the cabinet; what Enter does is said in the footer."""
        course = self.look()
        if course.finished:
            return "another sweep: type “sweep again”"
        if self.box is not None:
            return f"scan what lies in box {self.box}"
        turn = course.turn(self.rod)
        return "a rod's number goes there" if turn is None else wanted(turn)


def _told(turn: Turn | None) -> tuple[object, ...]:
    return () if turn is None else (turn.count, tuple(each.roll.id for each in turn.hanging))
