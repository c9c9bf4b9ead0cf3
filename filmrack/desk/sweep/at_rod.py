"""What a hand tells of the rod that it is at: counts, scans, what is missing.

What would be costly if it was not meant is asked first; an answer is about what was shown when it
was asked, and does nothing to another rod.
"""

from __future__ import annotations

from filmrack.acts import sweeping
from filmrack.acts.placing import RodFull
from filmrack.acts.scans import scanned
from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.sweep.boxing import box_dry, box_the_rest
from filmrack.desk.sweep.counts import count
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.lines import meant
from filmrack.desk.sweep.missing import miss, which_is_missing
from filmrack.desk.sweep.numbers import count_boxes, likelier, number_means
from filmrack.desk.sweep.place import SweepPlace
from filmrack.desk.sweep.questions import (
    OnAnswer,
    ask_of_damp,
    ask_of_number,
    ask_of_rest,
    ask_of_unknown,
    ask_of_wet,
)
from filmrack.desk.sweep.remarks import headline_of
from filmrack.desk.sweep.rod_words import hangs, not_seen, overlooked, rest
from filmrack.desk.sweep.scans import damp_one, found_on, scan, see
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.attention import Standing
from filmrack.domain.codes import read
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import rolls


class AtRod:
    """Does what is told of a rod, and goes to the next one when a hand is through with it."""

    def __init__(self, place: SweepPlace) -> None:
        self.place = place
        self.session = place.session

    def all_hang(self, turn: Turn) -> Said:
        """Take Enter at a rod of which nothing is told: just those hang there that should."""
        return self._count(turn, turn.expected)

    def the_rest_hang(self, turn: Turn) -> Said:
        """Take Enter at a rod whose count is explained since: just those hang there still."""
        return self._count(turn, len(turn.hanging))

    def count(self, turn: Turn, counted: int) -> Said | Question:
        """Count a rod; ask first behind a stray, for that may be one of those counted.

        Raises Refused where the right count was told before.
        """
        number = turn.rod.number
        if turn.right:
            raise Refused(
                f"rod {number} is counted, {turn.boxed} boxed and {hangs(len(turn.hanging))} on: if"
                " that was wrong type “undo”, and to box what hangs on “box dry” or “box all”"
            )
        if turn.strays and _boxes_the_rest(turn, counted):
            return self._ask_of_rest(turn)
        return self._count(turn, counted)

    def number(self, turn: Turn, number: int, *, corrects: bool = False) -> Said | Question:
        """Take a bare number for a count, for a clip, or ask which of the two it is; one that
        `corrects` answers the question whether another count is meant.

        Raises Refused at a rod that is boxed by its count, unless such a clip hangs there still.
        """
        if turn.right:
            if turn.has_clip(number):
                return self.found("number", str(number))
            raise Refused(
                f"rod {turn.rod.number} is boxed by its count: if that was wrong type “undo”, and"
                f" if you mean the clip type “clip {number}”"
            )
        on_clip = rolls.on_clip(self.session.file.conn, number)
        meant = number_means(turn, number, on_clip, corrects=corrects)
        if meant == "clip":
            return self.found("number", str(number))
        if meant == "count":
            asks = turn.scanning and _boxes_the_rest(turn, number)
            if asks:
                return self._ask_of_rest(turn, clip=True)
            said = self._count(turn, number)
            if number > turn.expected and on_clip is not None:
                other = f"Do you mean the clip? “undo”, then “clip {number}”"
                return said._replace(words=f"{other}. {capital(said.words)}")
            return said
        return ask_of_number(
            number,
            clip=self._clip(number),
            count=self._as_asked(lambda: self._count(self._rod_in_hand(), number)),
            counted=count_boxes(turn, number),
            likely=likelier(turn, number, known=on_clip is not None),
        )

    def found(self, kind: str, text: str) -> Said | Question:
        """Take a clip or a roll that was scanned or typed; ask first where it is typed and no
        record explains it, and where it is wet by the clock.

        Where a count did not agree, what is not dry is seen and hangs on.
        """
        damp = None if self.place.box is not None else damp_one(self.session, text)
        if damp is not None:
            refuse_roll(self.session.by, damp.roll)
            course = self.place.look()
            turn = course.turn(self._rod_of(course, text, damp.roll))
            if turn is not None and turn.asks_what_hangs:
                return self._see(turn, damp)
            if damp.state == "wet":
                return self._ask_of_wet(text, damp, turn)
        if kind == "roll" or read(text) is not None or scanned(self.session.file, text).roll:
            return self._scan(text)
        clip = text.rsplit(maxsplit=1)[-1]
        return ask_of_unknown(clip, self._as_asked(lambda: self._scan(text)))

    def missing(self, words: str) -> Said:
        """Keep that a roll is missing; `words` name it, or nothing the one that is looked for."""
        course, turn = self.place.look(), self.place.turn
        said = miss(self.session, course, turn, which_is_missing(self.session, turn, words))
        after = self.place.look_again()
        turn = after.turn(self.place.rod)
        if turn is not None and turn.through and not after.finished:
            self.place.go_on(after)
        return said

    def box_all(self) -> Said | Question:
        """Box what hangs on the rod; ask once where some of it is damp."""
        turn = self._rod_in_hand()
        if not turn.hanging:
            raise Refused(f"nothing hangs on rod {turn.rod.number}: go to the next one")
        if turn.not_dry:
            do = self._as_asked(lambda: self._box_all(self._rod_in_hand()))
            return ask_of_damp(turn, do)
        return self._box_all(turn)

    def box_dry(self) -> Said:
        """Box what is dry on the rod, and leave what is wet."""
        turn = self._rod_in_hand()
        said = box_dry(self.session, turn)
        self.place.left.discard(turn.rod.number)
        self.place.go_on(self.place.look_again())
        return said

    def leave(self, turn: Turn) -> Said:
        """Leave a rod of which something is told; what was scanned there keeps for all desks that a
        hand is through with it.
        """
        self.place.leave()
        course = self.place.look()
        if (turn.boxed or turn.seen) and not turn.closed:
            sweeping.sweep(self.session.file, self.session.hand(), left=turn.rod.number)
            course = self.place.look_again()
        self.place.go_on(course)
        owners = self.session.look().people
        words = capital(overlooked(turn, owners) or not_seen(turn, owners))
        return Said(f"rod {turn.rod.number}" if words else "", words)

    def _rod_in_hand(self) -> Turn:
        turn = self.place.turn
        if turn is None:
            raise Refused("which rod is meant is not said: go to it, or scan its label")
        return turn

    def _count(self, turn: Turn, counted: int) -> Said:
        return self._counted(turn, count(self.session, turn, counted))

    def _box_all(self, turn: Turn) -> Said:
        if turn.count is None:  # nothing is told of it, so the word counts it as well
            said = count(self.session, turn, len(turn.hanging), damp_too=True)
        else:
            said = box_the_rest(self.session, turn)
        return self._counted(turn, said)

    def _counted(self, turn: Turn, said: Said) -> Said:
        """Go on behind a count that is right, and answer what was said of it."""
        self.place.left.discard(turn.rod.number)
        after = self.place.look_again()
        now = after.turn(turn.rod.number)
        if now is not None and now.right:
            self.place.go_on(after)
        return said

    def _scan(self, text: str) -> Said:
        place, course = self.place, self.place.look()
        rod = None if place.box is not None else place.hand_is_at(course, text)
        said = scan(self.session, course, text, rod=rod, box=place.box)
        if place.box is not None:
            place.look_again()
            return said
        return self._found(course, said)

    def _found(self, course: SweepCourse, said: Said) -> Said:
        """Go on behind a scan at a rod, and answer what was said of it; `course` is before it."""
        place, after = self.place, self.place.look_again()
        if place.rod is None:
            place.follow(course, after)
        turn, was = after.turn(place.rod), course.turn(place.rod)
        if turn is not None and turn.explained and not (was is not None and was.explained):
            many = len(turn.hanging)
            these = f"these {many} hang" if many > 1 else "this one hangs"
            right = f"The count of {turn.counted} is right now: Enter if {these} there"
            return said._replace(words=f"{right}. {said.words}")
        if turn is not None and turn.cleared:
            place.led_on(after)
        elif turn is not None and turn.through:
            through = f"Rod {turn.rod.number} is through, {rest(turn)}"
            return said._replace(words=f"{through}. {said.words}")
        return said

    def _rod_of(self, course: SweepCourse, text: str, roll: Roll) -> int | None:
        """Return the rod on which a roll is scanned; at the end that is the one where it hangs."""
        rod = self.place.hand_is_at(course, text)
        return roll.place.rod if rod is None else found_on(course, rod, roll)

    def _see(self, turn: Turn, damp: Standing) -> Said:
        try:
            said = see(self.session, turn, damp)
        except RodFull as full:
            raise Refused(
                f"{damp.roll.place} has clip {damp.roll.clip} by the record, and {full}"
            ) from full
        return self._found(self.place.look(), said)

    def _ask_of_wet(self, text: str, damp: Standing, turn: Turn | None) -> Question:
        """Ask whether wet film goes to its box; what is typed next is no answer, but the next."""

        def following(said: str) -> Said | Question | None:
            line = meant(said)
            if line is None or line.kind not in ("number", "clip", "roll"):
                return None
            now = self.place.turn
            if line.kind == "number" and now is not None:
                return self.number(now, int(line.value))
            return self.found(line.kind, said)

        return ask_of_wet(
            headline_of(self.session, damp.roll),
            damp,
            self._as_asked(lambda: self._scan(text)),
            here=None if turn is None else turn.rod.number,
            other=following,
        )

    def _ask_of_rest(self, turn: Turn, *, clip: bool = False) -> Question:
        """Ask whether just those hang on a rod still that should; `clip` where so many could have
        been the number of a clip.
        """
        many = len(turn.hanging)
        return ask_of_rest(
            turn,
            self._as_asked(lambda: self._count(self._rod_in_hand(), many)),
            recount=lambda number: self._as_asked(lambda: self._recount(number))(),
            clip=self._clip(many) if clip else None,
        )

    def _clip(self, number: int) -> OnAnswer:
        return self._as_asked(lambda: self.found("number", f"clip {number}"))

    def _recount(self, number: int) -> Said | Question:
        return self.number(self._rod_in_hand(), number, corrects=True)

    def _as_asked(self, do: OnAnswer) -> OnAnswer:
        """Return what an answer does, unless another rod is shown by then, or another desk has
        changed what is told of this one.
        """
        asked = self.place.shown

        def answer() -> Said | Question:
            now = self.place.shown
            if (now.rod, now.box) != (asked.rod, asked.box):
                return Said("nothing done", "another rod is shown now: go back and say it again")
            if now != asked:
                return changed_elsewhere(self.place)
            return do()

        return answer


def changed_elsewhere(place: SweepPlace) -> Said:
    """Return what is said instead of an act where another desk has changed what it is about."""
    what = "the sweep" if place.rod is None else f"rod {place.rod}"
    return Said(what, "another desk changed it just now: look once more")


def _boxes_the_rest(turn: Turn, counted: int) -> bool:
    """Tell whether a count says that just those hang there still that should."""
    return bool(counted) and counted == len(turn.hanging)
