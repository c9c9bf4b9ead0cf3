"""What has become of the rolls of a term: where each is, and what is still owed for it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from filmrack.domain.roll import ARCHIVED, GONE, Roll

ACCOUNTED_FOR = frozenset({"binder", "out", "handed_back", "discarded"})
"""Where a roll may be when its term is closed: filed, with a known borrower, or gone for good."""

IN_WORDS = {
    "tank": "in the tank",
    "rod": "on a rod",
    "box": "in a box",
    "owner": "with their owners",
    "sleeve": "in sleeves, not filed",
    "binder": "in binders",
    "out": "borrowed",
    "missing": "missing",
    "handed_back": "handed back",
    "discarded": "discarded",
}
"""Every kind of place that a roll can be in, in the order of its life."""

KINDS_OF_PLACE = tuple(IN_WORDS)

RollsOfOne = tuple[int | None, int | None, tuple[Roll, ...]]
"""The period, the person, and rolls of theirs."""


class TermReport(NamedTuple):
    """The rolls of a term by place, and by what is owed; void numbers are no rolls.

    `places` has each of KINDS_OF_PLACE and adds up to `rolls`. A roll can be owed in several ways.
    """

    rolls: int
    places: Mapping[str, int]
    unaccounted: tuple[RollsOfOne, ...]
    """Rolls neither filed, borrowed nor gone: by period, by person."""
    no_contact: tuple[Roll, ...]
    not_filed: tuple[Roll, ...]
    out: tuple[Roll, ...]
    missing: tuple[Roll, ...]
    unclaimed: tuple[Roll, ...]
    """Rolls without an owner that are not gone."""

    @property
    def without_sheet(self) -> str:
        """Return how many rolls have no contact sheet and where these are; empty for none."""
        where = Counter(roll.place.kind for roll in self.no_contact)
        parts = [f"{where[kind]} {IN_WORDS[kind]}" for kind in KINDS_OF_PLACE if where[kind]]
        if not parts:
            return ""
        return f"{len(self.no_contact)} without a contact sheet ({'; '.join(parts)})"

    @property
    def owed(self) -> dict[str, tuple[Roll, ...]]:
        """Return the rolls that owe something, by what that is."""
        return {
            "no_contact": self.no_contact,
            "not_filed": self.not_filed,
            "out": self.out,
            "missing": self.missing,
            "unclaimed": self.unclaimed,
        }

    @property
    def open_rolls(self) -> list[Roll]:
        """Return all that is unaccounted for, as one list."""
        return [roll for _, _, some in self.unaccounted for roll in some]


def term_report(rolls: Iterable[Roll], settled: Mapping[str, int] | None = None) -> TermReport:
    """Report on the rolls of one term, in the order in which they are given.

    `settled` counts, by kind of place, further rolls of it for which nothing is owed.
    """
    there = [roll for roll in rolls if roll.place.kind != "void"]
    counted = Counter(settled or {})
    counted.update(roll.place.kind for roll in there)
    return TermReport(
        rolls=counted.total(),
        places={kind: counted[kind] for kind in KINDS_OF_PLACE},
        unaccounted=by_period_and_person(
            [roll for roll in there if roll.place.kind not in ACCOUNTED_FOR]
        ),
        no_contact=tuple(
            roll
            for roll in there
            if roll.sleeved_at is not None and not roll.sheets and roll.place.kind not in GONE
        ),
        not_filed=tuple(roll for roll in there if roll.place.kind == "sleeve"),
        out=tuple(roll for roll in there if roll.place.kind == "out"),
        missing=tuple(roll for roll in there if roll.place.kind == "missing"),
        unclaimed=tuple(
            roll for roll in there if roll.person is None and roll.place.kind not in GONE
        ),
    )


def to_hand_back(rolls: Iterable[Roll]) -> tuple[RollsOfOne, ...]:
    """Return what can be handed back at the end of a term, and what must come back first.

    That is every sleeve at hand and every one that is borrowed.
    """
    return by_period_and_person([roll for roll in rolls if roll.place.kind in ARCHIVED])


def by_period_and_person(rolls: Sequence[Roll]) -> tuple[RollsOfOne, ...]:
    """Return rolls by period and person; those without either come last."""
    groups: dict[tuple[int | None, int | None], list[Roll]] = {}
    for roll in rolls:
        groups.setdefault((roll.period, roll.person), []).append(roll)

    def order(key: tuple[int | None, int | None]) -> tuple[bool, int, bool, int]:
        period, person = key
        return (period is None, period or 0, person is None, person or 0)

    return tuple((*key, tuple(groups[key])) for key in sorted(groups, key=order))
