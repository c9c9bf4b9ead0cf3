"""What is done at the place where this desk is in the sweep, and where it goes then."""

from __future__ import annotations

from collections.abc import Callable

from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.sweep.counts import box_all, box_dry, count, leave, miss, which_is_missing
from filmrack.desk.sweep.course import SweepCourse, Turn
from filmrack.desk.sweep.end import finish, print_slips
from filmrack.desk.sweep.hints import rest
from filmrack.desk.sweep.place import SweepPlace
from filmrack.desk.sweep.questions import Answer, ask_of_damp, ask_of_rest
from filmrack.desk.sweep.scans import scan, undo
from filmrack.desk.sweep.ways import hangs
from filmrack.domain.refusal import Refused


class SweepDoing(SweepPlace):
    """Counts, scans and finishes, and goes on to what comes next."""

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._printed: tuple[object, ...] | None = None
        """What the slips said that were printed here."""

    def _slips(self, course: SweepCourse, *, again: bool = False) -> Said:
        if self._printed == course.slips and not again:
            return Said("the slips", "are saved already: type “slips” for another PDF")
        said = print_slips(self.session)
        self._printed = course.slips
        return said

    def _here(self, do: Answer) -> Answer:
        """Return what an answer does, as long as the rod that was asked about is the one shown."""
        place = self.rod, self.box

        def done() -> Said | Question:
            if (self.rod, self.box) != place:
                return Said("nothing done", "another rod is shown now: go back and say it again")
            return do()

        return done

    def _ask_or_count(
        self, turn: Turn, counted: int, *, named: bool = False, clip: Answer | None = None
    ) -> Said | Question:
        """Count; ask first where that boxes film which may not be there.

        `named` tells that what the count boxes was said before; `clip` is what a bare number does
        if it is meant for a clip.
        """
        number = turn.rod.number

        if turn.right:
            raise Refused(
                f"rod {number} is counted, {turn.boxed} boxed and {hangs(len(turn.hanging))} on: if"
                " that was wrong type “undo”, and to box what hangs on “box dry” or “box all”"
            )
        tell = self._if_unchanged(turn, lambda now: self._count(now, counted))
        unnamed = turn.scanning and (clip or turn.strays) and not named
        if counted and counted == len(turn.hanging) and unnamed:
            return ask_of_rest(turn, self._here(tell), clip)
        return self._count(turn, counted)

    def _if_unchanged(self, turn: Turn, do: Callable[[Turn], Said]) -> Answer:
        """Return what is done to a rod, unless another desk has changed it since it was asked."""

        def tell() -> Said:
            now = self.look().turn(turn.rod.number)
            if now is None or told_of(now) != told_of(turn):
                what = f"rod {turn.rod.number}"
                return Said(what, "another desk changed it just now: look once more")
            return do(now)

        return tell

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
        said = miss(self.session, course, turn, roll)
        after = self._again()
        turn = after.turn(self.rod)
        if turn is not None and turn.done and not after.finished:
            self.go_on(after)
        return said

    def _count(self, turn: Turn, counted: int) -> Said:
        return self._told(turn, count(self.session, turn, counted))

    def _told(self, turn: Turn, said: Said) -> Said:
        self.left.discard(turn.rod.number)
        after = self._again()
        now = after.turn(turn.rod.number)
        if now is not None and now.right:
            self.go_on(after)
        return said

    def _box_all(self, turn: Turn | None) -> Said | Question:
        """Box what hangs on the rod; ask once where some of it is damp."""
        if turn is None:
            raise Refused("which rod is meant is not said: go to it, or scan its label")
        if not turn.hanging:
            raise Refused(f"nothing hangs on rod {turn.rod.number}: go to the next one")
        do = self._if_unchanged(turn, lambda now: self._told(now, box_all(self.session, now)))
        return ask_of_damp(turn, self._here(do)) if turn.not_dry else do()

    def _box_dry(self, turn: Turn | None) -> Said:
        """Box what is dry on the rod, and leave what is wet."""
        if turn is None:
            raise Refused("which rod is meant is not said: go to it, or scan its label")
        said = box_dry(self.session, turn)
        self.left.discard(turn.rod.number)
        self.go_on(self._again())
        return said

    def _to_end(self, course: SweepCourse) -> Said:
        """Go to where Enter finishes; who is there already, finishes."""
        if course.finished:
            raise Refused("this sweep is finished already: type “sweep again” for another one")
        if self.rod is None and self.box is None:
            return self._finish(course)
        self.to(None)
        return Said("")

    def _next(self, course: SweepCourse) -> Said:
        """Pass the rod by, and leave it as it is."""
        if self.box is not None:
            self.back()
            return Said("")
        if self.rod is None:
            raise Refused("no rod comes next: a rod's number goes there, and “finish” finishes")
        self.leave(course)
        self.go("down")
        return Said("")

    def _through(self, turn: Turn) -> SweepCourse:
        """Keep that a hand is through with a rod, for all desks; return the course then."""
        leave(self.session, turn.rod.number)
        return self._again()

    def _stop(self, course: SweepCourse) -> Said:
        """Say that nothing needs to be done to leave a sweep."""
        if course.finished:
            return Said("the sweep", "is finished: Tab goes to another screen")
        words = "stays as it is, at every desk: Tab leaves it, “sweep” comes back, “finish” ends it"
        return Said("the sweep", words)

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
        said = undo(self.session, before)
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


def told_of(turn: Turn | None) -> tuple[object, ...]:
    """Return what is told of a rod and hangs there, to see whether another desk changed it."""
    return () if turn is None else (turn.count, tuple(each.roll.id for each in turn.hanging))
