"""Whose roll a clip carries: the sentences of a person and a clip."""

from __future__ import annotations

from filmrack.desk.clip_words import free_words
from filmrack.desk.deeds import Deeds
from filmrack.desk.halves import Half
from filmrack.desk.in_hand import InHand
from filmrack.desk.replies import clip_of, let_go, price, ways, whose_new
from filmrack.desk.said import Said, capital
from filmrack.desk.verbs import HOW
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll


class WhoseSentences(InHand):
    """Loads and claims at one desk, and holds a roll that was named."""

    @property
    def deeds(self) -> Deeds:
        """Return what this desk can do."""
        return Deeds(self.session)

    def _person(self, person: Person, first: Half | None, *, in_one: bool) -> Said:
        roll = first.roll if first is not None else None
        if first is not None and first.clip is not None:
            return self._load(person, first.clip)
        if first is not None and first.renews and roll is not None and roll.clip is not None:
            if self.if_enter is not None:  # what it costs is not told yet
                return self._ask_for(roll, person)
            is_loaded = roll.person == person.number and roll.place.kind == "tank"
            return self._hold(roll, None) if is_loaded else self._load(person, roll.clip)
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

    def _ask_who(self, person: Person, typed: str, first: Half) -> Said:
        """Ask whether somebody is meant of whom one or two letters were typed."""
        self.wait(first, Said(""))
        self.asks = f"{clip_of(first)} is {person.short}'s"

        def meant() -> Said:
            self.wait(first, Said(""))
            return self._person(person, first, in_one=False)

        self.if_enter = meant
        words = f"“{typed}” is short. Enter: {self.asks}. Else type more of the name"
        return Said(f"{person.short}?", words)

    def _unknown(self, first: Half | None) -> Said:
        """Nobody knows whose roll it is: its clip is wanted, then its rod."""
        if first is not None and first.clip is not None:
            half = Half(clip=first.clip, unknown=True)
            return self.wait(
                half, Said(f"clip {first.clip}", "an unknown roll. Now its rod, if nobody knows")
            )
        half = Half(unknown=True)
        return self.wait(half, Said("Unknown roll", "scan or type a free clip, then its rod"))

    def _free_clip(self, clip: int, first: Half | None, *, hangs: bool = False) -> Said:
        if first is not None and first.unknown:
            return self._unknown(Half(clip=clip))
        if first is not None and first.person is not None:
            return self._load(first.person, clip)
        half = Half(clip=clip, hangs=hangs)
        words = (
            "nobody's yet. Whose roll is on it? Scan or type; or its rod, as “rod 3”, if nobody"
            " knows"
        )
        return self.wait(half, Said(f"clip {clip}", self._let_go(half, first) + words))

    def _clip_or_rod(self, number: int, first: Half) -> Said:
        """Ask which is meant by a bare number behind a free clip, whose rod was asked for too."""
        words = f"type “rod {number}” if {clip_of(first)} hangs there, or “clip {number}” for that"
        return self.wait(first, Said(f"Rod {number} or clip {number}?", words))

    def _load(self, person: Person, clip: int) -> Said:
        said = self.wait(Half(person=person), self.deeds.load(person, clip, scanned=self.scanned))
        self.loads(person)
        return said

    def _whose_new(self, first: Half) -> Said:
        """Ask whose new roll a clip carries; nothing is done to the one it has by the record."""
        roll = first.roll
        if first.clip is not None:
            return self._free_clip(first.clip, None)
        if roll is None:
            raise Refused(HOW["load"])
        if roll.clip is None:
            raise Refused(f"{roll.number} has no clip: type whose roll is loaded and its clip")
        half = Half(roll=roll, renews=True)
        return self.wait(half, whose_new(roll, self.deeds.whose(roll)))

    def _refuse_before_whose(self, first: Half) -> None:
        """Refuse whatever else is said while it is asked whose a clip is."""
        if self.if_enter is not None:
            raise Refused(
                f"first say whose {clip_of(first)} is: type the name and the clip once more, then"
                " Enter"
            )
        if first.renews:
            raise Refused(
                f"first say whose new roll is on {clip_of(first)}: type a name, or press Esc"
            )

    def _after_person(self, roll: Roll, person: Person, *, in_one: bool, more: bool) -> Said | None:
        """Take a clip that carries a roll already, behind a person; None when it is by itself.

        It may be another student's, who stands next in line, so it is not given away by a guess.
        """
        loaded_just_now = self.in_hand is not None
        if roll.person == person.number:
            if roll.id != self.in_hand:
                return self._ask_for(roll, person) if self._is_former(roll, in_one, more) else None
            words = "loaded already. Enter when it hangs; a second roll: its clip"
            return self.wait(
                Half(person=person), Said(self.deeds.headline(roll), words, select=roll.id)
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
        words = price(roll, self.deeds.whose(roll), person, free_words(self.session))
        asks = f"clip {clip} is {person.short}'s"
        asked = self.ask(roll, Said(f"clip {clip}?", words), asks, lambda: self._load(person, clip))
        self.loading = person
        self.loads(person)
        return asked

    def _let_go(self, instead: Half, first: Half | None) -> str:
        """Return what nothing was done to; what was only looked at, or is done, needs no words."""
        said = self.looked_up or self.settled or self.loading is not None  # whose load it was is
        return "" if said else let_go(first, instead)

    def _hold(self, roll: Roll, first: Half | None) -> Said:
        half = Half(roll=roll)
        follow = ways(self.session, roll)
        then = f". {capital(follow)}" if follow else ""
        words = f"{self._let_go(half, first)}{roll.place}{then}"
        held = self.wait(half, Said(self.deeds.headline(roll), words, select=roll.id))
        self.looked_up = not self.scanned
        return held
