"""What is wanted of the hand at a rod of the sweep, and what is with the strips that hang on."""

from __future__ import annotations

from filmrack.desk.sweep.course import Turn
from filmrack.desk.sweep.ways import hangs, which
from filmrack.domain.counted import listed
from filmrack.domain.names import Person


def wanted(turn: Turn) -> str:
    """Return what to count or scan at a rod, for the empty line."""
    rod = f"rod {turn.rod.number}"
    if turn.count is None:
        if not turn.expected:
            return f"{rod} should be empty: if it is not, type how many hang there"
        return f"{rod}: another clip than these? Scan it first. Not {turn.expected}? Type how many"
    if turn.done:
        hangs_on = turn.hanging and not turn.right
        return f"{rod} is through" + (f", {rest(turn)}" if hangs_on else "")
    if turn.beside_wet:
        dry = ", or “box dry” for the rest" if turn.dry and turn.not_dry else ""
        return f"scan what else is dry, or type the clip{dry}"
    if turn.short:
        return f"{rod}: which is not there? “NN missing”, or scan those that hang"
    return f"scan what hangs on {rod}, or type the clip"


def overlooked(turn: Turn, owners: dict[int, Person]) -> str:
    """Return what should be dry and hangs on, and how to say that one is gone; else nothing."""
    if not turn.passed_over:
        return ""
    some = [each.roll for each in turn.passed_over]
    names = listed([which(roll, owners) for roll in some], 3)
    clip = some[0].clip or 6
    if len(some) == 1:
        return f"{names} should be dry and hangs on. If it is gone, type “{clip} missing”"
    return f"{names} should be dry and hang on. If one is gone, type its clip: “{clip} missing”"


def right_words(turn: Turn) -> str:
    """Return what Enter says of a rod that nobody counted: that just these hang there."""
    if turn.expected > 1:
        return f"these {turn.expected} hang here"
    return "it hangs here" if turn.expected else "it is empty"


def given_up(turn: Turn, owners: dict[int, Person]) -> str:
    """Return who is put down as missing at the end, and how to take that back; else nothing."""
    if not turn.given_up:
        return ""
    names = listed([which(each.roll, owners) for each in turn.given_up], 3)
    it = "it" if len(turn.given_up) == 1 else "them"
    return f"{names} not seen: missing when you finish. Found after all? Scan {it}"


def rest(turn: Turn) -> str:
    """Return what is with the strips that hang there still: `1 not seen, 2 hang on`."""
    some = [f"{len(turn.given_up)} not seen"] if turn.given_up else []
    hung = len(turn.hanging) - len(turn.given_up)
    some += [f"{hangs(hung)} on"] if hung else []
    return ", ".join(some)
