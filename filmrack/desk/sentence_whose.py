"""Whose roll a clip carries: the sentences of a person and a clip."""

from __future__ import annotations

from filmrack.desk.deeds import Deeds
from filmrack.desk.halves import Half
from filmrack.desk.in_hand import InHand
from filmrack.desk.replies import clip_of, let_go, price, ways
from filmrack.desk.said import Said, capital
from filmrack.domain.names import Person
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
