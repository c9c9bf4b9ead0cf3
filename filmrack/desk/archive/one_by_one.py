"""Lines that would cut or file many rolls in one go: a hand cuts and files one after the other."""

from __future__ import annotations

from filmrack.desk.archive.orders import Order, order_if_readable, roll_in
from filmrack.desk.session import Session
from filmrack.domain.film import film_named
from filmrack.domain.refusal import Refused
from filmrack.store import rolls

_ALL = frozenset({"all", "everything", "every", "both", "them", "these"})
_PLACES = frozenset({"box", "boxes", "rod", "rods"})
_BETWEEN = frozenset({"and", "&", ",", "of", "in", "from", "the"})
"""Words that only lead from one of them to the next."""

_SURELY_SEVERAL = 3
"""From so many numbers on they are no clip with its frames, and no clip with its binder."""


def refuse_many(session: Session, line: str) -> None:
    """Raise Refused for a line that would cut or file many rolls, with how it is done."""
    order = _order_for_many(session, line)
    if order is None:
        return
    rest = order.rest.casefold().split()
    place = " ".join(rest) if len(rest) > 1 and rest[0] in _PLACES and rest[1].isdecimal() else ""
    if order.verb == "sleeve":
        raise Refused(
            f"film is cut one roll at a time, so nothing is cut: type “{place or 'not sleeved'}”,"
            " then Enter cuts the selected one and ↓ goes to the next"
        )
    number = rest[1] if place and rest[0] == "box" else "3"
    raise Refused(
        f"sleeves are filed one at a time, so nothing is filed: type “binder {number}”, then scan"
        " sleeve after sleeve, or type a number and press Enter"
    )


def is_for_many(session: Session, line: str) -> bool:
    """Tell whether a line would cut or file many rolls: `sleeve all`, `file box 7`, `box 7 cut`,
    `cut 66, 51, 114`.
    """
    return _order_for_many(session, line) is not None


def _order_for_many(session: Session, line: str) -> Order | None:
    *before, last = line.split() or [""]
    found = order_if_readable(line) or order_if_readable(" ".join((last, *before)))
    if found is None or found.verb not in ("sleeve", "file"):
        return None
    return found if _names_many(session, found) else None


def _names_many(session: Session, order: Order) -> bool:
    """Tell whether an order names all rolls, those of a place, or several by their numbers."""
    words = order.rest.casefold().replace(",", " , ").split()
    named = [word for word in words if word not in _BETWEEN]
    if not named:
        return False
    if order.roll:
        return all(map(roll_in, named))
    if named[0] in _ALL or (named[0] in _PLACES and len(named) <= 2):
        return True
    if len(named) < 2 or not all(map(str.isdecimal, named)):
        return False
    apart = len(words) > len(named)
    return apart or len(named) >= _SURELY_SEVERAL or _are_two_clips(session, order.verb, named)


def _are_two_clips(session: Session, verb: str, named: list[str]) -> bool:
    """Tell whether the second of two numbers is a clip too, and no frames of the first."""
    clips = [rolls.on_clip(session.file.conn, int(number[:9])) for number in named]
    first, second = clips
    if verb != "sleeve" or first is None or second is None:
        return False
    return int(named[1]) > film_named(first.film).most_frames
