"""A term's rolls as they stand in the archive, read a page at a time."""

from __future__ import annotations

import sqlite3
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from filmrack.domain.names import Person
from filmrack.domain.roll import GONE, Roll
from filmrack.store import people, rolls

WhichRolls = Literal[
    "all", "sleeve", "file", "binder", "out", "missing", "gone", "contact", "owner"
]
"""Which rolls are meant: all, those of one part of their way, or those that owe something."""

_NO_SHEET = "NOT EXISTS (SELECT 1 FROM contact_sheets c WHERE c.roll = rolls.id)"
_WHERE: Mapping[WhichRolls, str] = {
    "all": "place <> 'void'",
    "sleeve": "place IN ('tank', 'rod', 'box', 'owner')",
    "contact": f"place IN ('sleeve', 'binder', 'out') AND {_NO_SHEET}",
    "file": "place = 'sleeve'",
    "binder": "place = 'binder'",
    "out": "place = 'out'",
    "missing": "place = 'missing'",
    "gone": "place IN ('handed_back', 'discarded')",
    "owner": "person IS NULL AND place NOT IN ('handed_back', 'discarded', 'void')",
}
_PART_AT: Mapping[str, WhichRolls] = {
    **dict.fromkeys(("tank", "rod", "box", "owner"), "sleeve"),
    "sleeve": "file",
    "binder": "binder",
    "out": "out",
    "missing": "missing",
    **dict.fromkeys(("handed_back", "discarded"), "gone"),
}
"""Every place has its part, so that these add up to all."""


@dataclass(slots=True)
class Pile:
    """The rolls of one person in one period of a term, counted; unknown ones have no person."""

    period: int | None
    person: Person | None
    counts: dict[WhichRolls, int] = field(default_factory=dict)
    places: Counter[str] = field(default_factory=Counter)
    """How many rolls are in each kind of place."""

    def count(self, which: WhichRolls, more: int) -> None:
        """Count some more rolls."""
        self.counts[which] = self.counts.get(which, 0) + more


def piles(conn: sqlite3.Connection, term: str) -> list[Pile]:
    """Return the piles of a term, by period and then by family name; unknown rolls come last."""
    found: dict[tuple[int | None, int | None], Pile] = {}
    for row in conn.execute(
        "SELECT period, person, place, count(*) AS rolls FROM rolls"
        " WHERE term = ? AND place <> 'void' GROUP BY period, person, place",
        (term,),
    ).fetchall():
        pile = found.setdefault((row["period"], row["person"]), Pile(row["period"], None))
        pile.count("all", row["rolls"])
        pile.places[row["place"]] += row["rolls"]
        if row["person"] is None and row["place"] not in GONE:
            pile.count("owner", row["rolls"])
        pile.count(_PART_AT[row["place"]], row["rolls"])
    for row in conn.execute(
        "SELECT period, person, count(*) AS rolls FROM rolls"
        f" WHERE term = ? AND {_WHERE['contact']} GROUP BY period, person",
        (term,),
    ).fetchall():
        found[row["period"], row["person"]].count("contact", row["rolls"])
    known = people.read_people(conn, {person for _, person in found if person is not None})
    for (_, person), pile in found.items():
        pile.person = None if person is None else known.get(person)
    return sorted(found.values(), key=_order)


def _order(pile: Pile) -> tuple[bool, int, bool, str, str, int]:
    person = pile.person
    names = ("", "", 0) if person is None else (person.family, person.known_as, person.number)
    return (pile.period is None, pile.period or 0, person is None, *names)


def page(
    conn: sqlite3.Connection, term: str, which: WhichRolls, pile: Pile, *, first: int, many: int
) -> list[Roll]:
    """Return some rolls of a pile, from the `first`-th on (from 0), oldest first."""
    where, values = _of_pile(term, which, pile)
    return rolls.read(conn, f"{where} ORDER BY id LIMIT ? OFFSET ?", [*values, many, first])


def nth_of(
    conn: sqlite3.Connection, term: str, which: WhichRolls, pile: Pile, roll: int
) -> int | None:
    """Return which roll of its pile it is, from 0; None when it is none of those meant."""
    where, values = _of_pile(term, which, pile)
    before, there = conn.execute(
        f"SELECT count(*) FILTER (WHERE id < ?), count(*) FILTER (WHERE id = ?)"
        f" FROM rolls WHERE {where}",
        [roll, roll, *values],
    ).fetchone()
    return before if there else None


def nth_of_owner(conn: sqlite3.Connection, roll: Roll) -> tuple[int, int]:
    """Return which of its owner's rolls of its term a roll is, from 1 in the order of the piles
    and of their pages, and of how many.
    """
    place = "(period IS NULL, ifnull(period, 0), id)"
    nth, many = conn.execute(
        f"SELECT count(*) FILTER (WHERE {place} <= (?, ?, ?)), count(*) FROM rolls"
        f" WHERE person = ? AND term = ? AND {_WHERE['all']}",
        (roll.period is None, roll.period or 0, roll.id, roll.person, roll.term),
    ).fetchone()
    return nth, many


def _of_pile(term: str, which: WhichRolls, pile: Pile) -> tuple[str, list[object]]:
    person = None if pile.person is None else pile.person.number
    where = f"term = ? AND period IS ? AND person IS ? AND {_WHERE[which]}"
    return where, [term, pile.period, person]
