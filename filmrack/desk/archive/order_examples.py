"""How a refusal shows an order: as a whole line that can be typed, with its roll."""

from __future__ import annotations

from filmrack.desk.archive.orders import Order
from filmrack.desk.archive.paper_words import page_and_frames
from filmrack.domain.binder import binder_number
from filmrack.domain.loans import begins_with_a_part
from filmrack.domain.picks import picks_in
from filmrack.domain.refusal import Refused

_BEHIND = {
    "lend": "juniper",
    "claim": "juniper",
    "file": "3",
    "picks": "12 14",
    "unpick": "12",
    "discard": "blank film",
    "note": "scratched",
}
"""What stands behind a verb in an example, where it does not say enough alone."""

_MOST_WORDS, _LONGEST = 3, 30
"""So many words and letters of what was typed behind a verb stand in an example at most."""

_OF_ANOTHER_ROLL = frozenset({"back", "hand back", "found", "mark missing", "lend", "discard"})
"""Verbs that are refused for where a roll is, and that nothing can be done about: probably another
roll was meant."""


def verb_typed(order: Order, line: str) -> str:
    """Return the verb of a line that names no roll, in the words that were typed."""
    return " ".join(line.split()).removesuffix(order.rest).strip()[:30]


def select_or_name(order: Order, line: str, term: str) -> str:
    """Return what a line is answered with that says what to do, but not to which roll."""
    return f"{verb_typed(order, line)} what? Select a roll, or name it: {example(order, term)}"


def for_another_roll(order: Order, term: str) -> str:
    """Return the end of a refusal that says how an order is given to another roll; empty where
    something can be done with the roll that it was refused for, as to cut it first.
    """
    can_be = order.verb in _OF_ANOTHER_ROLL
    return f"; for another roll type {example(order, term)}" if can_be else ""


def example(order: Order, term: str) -> str:
    """Return how an order is typed for a roll that is named, in quotes, for a refusal to show.

    The roll is of `term`; what was typed behind the verb stays, `“26F-0142 lend juniper”`, unless
    it is long or cannot be meant behind it.
    """
    named = f"{term}-0142" if term else "0142"
    if order.verb == "sleeve":
        named = "17"  # film that is not cut yet is called by its clip
    verb = "end loan" if order.verb == "back" else order.verb
    behind = (order.rest if _can_be_meant(order) else "") or _BEHIND.get(order.verb, "")
    return f"“{f'{named} {verb} {behind}'.rstrip()}”"


def _can_be_meant(order: Order) -> bool:
    """Tell whether what was typed behind a verb is short, and read as something of that verb's."""
    if len(order.rest.split()) > _MOST_WORDS or len(order.rest) > _LONGEST:
        return False
    try:
        match order.verb:
            case "lend":
                return not begins_with_a_part(order.rest)
            case "file":
                binder_number(order.rest)
            case "sleeve":
                page_and_frames(order.rest)
            case "picks" | "unpick":
                picks_in(order.rest)
    except Refused:
        return False
    return True
