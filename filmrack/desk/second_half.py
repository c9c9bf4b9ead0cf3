"""What is done to what is in hand: a rod, a box, a binder or an action behind it."""

from __future__ import annotations

from functools import partial

from filmrack.desk.archive.filing_doubts import doubts_of
from filmrack.desk.deeds import Deeds
from filmrack.desk.free_clips import with_free_clip
from filmrack.desk.halves import Half
from filmrack.desk.in_hand import InHand
from filmrack.desk.replies import HANGS_ALREADY, clip_of, hung_again, reclipped
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.taking_back import undo_in_hand
from filmrack.desk.verbs import ANSWER_TO_VERB_ALONE
from filmrack.desk.whose_clip import WhoseClip
from filmrack.domain.binder import binder_number
from filmrack.domain.clip import clips_of
from filmrack.domain.journey import why_unsleeved
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import HANGABLE, Place, Roll
from filmrack.store import rolls, search


class SecondHalf:
    """Does what a second half says, at one desk."""

    def __init__(self, session: Session, in_hand: InHand, whose: WhoseClip) -> None:
        self.session = session
        self.in_hand = in_hand
        self.whose = whose
        self.deeds = Deeds(session)

    def hang(
        self, roll: Roll, before: str = "", rod: int | None = None, position: int | None = None
    ) -> Said:
        """Hang a roll and keep it in hand, for a rod that is scanned next is where it went."""
        said = self.deeds.hang(roll, rod, position)
        now = rolls.by_id(self.session.file.conn, roll.id)
        return self.in_hand.wait(Half(roll=now), said._replace(words=before + said.words))

    def hang_in_hand(self, first: Half) -> Said:
        """Hang what was named first; of a free clip it is asked whose roll it carries."""
        if first.clip is not None:
            return self.whose.free_clip(first.clip, None, hangs=True)
        if self.in_hand.roll is None:
            raise Refused(ANSWER_TO_VERB_ALONE["hang"])
        roll = rolls.by_id(self.session.file.conn, self.in_hand.roll)
        if roll.place.kind == "rod":
            self.in_hand.wait(Half(roll=roll), Said(""))  # Enter alone does nothing to it
            words = f"{roll.place}, {HANGS_ALREADY}"
            return Said(self.session.headline(roll), words, select=roll.id, rests=True)
        return self.hang(roll) if roll.place.kind == "tank" else self._ask_again(roll)

    def _hang_on(self, roll: Roll, rod: int, position: int | None) -> Said:
        """Hang a roll on a rod; whether one hangs again that was taken down is asked first."""
        now = rolls.by_id(self.session.file.conn, roll.id)
        if now.live and now.place.kind in HANGABLE - {"tank"}:
            return self._ask_again(now, rod, position)
        return self.in_hand.over(self.deeds.hang_on(now, rod, position))

    def _ask_again(self, roll: Roll, rod: int | None = None, position: int | None = None) -> Said:
        whose = self.deeds.whose(roll)
        asked = Said(f"{roll.clip or roll.number}?", hung_again(roll, whose), select=roll.id)
        return self.in_hand.ask(
            roll,
            asked,
            f"{whose}'s roll hangs again",
            lambda: self.hang(roll, rod=rod, position=position),
            renews=True,
        )

    def right_clip(self, clip: int, first: Half | None) -> Said:
        """Put the roll before on its right clip; one that another roll has is asked about."""
        if first is None or first.roll is None:
            wrong = "that clip" if first is None else clip_of(first)
            raise Refused(
                f"{wrong} is noted on no roll: type first the clip that is noted on the roll, then"
                f" the right one, as “{with_free_clip(self.session, '17 clip {free}')}”"
            )
        roll = rolls.by_id(self.session.file.conn, first.roll.id)
        if roll.clip == clip:
            return self.in_hand.over(Said(self.session.headline(roll), f"on clip {clip} already"))
        other = rolls.on_clip(self.session.file.conn, clip)
        if other is None or roll.clip is None:
            return self.in_hand.over(self.deeds.reclip(roll, clip))
        does = f"clips {roll.clip} and {clip} are exchanged"
        if other.place.kind == "owner":
            does = f"clip {clip} is {self.deeds.whose(roll)}'s"
        asked = Said(
            f"{roll.clip} → {clip}?", reclipped(roll, other, self.deeds.whose(other), does)
        )
        exchange = other.place.kind != "owner"
        return self.in_hand.ask(
            roll,
            asked._replace(select=roll.id),
            does,
            lambda: self.in_hand.over(self.deeds.reclip(roll, clip, exchange=exchange)),
        )

    def rod(self, rod: int, first: Half | None, position: int | None = None) -> Said:
        """Hang what was named first on a rod; without that the rod itself is meant, or what hangs
        at that position of it.
        """
        if first is not None and first.clip is not None:
            return self._hang_unknown(first.clip, rod, position)
        if first is not None and first.roll is not None and not self._looks_at_rod(first.roll):
            return self._hang_on(first.roll, rod, position)
        if first is not None and first.person is not None and self.in_hand.roll is not None:
            loaded = rolls.by_id(self.session.file.conn, self.in_hand.roll)
            return self.in_hand.over(self.deeds.hang_on(loaded, rod, position))
        if self.session.file.room().rod(rod) is None:
            raise Refused(f"there is no rod {rod} in this room: scan a rod's label again")
        there = rolls.on_rod(self.session.file.conn, rod)
        if position is not None:
            return self._look_at(Place("rod", rod, position), there)
        words = "empty: nothing hangs on it"
        if there:
            words = f"{clips_of(there)}. “flip” or “box” is said of all of them"
        first_there = there[0].id if there else None
        said = Said(f"rod {rod}", words, select=first_there, rod=rod, go=True)
        self.in_hand.wait(Half(rod=rod), said)
        self.in_hand.roll = None  # the rod is meant, not the roll that is shown of it
        return said

    def _look_at(self, place: Place, there: list[Roll]) -> Said:
        """Show what hangs at a position; nothing is done to it."""
        here = next((roll for roll in there if roll.place == place), None)
        if here is None:
            raise Refused(
                f"nothing is noted at {place}: type a clip before it for what hangs there"
            )
        self.in_hand.scanned = False
        return self.whose.hold(here, None)._replace(go=True)

    def _looks_at_rod(self, roll: Roll) -> bool:
        """Tell whether a rod was typed to look at it: it moves no roll that was but looked up."""
        now = rolls.by_id(self.session.file.conn, roll.id)
        return self.in_hand.looked_up and not self.in_hand.scanned and now.place.kind == "rod"

    def _hang_unknown(self, clip: int, rod: int, position: int | None) -> Said:
        """Hang it, and keep it in hand: a name that is typed next says whose it is."""
        said = self.deeds.hang_unknown(clip, rod, position, scanned=self.in_hand.scanned)
        hung = rolls.on_clip(self.session.file.conn, clip)
        return self.in_hand.wait(Half(roll=hung), said)

    def box(self, box: int, first: Half | None) -> Said:
        """Put the roll that was named first in a box, or wait for the clip that went into it."""
        if first is not None and first.roll is not None:
            return self.in_hand.over(self.deeds.box(first.roll, box))
        self.session.file.room().box_meant(box)
        words = "now the clip that went into it"
        if not self.in_hand.scanned and rolls.on_clip(self.session.file.conn, box) is not None:
            words += f". To box what is on clip {box}, type “{box} box”"
        return self.in_hand.wait(Half(box=box), Said(f"box {box}", words))

    def binder(self, binder: str, first: Half | None) -> Said:
        """File the roll that was named first in a binder, by its number or by the clip that it was
        just cut from; or wait for what is filed in it.
        """
        if first is not None and first.clip is not None:
            cut = search.just_cut(self.session.file.conn, first.clip)
            if cut is None:
                raise Refused(
                    f"clip {first.clip} is on no roll: type the number of the one that is filed, as"
                    " “26F-0142 binder 3”"
                )
            return self.file(cut, binder)
        if first is None or first.roll is None:
            half = Half(binder=binder)
            return self.in_hand.wait(half, Said(f"binder {binder}", "now what is filed in it"))
        return self.file(first.roll, binder)

    def file(self, roll: Roll, binder: str) -> Said:
        """File a roll in a binder; what speaks against one that was typed is asked about.

        The binder stays in hand: a whole stack is filed by scanning it once.
        """
        number, half = binder_number(binder, [roll]), Half(binder=binder)
        if not self.in_hand.scanned and not why_unsleeved(roll):
            doubts = doubts_of(self.session, roll, number)
            if any(doubts):
                called = self.session.binder(roll.term, number)
                does = f"file in {called}"
                words = f"{doubts.words(called, roll.term)}. Enter: {does}. Nothing is filed yet"
                asked = Said(f"{self.session.headline(roll)}: {called}?", words, select=roll.id)
                file = partial(self.deeds.file, roll, binder)
                return self.in_hand.ask(roll, asked, does, lambda: self.in_hand.wait(half, file()))
        return self.in_hand.wait(half, self.deeds.file(roll, binder))

    def what_is_missing(self, first: Half) -> str:
        """Return which second half a first one waits for, as Enter alone is told."""
        if first.unknown:
            which = "type its clip" if first.clip is None else f"type the rod of clip {first.clip}"
            return f"where the unknown roll hangs is not said: {which}, or press Esc"
        if first.clip is not None:
            return (
                f"clip {first.clip} is nobody's yet: scan or type whose roll it carries, or its rod"
            )
        if first.person is not None:
            as_ = with_free_clip(self.session, "as {free}")
            return f"{first.person.short} has no clip yet: scan or type one, {as_}"
        if first.rod is not None:
            return f"what of rod {first.rod}: say “flip” or “box”, or press Esc"
        if first.roll is not None:
            lent = self.session.standing(first.roll).next.act == "back"
            then = "“end loan” when it is back" if lent else "what is done with it"
            return f"what of {clip_of(first)}: type {then}, or press Esc"
        return "the other half is missing: scan the roll's clip or its sleeve"

    def act(self, action: str) -> Said:
        """Do an action word to what was named first. Raises Refused where that is nothing."""
        first = self.in_hand.first
        if action in ("FAN", "FANOFF"):
            return self.in_hand.over(self.deeds.fan(on=action == "FAN"))
        if first is not None and first.rod is not None and action in ("FLIP", "BOX"):
            return self.in_hand.over(self.deeds.whole_rod(first.rod, action))
        if action == "UNDO":
            does = self.in_hand.does
            if does:
                words = f"nothing was done: “{does}” is let go. Undo once more: the last act"
                return self.in_hand.over(Said("", words))
            return undo_in_hand(self.in_hand, None if first is None or first.renews else first.roll)
        if first is not None and action == "LOAD":
            return self.whose.whose_new(first)
        if first is not None and first.renews:
            self.whose.refuse_before_whose(first)
        if action == "HANG" and self.in_hand.if_enter is None and first is not None:
            return self.hang_in_hand(first)
        if first is not None and first.clip is not None:
            raise Refused(
                f"{clip_of(first)} is noted on no roll: scan again, or type whose it is behind it,"
                f" as “{first.clip} juniper”"
            )
        if first is None or first.roll is None or self.in_hand.if_enter is not None:
            raise Refused(f"{action.lower()} what? Scan the clip first, then {action.lower()}")
        return self.in_hand.over(self.deeds.act(first.roll, action))
