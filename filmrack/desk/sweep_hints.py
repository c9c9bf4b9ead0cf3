"""What is wanted of the hand at a rod of the sweep, and what is with the strips that hang on."""

from __future__ import annotations

from filmrack.desk.sweep_course import Turn
from filmrack.desk.sweep_ways import which
from filmrack.domain.counted import listed
from filmrack.domain.names import Person


def wanted(turn: Turn) -> str:
    """Return what to count or scan at a rod, for the empty line."""
    rod = f"rod {turn.rod.number}"
    if turn.count is None and turn.not_dry:
        return f"scan what is dry, or type {turn.expected} to box all of {rod}"
    if turn.count is None:
        if not turn.expected:
            return f"{rod} should be empty: if it is not, type how many hang there"
        return f"count {rod}: if it is not {turn.expected}, type the number"
    if turn.done:
        hangs_on = turn.hanging and not turn.right
        return f"{rod} is through" + (f", {rest(turn)}" if hangs_on else "")
    if turn.beside_wet:
        return "scan what else is dry, or type the clip"
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


def rest(turn: Turn) -> str:
    """Return what is with the strips that hang there still: `1 not seen, 2 hang on`."""
    some = [f"{len(turn.unseen)} not seen"] if turn.unseen else []
    hung = len(turn.hanging) - len(turn.unseen)
    some += [f"{hung} {'hangs' if hung == 1 else 'hang'} on"] if hung else []
    return ", ".join(some)
