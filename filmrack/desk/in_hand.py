"""The half of a sentence that waits for the other one, and what Enter means meanwhile."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import NamedTuple

from filmrack.desk.halves import Half
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.domain.names import Person
from filmrack.domain.roll import Roll

_PATIENCE = timedelta(seconds=10)
"""How long a half waits for the other one."""

_REMEMBERED = timedelta(minutes=5)
"""How long a load that was asked about and let go keeps its clip from meaning another roll."""

_STILL_MEANT = timedelta(minutes=1)
"""How long a verb alone is still about the roll that was named or acted on."""


class Meant(NamedTuple):
    """A roll that a line was about, and when."""

    roll: int
    at: datetime


class Unloaded(NamedTuple):
    """Whose roll was not loaded since that was not answered, on which clip, and when."""

    person: Person
    clip: str
    at: datetime


@dataclass(slots=True)
class InHand:
    """The sentence in hand at one desk; it waits ten seconds for its other half."""

    session: Session
    first: Half | None = None
    """The half that was said; None while nothing is in hand."""
    since: datetime | None = None
    """Since when it waits."""
    roll: int | None = None
    """The roll that Enter is about while a sentence waits."""
    named: Meant | None = None
    """The roll that a line named last: while it is on the card it is meant for longer than a half
    waits."""
    acted: Meant | None = None
    """The roll that was acted on last, until another one is named or selected."""
    does: str = ""
    """What Enter does when the desk asked whether it is meant, in words."""
    if_enter: Callable[[], Said] | None = None
    """Does what was asked."""
    scanned: bool = False
    """Whether the line is a code: a loaded clip that is scanned hangs, a typed one is shown."""
    looked_up: bool = False
    """Whether the roll in hand was but typed to look at it."""
    settled: bool = False
    """Whether something was done to what is in hand: another clip then cancels nothing."""
    loading: Person | None = None
    """Whose roll is being loaded while it is asked whether the clip is meant."""
    unloaded: Unloaded | None = None
    """The load that was asked about last and let go; none since that was loaded."""

    @property
    def wants_person(self) -> bool:
        """Tell whether a name typed now says whose a clip or an unknown roll is."""
        first = self.first
        if first is None:
            return False
        unknown = first.roll is not None and first.roll.person is None
        return (first.clip is not None and not first.unknown) or first.renews or unknown

    @property
    def rod_comes_next(self) -> bool:
        """Tell whether a bare number is a rod: behind a free clip that hangs, or is unknown."""
        first = self.first
        return first is not None and first.clip is not None and (first.unknown or first.hangs)

    @property
    def rod_may_come(self) -> bool:
        """Tell whether a bare number may be a rod as well as the next clip."""
        return self.first is not None and self.first.clip is not None and not self.rod_comes_next

    @property
    def waits(self) -> bool:
        """Tell whether the other half is missing, so that Enter alone does nothing."""
        return self.first is not None and self.roll is None and not self.does

    @property
    def half_said(self) -> bool:
        """Tell whether a sentence waits for its other half, and no roll is but shown."""
        shown = self.first is not None and self.first.roll is not None and not self.first.renews
        return self.waits and not shown

    @property
    def asks_of_clip(self) -> bool:
        """Tell whether it is asked about a clip or whose it is: no other roll is meant by that."""
        first = self.first
        if first is None or self.roll is not None:
            return False
        return bool(first.clip_meant or first.person) and (self.waits or bool(self.does))

    @property
    def goes_unsaid(self) -> bool:
        """Tell whether another clip needs no word of what was in hand before: that was only looked
        at, or done; or a load was asked about, and whose it was is said anyway.
        """
        return self.looked_up or self.settled or self.loading is not None

    @property
    def without_clip(self) -> Person | None:
        """Return who was named for a load that has no clip yet."""
        if self.loading is not None:
            return self.loading
        return self.first.person if self.first is not None and self.waits else None

    @property
    def waits_for_clip(self) -> bool:
        """Tell whether a person was named, and the clip of their roll is what comes next."""
        return self.first is not None and self.first.person is not None

    def hold_again(self, roll: Roll) -> bool:
        """Have a roll in hand once more that was named a little while ago; tell whether it was."""
        if self.just_named() != roll.id:
            return False
        self.wait(Half(roll=roll), Said("", select=roll.id))
        return True

    def just_named(self) -> int | None:
        """Return the roll that a line named a little while ago, and none after it."""
        return self._still_meant(self.named)

    def just_acted_on(self) -> int | None:
        """Return the roll that a verb alone is about still, whatever took its place in a list."""
        return self._still_meant(self.acted)

    def _still_meant(self, last: Meant | None) -> int | None:
        if last is None or self.session.now - last.at > _STILL_MEANT:
            return None
        return last.roll

    def remember_name(self, roll: int) -> None:
        """Remember which roll was looked for just now, where no sentence begins with that."""
        self.named, self.acted = Meant(roll, self.session.now), None

    def remember_act(self, roll: int | None) -> None:
        """Remember which roll was acted on just now."""
        self.acted = None if roll is None else Meant(roll, self.session.now)

    def let_go(self) -> bool:
        """Forget the sentence in hand and which roll was meant, since another one is selected; tell
        whether there was a sentence.
        """
        was_in_hand = self.first is not None
        self.clear()
        self.named = self.acted = None
        return was_in_hand

    def expire(self, now: datetime) -> bool:
        """Forget the first half when its second did not come; tell whether it did so."""
        if self.first is not None and self.since is not None and now - self.since > _PATIENCE:
            self.clear()
            return True
        return False

    def clear(self) -> None:
        """Forget the first half, and what Enter was asked for."""
        if self.loading is not None and self.first is not None:
            self.unloaded = Unloaded(self.loading, self.first.clip_meant, self.session.now)
        self.first, self.since, self.roll, self.if_enter = None, None, None, None
        self.does, self.loading, self.looked_up, self.settled = "", None, False, False

    def loads_for(self, person: Person) -> bool:
        """Tell whether somebody's roll is loaded, or the clip of it is what comes next."""
        return person in (self.loading, None if self.first is None else self.first.person)

    def has_loaded(self, person: Person) -> None:
        """Forget that somebody's roll was not loaded: by now it is, or it is asked about anew."""
        if self.unloaded is not None and self.unloaded.person == person:
            self.unloaded = None

    def unloaded_on(self, clip: str) -> Person | None:
        """Return whose roll was just not loaded on a clip: that clip's other roll is not meant."""
        last = self.unloaded
        if last is None or last.clip != clip or self.session.now - last.at > _REMEMBERED:
            return None
        return last.person

    def wait(self, half: Half, said: Said) -> Said:
        """Keep a half until the other one comes; what was said is about `said.select`."""
        self.clear()
        self.first, self.since, self.roll = half, self.session.now, said.select
        self.named = None if half.roll is None else Meant(half.roll.id, self.session.now)
        self.acted = None
        self.settled = said.done
        return said

    def over(self, said: Said) -> Said:
        """End the sentence with what was done."""
        self.clear()
        return said

    def ask(
        self,
        roll: Roll | None,
        said: Said,
        does: str,
        do: Callable[[], Said],
        *,
        renews: bool = False,
    ) -> Said:
        """Ask whether something is meant, of a roll or of none; only Enter does it, and says it as
        `does`.
        """
        asked = self.wait(Half(roll=roll, renews=renews), said)
        self.does, self.if_enter = does, do
        return asked
