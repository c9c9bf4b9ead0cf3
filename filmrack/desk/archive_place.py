"""What a line names of the Archive screen: what is owed, a term, a period."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.desk.archive_drawing import CHIPS
from filmrack.domain.names import folded
from filmrack.domain.room import Room
from filmrack.store.archive import Owed

_ALSO: dict[str, Owed] = {
    "out": "out",
    "lent": "out",
    "loans": "out",
    "gone": "gone",
    "no contact": "contact",
    "no owner": "owner",
    "unknown": "owner",
}


class Named(NamedTuple):
    """Exactly one of these is named."""

    owed: Owed | None = None
    term: str | None = None
    period: int | None = None


def named(text: str, room: Room) -> Named | None:
    """Return what a line names, or None."""
    line = folded(text)
    chips: dict[str, Owed] = {**_ALSO, **{words: owed for owed, words in CHIPS}}
    if line in chips:
        return Named(owed=chips[line])
    if line.upper() in {term.code for term in room.terms}:
        return Named(term=line.upper())
    if not line.startswith((f"{room.period_word.casefold()} ", "period ")):
        return None
    period = room.period_named(line)
    return None if period is None else Named(period=period.number)
