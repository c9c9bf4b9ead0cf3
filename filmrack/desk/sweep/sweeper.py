"""Whoever sweeps at this desk: what a key or a line does at the rod whose turn it is."""

from __future__ import annotations

from filmrack.acts.scans import scanned
from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.sweep.course import SweepCourse, Turn
from filmrack.desk.sweep.doing import SweepDoing, told_of
from filmrack.desk.sweep.end import look_up
from filmrack.desk.sweep.hints import given_up, overlooked, right_words, wanted
from filmrack.desk.sweep.lines import (
    AGAIN,
    BOX_ALL,
    BOX_DRY,
    DONE,
    FINISH,
    MISSING,
    NEXT,
    SLIPS,
    STOP,
    UNDO,
    is_print,
    meant,
)
from filmrack.desk.sweep.names import by_clip, name_and_word, tell_place
from filmrack.desk.sweep.numbers import count_does, hangs_on, likelier, number_means
from filmrack.desk.sweep.questions import ask_of_number, ask_of_unknown
from filmrack.domain.codes import read
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import rolls

_ENDED = ("number", "clip", "roll")
"""What a line alone is once the sweep is finished: whose a roll is and where, and no find."""


class Sweeper(SweepDoing):
    """Does what keys and lines say, at the place where this desk is."""

    def enter_does(self) -> str:
        """Return what Enter does, in the words that the screen and the footer both say."""
        course = self.look()
        turn = course.turn(self.rod)
        if course.finished:
            inside = self.box is not None or turn is not None
            if inside:
                return "back to the result"
            if self._printed == course.slips:
                return ""
            return f"save {'new' if course.changed else 'the'} slips as a PDF"
        if self.box is not None:
            return f"back to rod {self.rod}" if turn else "back to the end"
        if turn is None:
            return "finish" + (f": {len(course.missing)} missing" if course.missing else "")
        if turn.count is None:
            return right_words(turn)
        if turn.done:
            return "next rod"
        if not turn.looked_through:
            return "leave this rod"
        if turn.beside_wet:
            return "that is all that is dry"
        gone = len(turn.given_up)
        return "that is all" + (f": {gone} not seen" if gone else "")

    def enter(self) -> Said:
        """Do what Enter does; if another desk changed what it would do, say so instead."""
        shown = self.enter_does(), told_of(self.look().turn(self.rod))
        if self.session.changed() and shown != (
            self.enter_does(),
            told_of(self.look().turn(self.rod)),
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
        if turn.count is None:
            return self._count(turn, turn.expected)
        self.leave(course)
        if turn.boxed and not turn.closed:
            course = self._through(turn)
        self.go_on(course)
        words = capital(overlooked(turn, self.session.look().people))
        words = words or capital(given_up(turn, self.session.look().people))
        return Said(f"rod {turn.rod.number}" if words else "", words)

    def reads(self, text: str) -> str:
        """Return `red wet` as `79 wet` where that strip hangs on the rod in hand.

        Raises Refused where not just one strip of the rod is meant.
        """
        named = name_and_word(text)
        course = self.look() if named else None
        turn = None if course is None or course.finished else course.turn(self.rod)
        if named is None or turn is None or self.box is not None:
            return text
        return by_clip(self.session, turn, *named)

    def tells_of(self, roll: Roll) -> Said | None:
        """Say where a roll is that was found by name; a sweep under way is not left for it."""
        course = self.look()
        if course.number is None or course.finished:
            return None
        return tell_place(self.session, course.turn(self.rod), roll)

    def takes(self, text: str) -> bool:
        """Scans, counts and places are the sweep's; names and other sentences are not."""
        if is_print(text):
            return self.look().finished
        line = meant(text)
        if line is None:
            return False
        if line.kind == "box" and read(text) is None:
            return self._looks_into_boxes()
        sentence = line.kind == "roll" and line.box is not None
        return not (sentence and self.look().finished)

    def _looks_into_boxes(self) -> bool:
        """Tell whether a typed box is where a hand looks for strips now; else it is to be seen."""
        course = self.look()
        turn = course.turn(self.rod)
        looks = self.box is not None or (turn.scanning if turn else bool(course.missing))
        return looks and not course.finished

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
        if kind in (FINISH, NEXT, DONE, STOP):
            return self._course_word(course, kind)
        if kind == BOX_DRY and not course.finished:
            return self._box_dry(course.turn(self.rod))
        if kind == BOX_ALL and not course.finished:
            return self._box_all(course.turn(self.rod))
        if kind == "rod":
            return self._to_rod(course, int(value))
        if kind == "box":
            return self._to_box(int(value))
        if course.finished and kind in ("count", BOX_DRY, BOX_ALL):
            raise Refused("the sweep is finished, so nothing is counted: type “sweep again” first")
        if course.finished and kind in _ENDED:
            return look_up(self.session, text)
        if line.rod is not None:
            self._to_rod(course, line.rod)
        turn = course.turn(self.rod)
        if turn is None and kind == "number" and self.box is None:
            # No rod is shown at the end, so a bare number is one that was left out, and no clip.
            return self._to_rod(course, int(value))
        if kind == "number" and turn is not None and turn.right and self.box is None:
            if hangs_on(turn, int(value)):
                return self._ask_or_scan(kind, text)
            raise Refused(
                f"rod {turn.rod.number} is boxed by its count: if that was wrong type “undo”, and"
                f" if you mean the clip type “clip {value}”"
            )
        if kind == "number" and turn is not None and self.box is None:
            return self._number(turn, int(value))
        if kind == "count":
            if turn is None:
                raise Refused("which rod was counted is not said: go to it, or scan its label")
            return self._ask_or_count(turn, int(value))
        return self._ask_or_scan(kind, text)

    def _course_word(self, course: SweepCourse, kind: str) -> Said:
        """Do what a word about the sweep's course says. Raises Refused where it says too little."""
        at_end = course.finished or (self.rod is None and self.box is None)
        if kind == STOP:
            return self._stop(course)
        if kind == NEXT and not course.finished:
            return self._next(course)
        if kind == DONE and not at_end:
            raise Refused(
                f"done with this, or with the sweep? Press Enter ({self.enter_does()}), or type"
                " “finish” for the end of the sweep"
            )
        return self._to_end(course)

    def _ask_or_scan(self, kind: str, text: str) -> Said | Question:
        if kind == "roll" or read(text) is not None or scanned(self.session.file, text).roll:
            return self._scan(self.look(), text)
        value = text.rsplit(maxsplit=1)[-1]
        return ask_of_unknown(value, self._here(lambda: self._scan(self.look(), text)))

    def _number(self, turn: Turn, number: int) -> Said | Question:
        """Take a bare number for a count, for a clip, or ask which of the two it is."""
        on_clip = rolls.on_clip(self.session.file.conn, number)
        meant = number_means(turn, number, on_clip)
        clip = self._here(lambda: self._ask_or_scan("number", f"clip {number}"))
        if meant == "count":
            return self._ask_or_count(turn, number, clip=clip)
        if meant == "clip":
            return self._ask_or_scan("number", str(number))
        return ask_of_number(
            number,
            clip=clip,
            count=self._here(lambda: self._ask_or_count(turn, number, named=True)),
            counted=count_does(turn, number),
            likely=likelier(turn, number, known=on_clip is not None),
        )

    def hint(self) -> str:
        """Say what is wanted of the hand at the cabinet; what Enter does is said in the footer."""
        course = self.look()
        if course.finished:
            return "another sweep: type “sweep again”"
        if self.box is not None:
            return f"scan what lies in box {self.box}"
        turn = course.turn(self.rod)
        return "a rod's number goes there" if turn is None else wanted(turn)
