"""Which rolls of a term the screen Archive can show, and what a line names of it: them, a term, a
period.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from filmrack.domain.names import folded
from filmrack.domain.room import Room

if TYPE_CHECKING:
    from filmrack.store.archive import WhichRolls

PARTS: tuple[tuple[WhichRolls, str], ...] = (
    ("sleeve", "not sleeved"),
    ("file", "not filed"),
    ("binder", "in binders"),
    ("out", "borrowed"),
    ("missing", "missing"),
    ("gone", "handed back or discarded"),
)
"""How far rolls are; they add up to all of a term."""

BESIDE: tuple[tuple[WhichRolls, str], ...] = (
    ("contact", "sleeved, no contact sheet"),
    ("owner", "no owner"),
)
"""What rolls can owe beside where they are: they are counted above as well."""

WHICH_ROLLS: tuple[tuple[WhichRolls, str], ...] = (("all", "all"), *PARTS, *BESIDE)
"""Which rolls of a term can be meant, as it is shown and typed."""

_ALSO: dict[str, WhichRolls] = {
    "out": "out",
    "lent": "out",
    "loans": "out",
    "gone": "gone",
    "gone for good": "gone",
    "handed back": "gone",
    "discarded": "gone",
    "no contact": "contact",
    "no contact sheet": "contact",
    "without an owner": "owner",
    "unknown": "owner",
}


_CALLED: dict[str, WhichRolls] = {**_ALSO, **{words: which for which, words in WHICH_ROLLS}}


class Named(NamedTuple):
    """Exactly one of these is named."""

    which: WhichRolls | None = None
    term: str | None = None
    period: int | None = None


def names_rolls_anywhere(text: str) -> bool:
    """Tell whether a line names which rolls of the archive are meant, on whatever screen it is
    typed: “unknown” hangs a roll on others.
    """
    line = folded(text)
    return line not in ("all", "unknown") and line in _CALLED


def named(text: str, room: Room) -> Named | None:
    """Return what a line names, or None."""
    line = folded(text)
    if line in _CALLED:
        return Named(which=_CALLED[line])
    if line.upper() in {term.code for term in room.terms}:
        return Named(term=line.upper())
    if not line.startswith((f"{room.period_word.casefold()} ", "period ")):
        return None
    period = room.period_named(line)
    return None if period is None else Named(period=period.number)
