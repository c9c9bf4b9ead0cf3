"""What a hand tells of a whole rod: how many hang there, that all or what is dry is boxed, that it
is through.

What would be costly if it was not meant is asked first.
"""

from __future__ import annotations

from filmrack.acts import sweeping
from filmrack.desk.question import Question
from filmrack.desk.said import Said, capital
from filmrack.desk.sweep.asked import as_asked
from filmrack.desk.sweep.boxing import box_dry, box_the_rest
from filmrack.desk.sweep.counts import count
from filmrack.desk.sweep.numbers import count_boxes, likelier, number_means
from filmrack.desk.sweep.place import SweepPlace
from filmrack.desk.sweep.questions import OnAnswer, ask_of_not_dry, ask_of_number, ask_of_rest
from filmrack.desk.sweep.rod_words import hangs, not_seen, overlooked
from filmrack.desk.sweep.strips import Strips
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.refusal import Refused
from filmrack.store import rolls


class AtRod:
    """Does what is told of a rod, and goes to the next one when a hand is through with it."""

    def __init__(self, place: SweepPlace) -> None:
        self.strips = Strips(place, self.number)
        """Takes the strips of the rod one by one; a number at a rod can be the clip of one."""
        self._place = place
        self._session = place.session

    def all_hang(self, turn: Turn) -> Said:
        """Take Enter at a rod of which nothing is told: just those hang there that should."""
        return self._count(turn, turn.expected)

    def the_rest_hang(self, turn: Turn) -> Said:
        """Take Enter where a count is explained since, or only strays were scanned: just those hang
        there still that should.
        """
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
                return self.strips.found("number", str(number))
            raise Refused(
                f"rod {turn.rod.number} is boxed by its count: if that was wrong type “undo”, and"
                f" if you mean the clip type “clip {number}”"
            )
        on_clip = rolls.on_clip(self._session.file.conn, number)
        meant = number_means(turn, number, on_clip, corrects=corrects)
        if meant == "clip":
            return self.strips.found("number", str(number))
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
            count=as_asked(self._place, lambda: self._count(self._rod_in_hand(), number)),
            counted=count_boxes(turn, number),
            likely=likelier(turn, number),
        )

    def box_all(self) -> Said | Question:
        """Box what hangs on the rod; ask once where some of it is not dry."""
        turn = self._rod_in_hand()
        if not turn.hanging:
            raise Refused(f"nothing hangs on rod {turn.rod.number}: go to the next one")
        if turn.not_dry:
            do = as_asked(self._place, lambda: self._box_all(self._rod_in_hand()))
            return ask_of_not_dry(turn, do)
        return self._box_all(turn)

    def box_dry(self) -> Said:
        """Box what is dry on the rod, and leave what is wet."""
        turn = self._rod_in_hand()
        said = box_dry(self._session, turn)
        self._place.left.discard(turn.rod.number)
        self._place.go_on(self._place.look_again())
        return said

    def leave(self, turn: Turn) -> Said:
        """Leave a rod of which something is told; what was scanned there keeps for all desks that a
        hand is through with it.
        """
        self._place.leave()
        course = self._place.look()
        if (turn.boxed or turn.seen) and not turn.closed:
            sweeping.sweep(self._session.file, self._session.hand(), left=turn.rod.number)
            course = self._place.look_again()
        self._place.go_on(course)
        owners = self._session.look().people
        words = capital(overlooked(turn, owners) or not_seen(turn, owners))
        return Said(f"rod {turn.rod.number}" if words else "", words)

    def _rod_in_hand(self) -> Turn:
        turn = self._place.turn
        if turn is None:
            raise Refused("which rod is meant is not said: go to it, or scan its label")
        return turn

    def _count(self, turn: Turn, counted: int) -> Said:
        return self._counted(turn, count(self._session, turn, counted))

    def _box_all(self, turn: Turn) -> Said:
        if turn.count is None:  # nothing is told of it, so the word counts it as well
            said = count(self._session, turn, len(turn.hanging), not_dry_too=True)
        else:
            said = box_the_rest(self._session, turn)
        return self._counted(turn, said)

    def _counted(self, turn: Turn, said: Said) -> Said:
        """Go on behind a count that is right, and answer what was said of it."""
        self._place.left.discard(turn.rod.number)
        after = self._place.look_again()
        now = after.turn(turn.rod.number)
        if now is not None and now.right:
            self._place.go_on(after)
        return said

    def _ask_of_rest(self, turn: Turn, *, clip: bool = False) -> Question:
        """Ask whether just those hang on a rod still that should; `clip` where so many could have
        been the number of a clip.
        """
        many = len(turn.hanging)
        return ask_of_rest(
            turn,
            as_asked(self._place, lambda: self._count(self._rod_in_hand(), many)),
            recount=as_asked(self._place, self._recount),
            clip=self._clip(many) if clip else None,
        )

    def _clip(self, number: int) -> OnAnswer:
        return as_asked(self._place, lambda: self.strips.found("number", f"clip {number}"))

    def _recount(self, number: int) -> Said | Question:
        return self.number(self._rod_in_hand(), number, corrects=True)


def _boxes_the_rest(turn: Turn, counted: int) -> bool:
    """Tell whether a count says that just those hang there still that should."""
    return bool(counted) and counted == len(turn.hanging)
