"""Phrases about one rod of the sweep: what is wanted of the hand there, and what hangs on."""

from __future__ import annotations

from collections.abc import Sequence

from filmrack.desk.sweep.turn import Turn
from filmrack.desk.sweep.ways import which
from filmrack.domain.counted import listed
from filmrack.domain.names import Person
from filmrack.domain.outlook import not_dry_words
from filmrack.domain.roll import Roll


def hangs(many: int) -> str:
    """Return `1 hangs` or `8 hang`."""
    return f"{many} {'hangs' if many == 1 else 'hang'}"


def wanted(turn: Turn) -> str:
    """Return what to count or scan at a rod, for the empty line."""
    rod = f"rod {turn.rod.number}"
    if turn.count is None and not turn.expected:
        return f"{rod} should be empty: if it is not, type how many hang there"
    if turn.count is None or turn.only_strays:
        many = len(turn.hanging)
        return f"{rod}: another clip than these? Scan it first. Not {many}? Type how many"
    if turn.explained:
        return f"{rod}: the count is right now, Enter when just these hang there"
    if turn.through:
        hangs_on = turn.hanging and not turn.right
        return f"{rod} is through" + (f", {rest(turn)}" if hangs_on else "")
    if turn.beside_wet:
        dry = ", or “box dry” for the rest" if turn.dry and turn.not_dry else ""
        return f"scan what else is dry, or type the clip{dry}"
    if turn.asks_for_more:
        what = "what is not listed" if turn.hanging else "what hangs there"
        return f"{rod}: scan {what}, or type “clip” and its number"
    if turn.short:
        return f"{rod}: which is not there? “NN missing”, or scan those that hang"
    return f"scan what hangs on {rod}, or type the clip"


def overlooked(turn: Turn, owners: dict[int, Person]) -> str:
    """Return what should be dry and hangs on, and how to say that one is gone; else nothing."""
    if not turn.passed_over:
        return ""
    some = [each.roll for each in turn.passed_over]
    names = listed([which(roll, owners) for roll in some], 3)
    gone = f"“{to_type(some)} missing”"
    if len(some) == 1:
        return f"{names} should be dry and hangs on. If it is gone, type {gone}"
    return f"{names} should be dry and hang on. If one is gone, type its clip: {gone}"


def to_type(some: Sequence[Roll]) -> int | str:
    """Return what is typed for one of some rolls, as an example: a clip, or the number of a roll
    where none of them has one.
    """
    return next((roll.clip for roll in some if roll.clip), some[0].number)


def all_there(turn: Turn) -> str:
    """Return what Enter says of a rod of which all is told but that: that just these hang there."""
    many = len(turn.hanging)
    if many > 1:
        return f"these {many} hang here"
    return "it hangs here" if many else "it is empty"


def leave_words(turn: Turn) -> str:
    """Return what Enter says of a rod of which something is told: that a hand is through there."""
    if turn.through:
        return "next rod"
    if not turn.looked_through:
        return "next rod, this one stays as it is"
    if turn.beside_wet:
        return "that is all that is dry"
    gone = len(turn.given_up)
    return "that is all" + (f": {gone} not seen" if gone else "")


def not_seen(turn: Turn, owners: dict[int, Person]) -> str:
    """Return who is put down as missing at the end, and how to take that back; else nothing."""
    if not turn.given_up:
        return ""
    names = listed([which(each.roll, owners) for each in turn.given_up], 3)
    it = "it" if len(turn.given_up) == 1 else "them"
    return f"{names} not seen: missing when you finish. Found after all? Scan {it}"


def rest(turn: Turn) -> str:
    """Return how the strips are that hang there still: `1 not seen, 2 hang on`."""
    some = [f"{len(turn.given_up)} not seen"] if turn.given_up else []
    hung = len(turn.hanging) - len(turn.given_up)
    some += [f"{hangs(hung)} on"] if hung else []
    return ", ".join(some)


def count_does(turn: Turn) -> str:
    """Return what a right count does where not all is dry: `box the 3 dry, 8 hang on`."""
    dry = f"box the {len(turn.dry)} dry, " if turn.dry else "none is dry, "
    return f"{dry}{hangs(turn.not_dry)} on"


def without_strays(turn: Turn) -> str:
    """Return what a count of those that hang there still leaves out: ` without 128`.

    That is what strayed there and went to its box; nothing where none did.
    """
    if not turn.strays:
        return ""
    return f" without {listed([str(each.clip or each.number) for each in turn.strays], 3)}"


def hanging_words(turn: Turn, on: str = "") -> str:
    """Return what hangs on at a rod: `8 hang (5 wet, 2 to touch, 1 dry)`; `on` follows the verb."""
    gone = {each.roll.id for each in turn.given_up}
    states = [each.state for each in turn.hanging if each.roll.id not in gone]
    dry = states.count("dry")
    how = [each for each in (not_dry_words(states), f"{dry} dry" if dry else "") if each]
    return f"{hangs(len(states))}{on}" + (f" ({', '.join(how)})" if how else "")
