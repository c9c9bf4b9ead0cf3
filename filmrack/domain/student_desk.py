"""What a student desk may do: the one place that says so, asked by every act and every screen.

A student may load, hang, put a clip right, flip, touch, take a roll along, and take back what was
just done. A room may let helpers sweep as well. Everything else is the teacher's.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Detail, Entry, Roll

By = Literal["teacher", "student desk", "helper desk"]
"""Who acts, as the ledger says it: a student desk's hands are known by the desk alone.

A helper desk is a student desk in a room whose rules let helpers sweep.
"""

STUDENT_ACTS = frozenset({"load", "hang", "move", "reclip", "flip", "touch", "take"})
HELPER_ACTS = STUDENT_ACTS | {"box", "seen", "count", "sweep", "missing"}
_IMPLIED = frozenset({"fan", "missing", "unclip"})

_WORDS = {
    "fan": "setting the dial",
    "box": "boxing",
    "seen": "a sweep",
    "sleeve": "sleeving",
    "contact": "a contact sheet",
    "picks": "picking frames",
    "unpick": "picking frames",
    "file": "filing",
    "shelve": "shelving",
    "close": "closing a term",
    "reopen": "reopening a term",
    "claim": "naming an owner",
    "swap": "exchanging owners",
    "count": "a sweep",
    "sweep": "a sweep",
    "room": "changing the room",
    "people": "changing people",
    "clips": "changing clip pairs",
}


def refuse_act(by: str, act: str, detail: Detail) -> None:
    """Raise Refused for an act that a desk of this kind may not do.

    What an act implies (the dial that hanging goes with, who was displaced) is not the student's
    doing and is let through.
    """
    allowed = _acts(by)
    implied = act in _IMPLIED and detail.get("assumed", False)
    if allowed is None or act in allowed or act == "undo" or implied:
        return
    what = _WORDS.get(act, f"“{act}”")
    raise Refused(f"{what} is not for a student desk: ask the teacher, who types “teacher” first")


def refuse_undo(by: str, desk: str, roll: int | None, entries: Iterable[Entry]) -> None:
    """Raise Refused for taking back more than a desk of this kind may.

    A student desk takes back its own last act, and one on a roll that was just scanned.
    """
    if _acts(by) is None:
        return
    if by == "student desk" and roll is None:
        raise Refused("what to take back is not said: scan its clip first, then undo")
    for entry in entries:
        if entry.desk != desk or _acts(entry.by) is None:
            raise Refused(
                "that was not done by a student at this desk, so it is not taken back here: ask"
                " the teacher"
            )
        refuse_act(by, entry.act, entry.detail)


def may(by: str, act: str) -> bool:
    """Tell whether a desk of this kind does an act, or a roll's next step of that name."""
    allowed = _acts(by)
    return allowed is None or act in allowed


def refuse_roll(by: str, roll: Roll) -> None:
    """Raise Refused for showing a student desk a roll that is no longer on its way."""
    if by != "teacher" and not roll.live:
        raise Refused(
            f"{roll.number} is past the dryer and the boxes, and the archive is the teacher's: ask"
            " the teacher"
        )


def _acts(by: str) -> frozenset[str] | None:
    """Return the acts of a desk, or None for all of them."""
    return {"student desk": STUDENT_ACTS, "helper desk": HELPER_ACTS}.get(by)
