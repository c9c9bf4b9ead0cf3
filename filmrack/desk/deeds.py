"""The acts that sentences are, each with what the desk answers to it."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.acts import (
    drying,
    fetching,
    hanging,
    lending,
    owning,
    reclipping,
)
from filmrack.acts.clips import flip_warnings
from filmrack.acts.placing import RodFull
from filmrack.desk.archive.filed import file_in
from filmrack.desk.archive.lending_words import lent_words
from filmrack.desk.replies import come_back, comes_next, not_dry, without_clip, wrong_clip
from filmrack.desk.rod_place import full_rod_words
from filmrack.desk.said import WRONG, Said, also, capital, dial
from filmrack.desk.session import Session
from filmrack.domain.binder import binder_number
from filmrack.domain.clip import clips_of
from filmrack.domain.names import Person
from filmrack.domain.places import best_place, taken_by
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.student_desk import may
from filmrack.store import rolls, search
from filmrack.store.clips import read_clip
from filmrack.store.places import hanging_now


class Deeds(NamedTuple):
    """What this desk does to the file. Each raises Refused for what cannot be meant."""

    session: Session

    def whose(self, roll: Roll) -> str:
        """Return whom a roll belongs to, as every desk may show it."""
        owner = self.session.owner(roll)
        return owner.short if owner else "unknown roll"

    def load(self, person: Person, clip: int, *, scanned: bool = False) -> Said:
        """A clip carries a person's roll."""
        file = self.session.file
        before = rolls.on_clip(file.conn, clip)
        new = "" if scanned else self._new_clip(clip)
        told = hanging.load(file, self.session.hand(), person.number, [clip])
        loaded = told.rolls[0]
        room = file.room()
        best = best_place(room, loaded, taken_by(room, hanging_now(file.conn)))
        where = f"rod {best.rod}" if best else "a rod; all are noted as full"
        if best and best.sent:
            where += f" ({self._own_rods_are_full(loaded)})"
        lost = ""
        if before is not None:
            lost = f". {before.number}, which had that clip, {without_clip(before)}"
        heed = f"{lost}{also(told.warnings)}{new}"
        words = f"loaded. Enter when it hangs on {where}; a second roll: its clip{heed}"
        words += f". {wrong_clip(loaded)}"
        return Said(f"{clip} → {person.short}", words, select=loaded.id, done=True)

    def reclip(self, roll: Roll, clip: int, *, exchange: bool = False) -> Said:
        """A roll is on another clip than was told."""
        new = self._new_clip(clip)
        file, hand = self.session.file, self.session.hand()
        told = reclipping.reclip(file, hand, roll.id, clip, exchange=exchange)
        before = f", not {told.was}" if told.was else ""
        if told.other is not None:
            now = f"is on clip {told.other.clip}" if told.other.clip else "has no clip"
            before += f"; {told.other.number} {now}"
        back = ""
        if told.robbed is not None:
            back = (
                f". Clip {told.was} is free; {self.whose(told.robbed)}'s roll had it: type"
                f" “{told.robbed.serial:04d} clip {told.was}”"
            )
        words = f"on clip {clip}{before}{also(told.warnings)}{new}{back}"
        return self._told(self.session.headline(told.roll), words, roll)

    def claim(self, roll: Roll, person: Person) -> Said:
        """An unknown roll is a person's."""
        owning.claim(self.session.file, self.session.hand(), roll.id, person.number)
        return self._told(f"{roll.clip or roll.number} → {person.short}", "claimed", roll)

    def hang(self, roll: Roll, rod: int | None = None, position: int | None = None) -> Said:
        """A roll hangs; without a rod, on its owner's."""
        file, hand = self.session.file, self.session.hand()
        try:
            hung = hanging.hang(file, hand, roll=roll.id, rod=rod, position=position)
        except RodFull as full:
            raise Refused(full_rod_words(self.session, roll.clip or roll.number, full)) from full
        sent = f". {capital(self._own_rods_are_full(roll))}" if hung.roll.sent else ""
        words = f"hung on {self._where(hung)}{sent}. Elsewhere? Scan that rod."
        words += f" {wrong_clip(hung.roll)}"
        return Said(self.session.headline(roll), words, select=roll.id, done=True)

    def hang_as_shown(self, roll: Roll) -> Said:
        """A roll hangs where its card said that it would."""
        hung = hanging.hang(self.session.file, self.session.hand(), roll=roll.id)
        return self.done(roll, f"hung on {self._where(hung)}")

    def hang_unknown(
        self, clip: int, rod: int, position: int | None = None, *, scanned: bool = False
    ) -> Said:
        """An unknown roll hangs on a clip that nobody has."""
        new = "" if scanned else self._new_clip(clip)
        file, hand = self.session.file, self.session.hand()
        try:
            hung = hanging.hang(file, hand, clip=clip, rod=rod, position=position)
        except RodFull as full:
            raise Refused(full_rod_words(self.session, clip, full)) from full
        named = may(self.session.by, "claim")
        whose = "Whose? Type a name" if named else "Ask the teacher whose it is"
        words = f"unknown roll, hung on {self._where(hung)}. {whose}{new or f'. {WRONG}'}"
        return Said(f"clip {clip}", words, select=hung.roll.id, done=True)

    def hang_on(self, roll: Roll, rod: int, position: int | None = None) -> Said:
        """A roll hangs on a rod, whether it hung before or not."""
        now = rolls.by_id(self.session.file.conn, roll.id)
        if now.place.kind != "rod":
            return self.hang(now, rod, position)
        if now.place.number == rod and position in (None, now.place.position):
            return Said(self.session.headline(now), f"hangs on {now.place} already", select=roll.id)
        try:
            moved = hanging.move(self.session.file, self.session.hand(), roll.id, rod, position)
        except RodFull as full:
            raise Refused(full_rod_words(self.session, now.clip or now.number, full)) from full
        return self.done(roll, f"hangs on {self._where(moved)}")

    def box(self, roll: Roll, box: int | None) -> Said:
        """A roll went into a box; without a number, its period's."""
        file, hand = self.session.file, self.session.hand()
        if roll.place.kind == "box" and box in (None, roll.place.number):
            return Said(self.session.headline(roll), f"in {roll.place} already", select=roll.id)
        heed = not_dry(self.session, roll)
        boxed = fetching.box(file, hand, [roll.id], box_number=box)[0]
        own = file.room().box_of(roll.period)
        if own is not None and own.number != boxed.place.number:
            heed = f", not in box {own.number} where it belongs{heed}"
        return self.done(roll, f"in {boxed.place}{heed}")

    def file(self, roll: Roll, binder: str) -> Said:
        """A roll is filed in a binder, `26F-03` or a number alone; one that is lent is not: to ask
        about it would stop the stack.
        """
        number = binder_number(binder, [roll])
        if roll.place.kind == "out":
            raise Refused(
                f"{roll.number} is not filed because it is {lent_words(self.session, roll)}: if it"
                f" is here again, type “{roll.number} end loan” first"
            )
        said = file_in(self.session, roll, number)
        return said._replace(words=f"{said.words}. The next one?")

    def act(self, roll: Roll, action: str) -> Said:
        """FLIP, DRY, TACKY or WET, TAKE, BOX or MISSING: do it to one roll."""
        file, hand = self.session.file, self.session.hand()
        match action:
            case "BOX":
                return self.box(roll, None)
            case "FLIP":
                drying.flip(file, hand, [roll.id])
                again = ", and hangs as at first again" if roll.flipped else ""
                words = f"flipped{again}{also(flip_warnings(file, [roll]))}"
            case "TAKE" if roll.person is None and self.session.by != "teacher":
                raise Refused(f"{roll.number} is nobody's yet: ask the teacher whose it is")
            case "TAKE" if roll.place.kind == "owner":
                return Said(self.session.headline(roll), "with its owner already", select=roll.id)
            case "TAKE":
                heed = not_dry(self.session, roll)
                fetching.take(file, hand, roll.id)
                words = f"with its owner{heed}"
            case "MISSING":
                lost = lending.missing(file, hand, [roll.id])[0]
                words = f"missing, last seen {lost.seen}"
            case "TACKY" | "WET" if roll.place.kind in ("box", "owner"):
                put_back = hanging.hang(file, hand, roll=roll.id, tacky=True)
                words = f"put back as {action.lower()} on {self._where(put_back)}"
            case _:
                drying.touch(file, hand, roll.id, dry=action == "DRY")
                taken = "" if roll.person is None else ". Taken along? Type “take”"
                words = f"dry by touch{taken}"
                if action != "DRY":
                    touched = rolls.by_id(file.conn, roll.id)
                    words = f"still {action.lower()}{come_back(self.session, touched)}"
        return self.done(roll, words)

    def _new_clip(self, clip: int) -> str:
        """Return what to say of a clip pair that was never used: a finger may have slipped, where
        no tag was scanned.
        """
        if read_clip(self.session.file.conn, clip) is not None:
            return ""
        return f". Clip {clip} is new here: if that is wrong, type “undo”"

    def whole_rod(self, rod: int, action: str) -> Said:
        """FLIP what wants it on a rod, or BOX every roll on it."""
        file, hand = self.session.file, self.session.hand()
        if action == "FLIP":
            flipped, left, early = drying.flip_rod(file, hand, rod)
            some = f"of these {clips_of(early)} " if len(early) < len(flipped) else ""
            rest = f", {some}before time" if early else ""
            rest += f". Not flipped: {', '.join(left)}" if left else ""
            rest += also(flip_warnings(file, flipped))
            words = f"{len(flipped)} flipped, {clips_of(flipped)}{rest}"
        else:
            there = [roll.id for roll in search.which_all(file.conn, ["rod", str(rod)])]
            fetching.box(file, hand, there)
            words = f"{len(there)} to their boxes"
        return Said(f"rod {rod}", f"{words}. {WRONG}", rod=rod, done=True)

    def fan(self, *, on: bool) -> Said:
        """The dial was turned to the room's hours, or the fan found off."""
        file = self.session.file
        run = drying.turn_dial(file, self.session.hand(), None if on else 0.0)
        enough = None if run is None else drying.enough_hours(file, run)
        words = "you turned the dial" if on else "it was found off"
        if enough is not None:
            words += f" ({enough:g} h is enough for film that is hung now)"
        return Said("fan on" if on else "fan off", f"noted that {words}. {WRONG}", done=True)

    def done(self, roll: Roll, words: str) -> Said:
        """Return the answer to an act on a roll, with how to take it back."""
        return self._told(self.session.headline(roll), words, roll)

    def _told(self, whom: str, words: str, roll: Roll) -> Said:
        return Said(whom, f"{words}. {WRONG}", select=roll.id, done=True)

    def _own_rods_are_full(self, roll: Roll) -> str:
        """Return that its period's rods are full, for a roll that hangs on another one."""
        own = [f"rod {rod.number}" for rod in self.session.file.room().rods_of(roll.period)]
        return f"{' and '.join(own)} {'is' if len(own) == 1 else 'are'} full"

    def _where(self, hung: hanging.Hung) -> str:
        """Return where a roll hangs, what comes next and when, and what is to be heeded."""
        when, lost = comes_next(self.session, hung.roll), ""
        for roll in rolls.by_ids(self.session.file.conn, hung.displaced):
            lost += f". {roll.number}, which was noted there, is marked missing"
        return f"{hung.roll.place}{when}{lost}{also(hung.warnings)}{dial(hung.dial_hours)}"
