"""What a hand tells strip by strip: those that it scans or types, and those that are missing."""

from __future__ import annotations

from collections.abc import Callable

from filmrack.acts.placing import RodFull
from filmrack.acts.scans import scanned
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.sweep.asked import as_asked
from filmrack.desk.sweep.course import SweepCourse
from filmrack.desk.sweep.lines_typed import meant
from filmrack.desk.sweep.missing import miss, which_is_missing
from filmrack.desk.sweep.place import SweepPlace
from filmrack.desk.sweep.questions import ask_of_missing, ask_of_unknown, ask_of_wet
from filmrack.desk.sweep.rod_words import rest
from filmrack.desk.sweep.scans import found_on, one_not_dry, scan, see, see_as_told, see_unknown
from filmrack.desk.sweep.several import scan_several
from filmrack.desk.sweep.turn import Turn
from filmrack.desk.sweep.untold import hang_untold, hung_untold
from filmrack.domain.attention import Standing
from filmrack.domain.clip import refuse_other_clips
from filmrack.domain.codes import read
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import refuse_roll
from filmrack.store import rolls


class Strips:
    """Takes strips one by one, and goes to the next rod behind the last one that was looked for.

    `number` takes a bare number that is typed where it is asked about wet film.
    """

    def __init__(self, place: SweepPlace, number: Callable[[Turn, int], Said | Question]) -> None:
        self._place = place
        self._session = place.session
        self._number = number

    def found(self, kind: str, text: str) -> Said | Question:
        """Take a clip or a roll that was scanned or typed; ask first where it is typed and no
        record explains it, and where it is wet by the clock.

        Where a count did not agree, what is not dry is seen and hangs on. So does what was hung and
        not told, at any rod. Raises Refused for it where no rod is in hand.
        """
        untold = None if self._place.box is not None else hung_untold(self._session, text)
        if untold is not None:
            return self._untold(text, untold)
        not_dry = None if self._place.box is not None else one_not_dry(self._session, text)
        if not_dry is not None:
            refuse_roll(self._session.by, not_dry.roll)
            course = self._place.look()
            turn = course.turn(self._rod_of(course, text, not_dry.roll))
            if turn is not None and turn.asks_what_hangs:
                return self._see(turn, not_dry)
            if not_dry.state == "wet":
                return self._ask_of_wet(text, not_dry, turn)
        if kind == "roll" or read(text) is not None or scanned(self._session.file, text).roll:
            return self._scan(text)
        clip = text.rsplit(maxsplit=1)[-1]
        return ask_of_unknown(clip, as_asked(self._place, lambda: self._scan(text)))

    def several(self, clips: list[str]) -> Said:
        """Take the clips of one line as scans, one behind the other, in one act.

        Raises Refused, with nothing done, where one of them alone would be asked about, and where
        no rod is in hand and no box.
        """
        place, course = self._place, self._place.look()
        if place.at_end:
            raise Refused(
                "no rod is in hand, so it is not said where these hang: go to their rod first, or"
                " type one of them alone, as “clip 17”"
            )
        said = scan_several(self._session, course, self._rods_of(course, clips), box=place.box)
        if place.box is not None:
            place.look_again()
            return said
        return self._go_on(course, said)

    def found_wet(self, turn: Turn, clip: int) -> Said:
        """Keep that a strip was found wet that hangs on a rod and not by the record: it hangs on,
        as an unknown roll if the clip is on none.

        Raises Refused for a clip that is none, where the rod is full, and while no term is open.
        """
        refuse_other_clips(clip)
        course = self._place.look()
        untold = hung_untold(self._session, f"clip {clip}")
        if untold is not None:
            refuse_roll(self._session.by, untold)
            return self._hangs(turn.rod.number, untold, wet=True)
        return self._go_on(course, see_unknown(self._session, turn.rod.number, clip, wet=True))

    def hangs_on(self, rod: int, words: str) -> Said:
        """Keep that a roll hangs on a rod whose count asks what hangs there, and leave it there.

        Raises Refused where the rod is full, and for a roll that cannot hang.
        """
        at = scanned(self._session.file, words)
        self._place.to_rod(rod)
        if at.roll is not None:
            roll = rolls.by_id(self._session.file.conn, at.roll)
            refuse_roll(self._session.by, roll)
            return self._hangs(rod, roll)
        assert at.clip is not None
        refuse_other_clips(at.clip)
        course = self._place.look()
        return self._go_on(course, see_unknown(self._session, rod, at.clip, wet=False))

    def missing(self, words: str) -> Said | Question:
        """Keep that a roll is missing; `words` name it, or nothing the one that is looked for.

        One that hangs neither on the rod in hand nor on one that had its turn is asked about.
        """
        course, turn = self._place.look(), self._place.turn
        roll = which_is_missing(self._session, turn, words)
        if turn is None or self._place.box is not None or course.finished:
            return self._miss(roll)
        its = course.turn(roll.place.rod)
        looked_at = turn.has(roll) or (its is not None and its.count is not None)
        if looked_at or roll.place.kind == "missing":
            return self._miss(roll)
        whose = self._session.headline(roll)
        miss = as_asked(self._place, lambda: self._miss(roll))
        return ask_of_missing(whose, roll, turn.rod.number, miss)

    def _miss(self, roll: Roll) -> Said:
        course, turn = self._place.look(), self._place.turn
        said = miss(self._session, course, turn, roll)
        after = self._place.look_again()
        turn = after.turn(self._place.rod)
        if turn is not None and turn.through and not after.finished:
            self._place.go_on(after)
        return said

    def _scan(self, text: str) -> Said:
        place, course = self._place, self._place.look()
        rod = None if place.box is not None else place.hand_is_at(course, text)
        said = scan(self._session, course, text, rod=rod, box=place.box)
        if place.box is not None:
            place.look_again()
            return said
        return self._go_on(course, said)

    def _see(self, turn: Turn, not_dry: Standing) -> Said:
        try:
            said = see(self._session, turn, not_dry)
        except RodFull as full:
            raise Refused(
                f"{not_dry.roll.place} has clip {not_dry.roll.clip} by the record, and {full}"
            ) from full
        return self._go_on(self._place.look(), said)

    def _untold(self, text: str, roll: Roll) -> Said:
        refuse_roll(self._session.by, roll)
        rod = self._rod_of(self._place.look(), text, roll)
        if rod is None:
            named = roll.clip or roll.number
            raise Refused(
                f"{named} is noted {roll.place.as_noted} and may be wet: go to the rod where it"
                f" hangs and scan it there, or if it is dry type “{named} box” and the box's number"
            )
        return self._hangs(rod, roll)

    def _hangs(self, rod: int, roll: Roll, *, wet: bool = False) -> Said:
        course = self._place.look()
        try:
            if roll.last_in_tank:
                said = hang_untold(self._session, rod, roll, wet=wet)
            else:
                said = see_as_told(self._session, rod, roll)
        except RodFull as full:
            named = roll.clip or roll.number
            raise Refused(f"{named} is noted {roll.place.as_noted}, and {full}") from full
        return self._go_on(course, said)

    def _go_on(self, course: SweepCourse, said: Said) -> Said:
        """Go on behind a scan at a rod, and answer what was said of it; `course` is before it."""
        place, after = self._place, self._place.look_again()
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
        rod = self._place.hand_is_at(course, text)
        return roll.place.rod if rod is None else found_on(course, rod, roll)

    def _rods_of(self, course: SweepCourse, clips: list[str]) -> dict[str, int | None]:
        """Return the rod that a hand is at with each clip of a line; none where it is in a box.

        Behind the first that is of the rod in hand, all are.
        """
        here, at = self._place.rod, dict[str, int | None]()
        if self._place.box is not None:
            return dict.fromkeys(clips)
        for clip in clips:
            at[clip] = here if here in at.values() else self._place.hand_is_at(course, clip)
        return at

    def _ask_of_wet(self, text: str, wet: Standing, turn: Turn | None) -> Question:
        """Ask whether wet film goes to its box; what is typed next is no answer, but the next."""

        def following(said: str) -> Said | Question | None:
            line = meant(said)
            if line is not None and line.kind == "clips":
                return self.several(line.value.split())
            if line is None or line.kind not in ("number", "clip", "roll"):
                return None
            now = self._place.turn
            if line.kind == "number" and now is not None:
                return self._number(now, int(line.value))
            return self.found(line.kind, said)

        return ask_of_wet(
            self._session.headline(wet.roll),
            wet,
            as_asked(self._place, lambda: self._scan(text)),
            here=None if turn is None else turn.rod.number,
            other=following,
        )
