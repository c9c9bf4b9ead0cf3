"""What is wanted of the hand at a rod of the sweep, and what is with the strips that hang on."""

from __future__ import annotations

from filmrack.desk.sweep_course import Turn


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
    if turn.staying:
        return "scan what else is dry, or type the clip"
    return f"scan what hangs on {rod}, or type the clip"


def rest(turn: Turn) -> str:
    """Return what is with the strips that hang there still: `1 not seen, 2 hang on`."""
    some = [f"{len(turn.unseen)} not seen"] if turn.unseen else []
    hung = len(turn.hanging) - len(turn.unseen)
    some += [f"{hung} {'hangs' if hung == 1 else 'hang'} on"] if hung else []
    return ", ".join(some)
