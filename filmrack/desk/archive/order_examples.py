"""How a refusal shows an order: as a whole line that can be typed, with its roll."""

from __future__ import annotations

from filmrack.desk.archive.orders import Order

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

    The roll is of `term`; what was typed behind the verb stays: `“26F-0142 lend juniper”`.
    """
    named = f"{term}-0142" if term else "0142"
    if order.verb == "sleeve":
        named = "17"  # film that is not cut yet is called by its clip
    verb = "end loan" if order.verb == "back" else order.verb
    no_binder = order.verb == "file" and not any(map(str.isdecimal, order.rest))
    behind = ("" if no_binder else order.rest[:30]) or _BEHIND.get(order.verb, "")
    return f"“{f'{named} {verb} {behind}'.rstrip()}”"
