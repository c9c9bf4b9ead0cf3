"""What the line means: sentences of one or two halves, scanned or typed.

Nothing is ever acted on by a guess: a half that could mean two things is asked about, and the
first half is forgotten after ten seconds.
"""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.desk.deeds import Deeds
from filmrack.desk.halves import Half, halves_of
from filmrack.desk.in_hand import InHand
from filmrack.desk.plain_questions import asked_about
from filmrack.desk.replies import (
    NOT_BY_LOOKING,
    NOT_TAKEN_BACK,
    clip_of,
    not_loaded,
    what_can_follow,
    where,
)
from filmrack.desk.said import Said, capital
from filmrack.desk.second_half import SecondHalf
from filmrack.desk.session import Session
from filmrack.desk.taking_back import undo
from filmrack.desk.whose_clip import WhoseClip
from filmrack.domain.asking import code_in
from filmrack.domain.codes import read
from filmrack.domain.counted import listed
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import rolls, search


class Sentences:
    """Takes lines at one desk."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.in_hand = InHand(session)
        self._read = False
        """Whether the line is a code as a scanner reads it: who types a number with its check
        digits may only want to look.
        """
        self.deeds = Deeds(session)
        self.whose = WhoseClip(session, self.in_hand)
        self.second = SecondHalf(session, self.in_hand, self.whose)

    def person(self, person: Person, typed: str = "") -> Said:
        """Take a person who was chosen from a list, as if scanned; one or two letters that were
        `typed` for them are asked about, where they would act.
        """
        self.in_hand.expire(self.session.now)
        if (
            typed
            and self.in_hand.wants_person
            and self.in_hand.first is not None
            and search.is_guess(person, typed)
        ):
            return self.whose.ask_who(person, typed, self.in_hand.first)
        first = self.in_hand.first
        said = self.whose.person(person, first, in_one=False)
        found = "" if first is not None else self._who_finds(person)
        return said._replace(words=f"{said.words}{found}")

    def _who_finds(self, person: Person) -> str:
        """Return who finds a roll of somebody who has none on its way, as the end of a sentence of
        a student desk. It says so whether there is one in the archive or not: anybody can type a
        name there.
        """
        if self.session.by == "teacher" or rolls.on_their_way(
            self.session.file.conn, person.number
        ):
            return ""
        return (
            ". Looking for a roll? None of theirs is in the dryer or a box: the teacher finds what"
            " is sleeved"
        )

    def unknown(self) -> Said:
        """Take it that nobody knows whose roll comes next, or is on the clip in hand."""
        self.in_hand.expire(self.session.now)
        return self.whose.unknown(self.in_hand.first)

    def hold(self, roll: Roll) -> Said:
        """Take a roll that was found by name: it is selected, and nothing is done to it."""
        self.in_hand.expire(self.session.now)
        self.in_hand.scanned = False
        return self.whose.hold(roll, self.in_hand.first)._replace(go=True)

    def show(self, roll: Roll, words: str) -> Said:
        """Show a roll that may be another than the one that was meant: only a word does more."""
        self.in_hand.wait(Half(roll=roll), Said(""))
        return Said(self.session.headline(roll), words, select=roll.id, go=True, rests=True)

    def near(self, roll: Roll) -> Said:
        """Show a roll that may not be the one that was meant, or was only asked about."""
        words = capital(what_can_follow(self.session, roll, rests=True))
        before = self.whose.cancelled(Half(roll=roll), self.in_hand.first)
        said = self.show(roll, f"{before}{where(self.session, roll)}. {words}")
        self.in_hand.looked_up = True
        return said

    def hang_again(self, roll: Roll) -> Said:
        """Ask whether a roll that is in no tank hangs again."""
        self.in_hand.wait(Half(roll=roll), Said("", select=roll.id))
        return self.second.hang_in_hand(Half(roll=roll))._replace(go=True, rests=True)

    def do(self, roll: Roll, action: str) -> Said:
        """Do an action to a roll, as it is by now."""
        now = rolls.by_id(self.session.file.conn, roll.id)
        if action == "UNDO":
            return self.in_hand.over(undo(self.session, now))
        return self.in_hand.over(self.deeds.act(now, action))

    def enter(self) -> Said | None:
        """Take Enter alone; None leaves it to the next step of the roll in hand.

        Raises Refused while a half waits that Enter says nothing of.
        """
        self.in_hand.expire(self.session.now)
        first = self.in_hand.first
        if self.in_hand.if_enter is not None:
            return self.in_hand.if_enter()
        if first is None or self.in_hand.roll is not None:
            return None
        self.whose.refuse_before_whose(first)
        raise Refused(self.second.what_is_missing(first))

    def let_go_for(self, line: str) -> str:
        """Forget what is in hand where a line is a question, for nothing is done by asking; return
        what was not done then, in words.
        """
        if not asked_about(line):
            return ""
        person, first = self.in_hand.without_clip, self.in_hand.first
        clip = first is not None and first.clip is not None and not self.in_hand.goes_unsaid
        self.in_hand.clear()
        if person is not None:
            return not_loaded(person)
        return f"nothing was done to {clip_of(first)}" if clip and first is not None else ""

    def understands(self, line: str) -> bool:
        """Tell whether a line is a sentence, not a name to look for."""
        try:
            return bool(halves_of(self.session, line))
        except Refused:
            return True

    def say(self, line: str) -> Said:
        """Take a scanned or typed line. Raises Refused for what cannot be meant."""
        self.in_hand.expire(self.session.now)
        number = line.strip()
        if number.isdecimal() and len(number) < 4 and self.in_hand.first is not None:
            return self._number(int(number), line, self.in_hand.first)
        said = self._line(line)
        return self._only_asked(said) if asked_about(line) else said

    def asked(self, roll: Roll) -> Said:
        """Show a roll that was only asked about, by a word for the one that is seen."""
        return self._only_asked(self.hold(roll))

    def _only_asked(self, said: Said) -> Said:
        """Let Enter end no loan, and find or cut no roll, behind the mere question where one is."""
        held = self.in_hand.roll if self.in_hand.looked_up else None
        if held is None:
            return said
        roll = rolls.by_id(self.session.file.conn, held)
        heavy = self.session.standing(roll).next.act in ("found", *NOT_BY_LOOKING, *NOT_TAKEN_BACK)
        return self.near(roll) if heavy else said

    def _number(self, number: int, line: str, first: Half) -> Said:
        """Take a bare number behind a first half: a clip, where it can be no rod."""
        is_rod = self.session.file.room().rod(number) is not None
        if self.in_hand.rod_comes_next and (is_rod or first.unknown):
            return self._line(f"rod {number}")
        if self.in_hand.rod_may_come and is_rod and first.clip != number:
            return self.whose.clip_or_rod(number, first)
        return self._line(line)

    def _line(self, line: str) -> Said:
        """Take all that a line says; a refused one leaves nothing in hand."""
        try:
            halves = halves_of(self.session, line)
            _refuse_several(halves)
            instead = self.whose.clip_for_whom_is_loaded(halves)
            if instead is not None:
                return self._line(f"clip {instead}")
            self.whose.refuse_unloaded(halves)
            self.in_hand.scanned = code_in(line) is not None
            self._read = read(line) is not None
            return self._halves(halves)
        except Refused:
            self.in_hand.clear()
            raise

    def _halves(self, halves: Sequence[Half | str]) -> Said:
        in_hand, said = self.in_hand, None
        if len(halves) > 1:  # a whole sentence is about nothing that was in hand before
            in_hand.clear()
        for nth, half in enumerate(halves):
            if said is not None and half == "HANG" and in_hand.if_enter is not None:
                break  # whose the clip is comes first: once it is theirs, Enter hangs it
            in_hand.looked_up = in_hand.looked_up and nth == 0  # what the same line names is meant
            said = self._take(half, in_one=nth > 0, more=nth + 1 < len(halves))
        if said is None:
            raise Refused("that says nothing that can be done: scan a clip, or type a name")
        return self._of_all_loaded(said, halves)

    def _of_all_loaded(self, said: Said, halves: Sequence[Half | str]) -> Said:
        """Name every clip that a line has loaded for one person, not the last alone."""
        clips = [half.clip for half in halves if isinstance(half, Half) and half.clip is not None]
        first = self.in_hand.first
        if len(clips) < 2 or not said.done or first is None or first.person is None:
            return said
        on = listed([str(clip) for clip in clips], 9)
        return said._replace(headline=f"{on} → {first.person.short}")

    def act(self, action: str) -> Said:
        """Do an action word that was chosen from a list, as if scanned."""
        self.in_hand.expire(self.session.now)
        return self.second.act(action)

    def _take(self, half: Half | str, *, in_one: bool, more: bool) -> Said:
        """`in_one` when the half before stands in the same line: then it was surely meant."""
        if isinstance(half, str):
            return self.second.act(half)
        asked_for = "" if self.in_hand.first is None else self.in_hand.first.clip_meant
        if self.in_hand.loading is not None and half.clip_meant not in ("", asked_for):
            # Another clip, for the same person; scanned once more it is who comes next in line.
            self.in_hand.wait(Half(person=self.in_hand.loading), Said(""))
        first = self.in_hand.first
        if first is not None and half.person is None and not half.clip_meant:
            self.whose.refuse_before_whose(first)
        if half.unknown:
            return self.whose.unknown(first)
        if half.right_clip is not None:
            return self.second.right_clip(half.right_clip, first)
        if half.person is not None:
            return self.whose.person(half.person, first, in_one=in_one)
        if half.clip is not None:
            return self.whose.free_clip(half.clip, first)
        if half.roll is not None:
            return self._roll(half.roll, first, in_one=in_one, more=more)
        if half.rod is not None:
            return self.second.rod(half.rod, first, half.position)
        if half.binder is not None:
            return self.second.binder(half.binder, first)
        assert half.box is not None
        return self.second.box(half.box, first)

    def _roll(self, roll: Roll, first: Half | None, *, in_one: bool, more: bool) -> Said:
        if first is not None and first.binder is not None:
            return self.second.file(roll, first.binder)
        if first is not None and first.box is not None:
            return self.in_hand.over(self.deeds.box(roll, first.box))
        if first is not None and first.unknown:
            raise Refused(
                f"clip {roll.clip} is noted on {self.deeds.whose(roll)}'s roll"
                f" ({roll.place}): if that one is on another clip by now, type “{roll.clip} clip”"
                f" and which, then “unknown {roll.clip}” once more"
            )
        if first is not None and first.person is not None:
            said = self.whose.after_person(roll, first.person, in_one=in_one, more=more)
            if said is not None:
                return said
        if roll.place.kind == "tank" and not more and self.in_hand.scanned:
            return self.second.hang(roll, self.whose.cancelled(Half(roll=roll), first))
        looks = not more and not self._read
        if looks and self.session.standing(roll).next.act in NOT_BY_LOOKING:
            return self.near(roll)
        return self.whose.hold(roll, first)


def _refuse_several(halves: Sequence[Half | str]) -> None:
    """Refuse an action on several rolls in one line: it would be done to the last alone."""
    named = [clip_of(half) for half in halves if isinstance(half, Half) and half.clip_meant]
    does = next((half.lower() for half in halves if isinstance(half, str)), "")
    if does and len(named) > 1:
        raise Refused(
            f"{does} is for one roll at a time, not for {' and '.join(named)}: say it of each"
        )
