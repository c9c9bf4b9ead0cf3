"""Film that leaves the usual way: lent, handed back, lost and found, thrown away."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from filmrack.acts import lending
from filmrack.demo.darkroom import MINUTE, TEACHER, Darkroom
from filmrack.domain.roll import Roll
from filmrack.store import rolls

REASONS = (
    "blank: the film never caught on the spool",
    "black all over: the tank was opened too early",
)
BORROWER = "the yearbook group"


@dataclass(frozen=True, slots=True)
class Departures:
    """What happens to sleeves and films beside the usual way."""

    darkroom: Darkroom

    def plan(self) -> None:
        """Write each of them into the diary."""
        at = self.darkroom.diary.at
        at(datetime(2026, 1, 8, 21, 30, tzinfo=UTC), self._hand_back_the_first_term)
        at(datetime(2026, 4, 28, 21, 10, tzinfo=UTC), self._lend_for_the_yearbook)
        at(datetime(2026, 5, 12, 20, 55, tzinfo=UTC), self._bring_back)
        at(datetime(2026, 9, 24, 20, 45, tzinfo=UTC), self._throw_away)
        at(datetime(2026, 10, 27, 20, 50, tzinfo=UTC), self._lend_three)
        at(datetime(2026, 11, 5, 21, 5, tzinfo=UTC), self._not_in_its_binder)
        at(datetime(2026, 11, 10, 21, 5, tzinfo=UTC), self._behind_the_cupboard)

    def _some(self, number: int, place: str, term: str | None = None) -> list[Roll]:
        known = [
            roll
            for roll in rolls.in_places(self.darkroom.file.conn, place)
            if term in (None, roll.term) and (roll.sleeved_at or place == "box")
        ]
        return sorted(self.darkroom.chance.sample(known, number), key=lambda roll: roll.id)

    def _hand_back_the_first_term(self, at: datetime) -> None:
        numbers = [roll.id for roll in self._some(24, "binder", "25F")]
        lending.release(self.darkroom.file, self.darkroom.hand(at, TEACHER), numbers)

    def _lend(self, at: datetime, chosen: Sequence[Roll], days: int, name: str | None) -> None:
        darkroom = self.darkroom
        until = (darkroom.room.timetable.local_date(at) + timedelta(days=days)).isoformat()
        for nth, roll in enumerate(chosen):
            if to := name or roll.person:
                hand = darkroom.hand(at + nth * MINUTE / 4, TEACHER)
                lending.lend(darkroom.file, hand, roll.id, until, to=to)

    def _lend_for_the_yearbook(self, at: datetime) -> None:
        self._lend(at, self._some(3, "binder", "26S"), 14, BORROWER)

    def _bring_back(self, at: datetime) -> None:
        out = rolls.in_places(self.darkroom.file.conn, "out")
        numbers = [roll.id for roll in out]
        lending.back(self.darkroom.file, self.darkroom.hand(at, TEACHER), numbers)

    def _throw_away(self, at: datetime) -> None:
        for roll, why in zip(self._some(len(REASONS), "box"), REASONS, strict=True):
            lending.discard(self.darkroom.file, self.darkroom.hand(at, TEACHER), roll.id, why)

    def _lend_three(self, at: datetime) -> None:
        """One is overdue at the demo's moment, two are not."""
        first, *others = self._some(3, "binder", "26F")
        self._lend(at, [first], 14, None)
        self._lend(at + MINUTE, others, 28, None)

    def _not_in_its_binder(self, at: datetime) -> None:
        numbers = [roll.id for roll in self._some(2, "binder", "26S")]
        lending.missing(self.darkroom.file, self.darkroom.hand(at, TEACHER), numbers)

    def _behind_the_cupboard(self, at: datetime) -> None:
        gone = self._some(1, "missing", "26S")
        for roll in gone:
            lending.found(self.darkroom.file, self.darkroom.hand(at, TEACHER), roll.id)
