"""What the line means: sentences of one or two halves, scanned or typed.

Nothing is ever acted on by a guess: a half that could mean two things is asked about, and the
first half is forgotten after ten seconds.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

from filmrack.desk.deeds import Deeds
from filmrack.desk.halves import Half, halves_of
from filmrack.desk.in_hand import InHand
from filmrack.desk.replies import clip_of, hung_again, let_go, price, ways
from filmrack.desk.said import Said, capital
from filmrack.domain.asking import code_in
from filmrack.domain.clock import clock
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import HANGABLE, Roll
from filmrack.domain.story import WORDS
from filmrack.store import ledger, rolls

_FRESH = timedelta(minutes=10)
"""How old an act on a roll may be that undo takes back without asking."""


class Sentences(InHand):
    """Takes lines at one desk."""

    @property
    def deeds(self) -> Deeds:
        """Return what this desk can do."""
        return Deeds(self.session)

    def person(self, person: Person) -> Said:
        """Take a person who was chosen from a list, as if scanned."""
        self.expire(self.session.now)
        return self._person(person, self.first, in_one=False)

    def hold(self, roll: Roll) -> Said:
        """Take a roll that was found by name: it is selected, and nothing is done to it."""
        self.expire(self.session.now)
        self.scanned = False
        return self._hold(roll, self.first)._replace(go=True)

    def show(self, roll: Roll, words: str) -> Said:
        """Show a roll that may be another than the one that was meant: only a word does more."""
        self.wait(Half(roll=roll), Said(""))
        return Said(self.deeds.headline(roll), words, select=roll.id, go=True, rests=True)

    def near(self, roll: Roll) -> Said:
        """Show a roll whose owner is only nearly called what was typed."""
        return self.show(roll, f"{roll.place}. {ways(self.session, roll, rests=True)}")

    def hang_again(self, roll: Roll) -> Said:
        """Ask whether a roll that is in no tank hangs again."""
        self.wait(Half(roll=roll), Said("", select=roll.id))
        return self._hang_in_hand(Half(roll=roll))._replace(go=True, rests=True)

    def do(self, roll: Roll, action: str) -> Said:
        """Do an action to a roll, as it is by now."""
        now = rolls.by_id(self.session.file.conn, roll.id)
        return self.over(self.deeds.undo(now) if action == "UNDO" else self.deeds.act(now, action))

    def enter(self) -> Said | None:
        """Take Enter alone; None leaves it to the next step of the roll in hand.

        Raises Refused while a half waits that Enter says nothing of.
        """
        self.expire(self.session.now)
        first = self.first
        if self.if_enter is not None:
            return self.if_enter()
        if first is None or self.in_hand is not None:
            return None
        if first.clip is not None:
            raise Refused(
                f"clip {first.clip} is nobody's yet: scan or type whose roll it carries, or its rod"
            )
        if first.person is not None:
            raise Refused(f"{first.person.short} has no clip yet: scan or type the clip pair")
        if first.rod is not None:
            raise Refused(f"what of rod {first.rod}: say flip or box, or press Esc")
        if first.roll is not None:
            raise Refused(f"what of {clip_of(first)}: type what is done with it, or press Esc")
        raise Refused("the other half is missing: scan the roll's clip or its sleeve")

    def understands(self, line: str) -> bool:
        """Tell whether a line is a sentence, not a name to look for."""
        try:
            return bool(halves_of(self.session, line))
        except Refused:
            return True

    def say(self, line: str) -> Said:
        """Take a scanned or typed line. Raises Refused for what cannot be meant."""
        self.expire(self.session.now)
        said: Said | None = None
        try:
            halves = halves_of(self.session, line)
            _refuse_several(halves)
            self.scanned = code_in(line) is not None
            if len(halves) > 1:  # a whole sentence is about nothing that was in hand before
                self.clear()
            for nth, half in enumerate(halves):
                self.looked_up = self.looked_up and nth == 0  # what the same line names is meant
                said = self._take(half, in_one=nth > 0, more=nth + 1 < len(halves))
        except Refused:
            self.clear()
            raise
        if said is None:
            raise Refused("that says nothing that can be done: scan a clip, or type a name")
        return said

    def act(self, action: str) -> Said:
        """Do an action word that was chosen from a list, as if scanned."""
        self.expire(self.session.now)
        return self._act(action)

    def _take(self, half: Half | str, *, in_one: bool, more: bool) -> Said:
        """`in_one` when the half before stands in the same line: then it was surely meant."""
        if isinstance(half, str):
            return self._act(half)
        asked_for = "" if self.first is None else self.first.clip_meant
        if self.loading is not None and half.clip_meant not in ("", asked_for):
            # Another clip, for the same person; scanned once more it is who comes next in line.
            self.wait(Half(person=self.loading), Said(""))
        first = self.first
        if self.if_enter is not None and half.person is None and not half.clip_meant:
            assert first is not None
            raise Refused(f"first say whose {clip_of(first)} is: Enter, or scan another clip")
        if half.person is not None:
            return self._person(half.person, first, in_one=in_one)
        if half.clip is not None:
            return self._free_clip(half.clip, first)
        if half.roll is not None:
            return self._roll(half.roll, first, in_one=in_one, more=more)
        if half.rod is not None:
            return self._rod(half.rod, first)
        if half.binder is not None:
            return self._binder(half.binder, first)
        assert half.box is not None
        return self._box(half.box, first)

    def _person(self, person: Person, first: Half | None, *, in_one: bool) -> Said:
        roll = first.roll if first is not None else None
        if first is not None and first.clip is not None:
            return self._load(person, first.clip)
        if roll is not None and roll.person is None:
            return self.over(self.deeds.claim(roll, person))
        if in_one and roll is not None:
            if roll.person == person.number:
                return self._hold(roll, None)
            if roll.clip is not None:
                return self._ask_for(roll, person)
        words = "scan or type its clip"
        if first is not None and first.roll is not None and self.in_hand == first.roll.id:
            words += f". {clip_of(first)} stays as it was"
        return self.wait(Half(person=person), Said(f"New roll for {person.short}", words))

    def _free_clip(self, clip: int, first: Half | None) -> Said:
        if first is not None and first.person is not None:
            return self._load(first.person, clip)
        half = Half(clip=clip)
        words = "nobody's yet. Whose roll is on it? Scan or type; or its rod, if nobody knows"
        return self.wait(half, Said(f"clip {clip}", self._let_go(half, first) + words))

    def _load(self, person: Person, clip: int) -> Said:
        return self.wait(Half(person=person), self.deeds.load(person, clip, scanned=self.scanned))

    def _roll(self, roll: Roll, first: Half | None, *, in_one: bool, more: bool) -> Said:
        if first is not None and first.binder is not None:
            return self.wait(Half(binder=first.binder), self.deeds.file(roll, first.binder))
        if first is not None and first.box is not None:
            return self.over(self.deeds.box(roll, first.box))
        if first is not None and first.person is not None:
            said = self._after_person(roll, first.person, in_one=in_one)
            if said is not None:
                return said
        if roll.place.kind == "tank" and not more and self.scanned:
            return self._hang(roll, self._let_go(Half(roll=roll), first))
        return self._hold(roll, first)

    def _after_person(self, roll: Roll, person: Person, *, in_one: bool) -> Said | None:
        """Take a clip that carries a roll already, behind a person; None when it is by itself.

        It may be another student's, who stands next in line, so it is not given away by a guess.
        """
        loaded_just_now = self.in_hand is not None
        if roll.person == person.number:
            if roll.id != self.in_hand:
                return None
            words = "loaded already. Enter when it hangs; a second roll: its clip"
            return self.wait(
                Half(person=person), Said(self.deeds.headline(roll), words, select=roll.id)
            )
        if roll.clip is None or (loaded_just_now and not in_one):
            return None
        return self._ask_for(roll, person)

    def _ask_for(self, roll: Roll, person: Person) -> Said:
        """Ask whether a clip that is in use shall carry another person's roll."""
        clip = roll.clip
        assert clip is not None
        words = price(roll, self.deeds.whose(roll), person)
        asks = f"clip {clip} is {person.short}'s"
        asked = self.ask(roll, Said(f"clip {clip}?", words), asks, lambda: self._load(person, clip))
        self.loading = person
        return asked

    def _let_go(self, instead: Half, first: Half | None) -> str:
        """Return what is not meant any more; what was only looked at needs no words."""
        return "" if self.looked_up else let_go(first, instead)

    def _hold(self, roll: Roll, first: Half | None) -> Said:
        half = Half(roll=roll)
        follow = ways(self.session, roll)
        then = f". {capital(follow)}" if follow else ""
        words = f"{self._let_go(half, first)}{roll.place}{then}"
        held = self.wait(half, Said(self.deeds.headline(roll), words, select=roll.id))
        self.looked_up = not self.scanned
        return held

    def _hang(self, roll: Roll, before: str = "", rod: int | None = None) -> Said:
        said = self.deeds.hang(roll, rod)
        now = rolls.by_id(self.session.file.conn, roll.id)
        return self.wait(Half(roll=now), said._replace(words=before + said.words))

    def _hang_in_hand(self, first: Half) -> Said:
        if first.clip is not None:
            raise Refused(
                f"{clip_of(first)} is nobody's yet: say whose roll it carries, or its rod"
            )
        if self.in_hand is None:
            raise Refused("hang what? Scan its clip, or type “hang 17”")
        roll = rolls.by_id(self.session.file.conn, self.in_hand)
        return self._hang(roll) if roll.place.kind in ("tank", "rod") else self._ask_again(roll)

    def _hang_on(self, roll: Roll, rod: int) -> Said:
        """Hang a roll on a rod; whether one hangs again that was taken down is asked first."""
        now = rolls.by_id(self.session.file.conn, roll.id)
        if now.live and now.place.kind in HANGABLE - {"tank"}:
            return self._ask_again(now, rod)
        return self.over(self.deeds.hang_on(now, rod))

    def _ask_again(self, roll: Roll, rod: int | None = None) -> Said:
        whose = self.deeds.whose(roll)
        asked = Said(f"{roll.clip or roll.number}?", hung_again(roll, whose), select=roll.id)
        return self.ask(
            roll, asked, f"{whose}'s roll hangs again", lambda: self._hang(roll, rod=rod)
        )

    def _undo(self, roll: Roll | None) -> Said:
        """Take back the last act; on a roll in hand one of long ago is asked about first."""
        if roll is not None and self._only_looked_up(roll):
            return self.over(self.deeds.undo(None))
        told = [] if roll is None else ledger.of_roll(self.session.file.conn, roll.id)
        last = max(told, key=lambda entry: (entry.happened, entry.id), default=None)
        now = self.session.now
        mine = self.session.by == "teacher"  # what a student may take back is fresh anyway
        if roll is None or last is None or not mine or now - last.happened <= _FRESH:
            return self.over(self.deeds.undo(roll))
        when = clock(last.happened, self.session.file.room().timetable.zone, now)
        did = WORDS.get(last.act, last.act)
        words = f"its last act is “{did}” of {when}. Enter takes that back; Esc leaves it"
        asked = Said(self.deeds.headline(roll), words, select=roll.id)
        asks = f"“{did}” of {when} is taken back"
        return self.ask(roll, asked, asks, lambda: self.over(self.deeds.undo(roll)))

    def _only_looked_up(self, roll: Roll) -> bool:
        """Tell whether a roll was but typed to look at it, and this desk did something meanwhile:
        then it is that which is taken back.
        """
        if self.scanned or not self.looked_up or self.session.by != "teacher":
            return False
        conn = self.session.file.conn
        mine = ledger.last_standing_group(conn, self.session.desk)
        return mine not in (None, ledger.last_standing_group_of_roll(conn, roll.id))

    def _rod(self, rod: int, first: Half | None) -> Said:
        if first is not None and first.clip is not None:
            return self._hang_unknown(first.clip, rod)
        if first is not None and first.roll is not None:
            return self._hang_on(first.roll, rod)
        if first is not None and first.person is not None and self.in_hand is not None:
            loaded = rolls.by_id(self.session.file.conn, self.in_hand)
            return self.over(self.deeds.hang_on(loaded, rod))
        if self.session.file.room().rod(rod) is None:
            raise Refused(f"there is no rod {rod} in this room: scan a rod's label again")
        said = Said(f"rod {rod}", "all that hangs on it: flip, or box?", rod=rod)
        return self.wait(Half(rod=rod), said)

    def _hang_unknown(self, clip: int, rod: int) -> Said:
        """Hang it, and keep it in hand: a name that is typed next says whose it is."""
        said = self.deeds.hang_unknown(clip, rod, scanned=self.scanned)
        hung = rolls.on_clip(self.session.file.conn, clip)
        return self.wait(Half(roll=hung), said)

    def _box(self, box: int, first: Half | None) -> Said:
        if first is not None and first.roll is not None:
            return self.over(self.deeds.box(first.roll, box))
        self.session.file.room().box_meant(box)
        words = "now the clip that went into it"
        if not self.scanned and rolls.on_clip(self.session.file.conn, box) is not None:
            words += f". To box what is on clip {box}, type “{box} box”"
        return self.wait(Half(box=box), Said(f"box {box}", words))

    def _binder(self, binder: str, first: Half | None) -> Said:
        half = Half(binder=binder)
        if first is None or first.roll is None:
            return self.wait(half, Said(f"binder {binder}", "now what is filed in it"))
        # The binder stays in hand: a whole stack is filed by scanning it once.
        return self.wait(half, self.deeds.file(first.roll, binder))

    def _act(self, action: str) -> Said:
        first = self.first
        if action in ("FAN", "FANOFF"):
            return self.over(self.deeds.fan(on=action == "FAN"))
        if first is not None and first.rod is not None and action in ("FLIP", "BOX"):
            return self.over(self.deeds.whole_rod(first.rod, action))
        if action == "UNDO":
            return self._undo(first.roll if first is not None else None)
        if action == "HANG" and self.if_enter is None and first is not None:
            return self._hang_in_hand(first)
        if first is not None and first.clip is not None:
            raise Refused(
                f"{clip_of(first)} is on no roll by the record: say whose it is, or scan again"
            )
        if first is None or first.roll is None or self.if_enter is not None:
            raise Refused(f"{action.lower()} what? Scan the clip first, then {action.lower()}")
        return self.over(self.deeds.act(first.roll, action))


def _refuse_several(halves: Sequence[Half | str]) -> None:
    """Refuse an action on several rolls in one line: it would be done to the last alone."""
    named = [clip_of(half) for half in halves if isinstance(half, Half) and half.roll is not None]
    does = next((half.lower() for half in halves if isinstance(half, str)), "")
    if does and len(named) > 1:
        raise Refused(
            f"{does} is for one roll at a time, not for {' and '.join(named)}: say it of each"
        )
