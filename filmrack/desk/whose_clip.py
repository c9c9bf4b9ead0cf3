"""Whose roll a clip carries: the sentences of a person and a clip."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.desk.deeds import Deeds
from filmrack.desk.free_clips import free_words, highest_far_below, with_free_clip
from filmrack.desk.halves import Half
from filmrack.desk.in_hand import InHand
from filmrack.desk.replies import (
    clip_of,
    cost_of_clip,
    nothing_done_to,
    what_can_follow,
    where,
    whose_new,
)
from filmrack.desk.said import Said, capital
from filmrack.desk.session import Session
from filmrack.desk.verbs import ANSWER_TO_VERB_ALONE
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll


class WhoseClip:
    """Loads and claims at one desk, and holds a roll that was named."""

    def __init__(self, session: Session, in_hand: InHand) -> None:
        self.session = session
        self.in_hand = in_hand
        self.deeds = Deeds(session)

    def person(self, person: Person, first: Half | None, *, in_one: bool) -> Said:
        """Take a person: whose the clip or the unknown roll is that was named first, else whose
        new roll comes next. `in_one` when both stand in the same line.
        """
        roll = first.roll if first is not None else None
        if first is not None and first.clip is not None:
            return self._load(person, first.clip)
        if first is not None and first.renews and roll is not None and roll.clip is not None:
            if self.in_hand.if_enter is not None:  # what it costs is not told yet
                return self._ask_for(roll, person)
            is_loaded = roll.person == person.number and roll.place.kind == "tank"
            return self.hold(roll, None) if is_loaded else self._load(person, roll.clip)
        if roll is not None and roll.person is None:
            return self.in_hand.over(self.deeds.claim(roll, person))
        if in_one and roll is not None:
            if roll.person == person.number:
                return self.hold(roll, None)
            if roll.clip is not None:
                return self._ask_for(roll, person)
        words = f"scan or type its clip{free_words(self.session)}"
        if first is not None and first.roll is not None and self.in_hand.roll == first.roll.id:
            words += f". {clip_of(first)} stays as it was"
        return self.in_hand.wait(Half(person=person), Said(f"New roll for {person.short}", words))

    def ask_who(self, person: Person, typed: str, first: Half) -> Said:
        """Ask whether somebody is meant of whom one or two letters were typed."""
        self.in_hand.wait(first, Said(""))
        self.in_hand.does = f"{clip_of(first)} is {person.short}'s"

        def meant() -> Said:
            self.in_hand.wait(first, Said(""))
            return self.person(person, first, in_one=False)

        self.in_hand.if_enter = meant
        words = f"“{typed}” is short. Enter: {self.in_hand.does}. Else type more of the name"
        return Said(f"{person.short}?", words)

    def unknown(self, first: Half | None) -> Said:
        """Nobody knows whose roll it is: its clip is wanted, then its rod."""
        if first is not None and first.clip is not None:
            half = Half(clip=first.clip, unknown=True)
            return self.in_hand.wait(
                half, Said(f"clip {first.clip}", "an unknown roll. Now its rod, if nobody knows")
            )
        said = Said(
            "Unknown roll", f"scan or type a free clip, then its rod{free_words(self.session)}"
        )
        return self.in_hand.wait(Half(unknown=True), said)

    def free_clip(self, clip: int, first: Half | None, *, hangs: bool = False) -> Said:
        """Take a clip that is on no roll: it carries the roll of the person who was named first,
        else it is asked whose. `hangs` when it was said that it hangs.
        """
        if first is not None and first.unknown:
            return self.unknown(Half(clip=clip))
        if first is not None and first.person is not None:
            return self._load(first.person, clip)
        half = Half(clip=clip, hangs=hangs)
        words = (
            "nobody's yet. Whose roll is on it? Scan or type; or its rod, as “rod 3”, if nobody"
            " knows"
        )
        return self.in_hand.wait(half, Said(f"clip {clip}", self.cancelled(half, first) + words))

    def clip_or_rod(self, number: int, first: Half) -> Said:
        """Ask which is meant by a bare number behind a free clip, whose rod was asked for too."""
        words = f"type “rod {number}” if {clip_of(first)} hangs there, or “clip {number}” for that"
        return self.in_hand.wait(first, Said(f"Rod {number} or clip {number}?", words))

    def _load(self, person: Person, clip: int) -> Said:
        """Load a roll; whether there is a clip pair so far beyond all others is asked first."""
        highest = None if self.in_hand.scanned else highest_far_below(self.session, clip)
        if highest is None:
            return self._load_now(person, clip)
        self.in_hand.wait(Half(clip=clip), Said(""))
        self.in_hand.loading, does = person, f"clip {clip} is {person.short}'s"
        self.in_hand.does, self.in_hand.if_enter = does, lambda: self._load_now(person, clip)
        words = f"nothing is loaded yet, for the highest clip so far is {highest}. Enter: {does}."
        return Said(f"Is there a clip {clip}?", f"{words} Else type the number on the clip")

    def _load_now(self, person: Person, clip: int) -> Said:
        loaded = self.deeds.load(person, clip, scanned=self.in_hand.scanned)
        self.in_hand.wait(Half(person=person), loaded)
        self.in_hand.has_loaded(person)
        return loaded

    def whose_new(self, first: Half) -> Said:
        """Ask whose new roll a clip carries; nothing is done to the one it has by the record."""
        roll = first.roll
        if first.clip is not None:
            return self.free_clip(first.clip, None)
        if roll is None:
            raise Refused(with_free_clip(self.session, ANSWER_TO_VERB_ALONE["load"]))
        if roll.clip is None:
            raise Refused(f"{roll.number} has no clip: type whose roll is loaded and its clip")
        half = Half(roll=roll, renews=True)
        return self.in_hand.wait(half, whose_new(roll, self.deeds.whose(roll)))

    def refuse_before_whose(self, first: Half) -> None:
        """Refuse whatever else is said while it is asked whose a clip is."""
        if self.in_hand.if_enter is not None:
            raise Refused(
                f"first say whose {clip_of(first)} is: type the name and the clip once more, then"
                " Enter"
            )
        if first.renews:
            raise Refused(
                f"first say whose new roll is on {clip_of(first)}: type a name, or press Esc"
            )

    def clip_for_whom_is_loaded(self, halves: Sequence[Half | str]) -> int | None:
        """Return the clip in `61 is 62` while it is asked whether 61 is somebody's: theirs is 62,
        and the roll that 61 has by the record is not meant.
        """
        match halves:
            case [Half() as wrong, Half(right_clip=int(clip))] if self.in_hand.loading is not None:
                asked_for = "" if self.in_hand.first is None else self.in_hand.first.clip_meant
                return clip if wrong.clip_meant == asked_for else None
            case _:
                return None

    def refuse_unloaded(self, halves: Sequence[Half | str]) -> None:
        """Refuse `61 clip 62` behind a load on 61 that was let go: that roll is meant, and not the
        one which 61 has by the record, unless its number names it.
        """
        match halves:
            case [Half(roll=Roll() as roll, by_number=False) as wrong, Half(right_clip=int(clip))]:
                person = self.in_hand.unloaded_on(wrong.clip_meant)
                if person is not None:
                    raise Refused(
                        f"{clip_of(wrong)} is noted on {self.deeds.whose(roll)}'s roll, and"
                        f" {person.short}'s was not loaded: type “load"
                        f" {person.known_as.casefold()} {clip}”, or “{roll.serial:04d} clip {clip}”"
                        " if the other one is meant"
                    )

    def after_person(self, roll: Roll, person: Person, *, in_one: bool, more: bool) -> Said | None:
        """Take a clip that carries a roll already, behind a person; None when it is by itself.

        It may be another student's, who stands next in line, so it is not given away by a guess.
        """
        loaded_just_now = self.in_hand.roll is not None
        if roll.person == person.number:
            if roll.id != self.in_hand.roll:
                return self._ask_for(roll, person) if self._is_former(roll, in_one, more) else None
            words = "loaded already. Enter when it hangs; a second roll: its clip"
            return self.in_hand.wait(
                Half(person=person), Said(self.session.headline(roll), words, select=roll.id)
            )
        if roll.clip is None or (loaded_just_now and not in_one):
            return None
        return self._ask_for(roll, person)

    def _is_former(self, roll: Roll, in_one: bool, more: bool) -> bool:
        """Tell whether a person's clip must carry another roll now than the one on record."""
        taken_down = roll.place.kind in ("box", "owner")
        said_whole = in_one and roll.place.kind != "tank"  # `load mara 17`
        return roll.clip is not None and not more and (taken_down or said_whole)

    def _ask_for(self, roll: Roll, person: Person) -> Said:
        """Ask whether a clip that is in use shall carry another person's roll."""
        clip = roll.clip
        assert clip is not None
        words = cost_of_clip(
            roll, self.deeds.whose(roll), person, free_words(self.session), self.session.by
        )
        does = f"clip {clip} is {person.short}'s"
        asked = Said(f"clip {clip}?", words)
        self.in_hand.ask(roll, asked, does, lambda: self._load(person, clip))
        self.in_hand.loading = person
        self.in_hand.has_loaded(person)
        return asked

    def cancelled(self, instead: Half, first: Half | None) -> str:
        """Return what nothing was done to, since another clip came instead."""
        return "" if self.in_hand.goes_unsaid else nothing_done_to(first, instead)

    def hold(self, roll: Roll, first: Half | None) -> Said:
        """Show a roll that was named, and what can be done with it; nothing is done yet."""
        half = Half(roll=roll)
        follow = capital(what_can_follow(self.session, roll))
        words = f"{self.cancelled(half, first)}{where(self.session, roll)}"
        said = Said(self.session.headline(roll), words, select=roll.id, enter=follow)
        held = self.in_hand.wait(half, said)
        self.in_hand.looked_up = not self.in_hand.scanned
        return held
