"""A position typed behind a rod, in each way in which one is said; all mean the same.

>>> position_in("17 rod 1 position 5"), position_in("rod 1, pos 5"), position_in("rod 1 place 5")
(('17 rod 1', 5), ('rod 1', 5), ('rod 1', 5))
>>> position_in("17 hangs at position 5 of rod 1"), position_in("17 rod 1")
(('17 hangs at rod 1', 5), ('17 rod 1', None))
"""

from __future__ import annotations

import re

from filmrack.acts.placing import RodFull
from filmrack.desk.session import Session
from filmrack.domain.names import tokens
from filmrack.domain.refusal import Refused
from filmrack.store import people, rolls

_ROD = r"(?P<rod>rod 0*\d{1,3})"
_AT = r"(?:position|pos\.?|place) 0*(?P<at>\d{1,3})"
_ROD_THEN_PLACE = re.compile(rf"(?i)\b{_ROD},? (?:(?:at|in|on|to) )?{_AT}(?!\S)")
_PLACE_THEN_ROD = re.compile(rf"(?i)\b{_AT},? (?:(?:at|in|of|on) )?{_ROD}(?!\S)")
_BARE = re.compile(r"(?i)(?P<roll>(?:clip )?\S*\d.*) (?P<rod>rod \d{1,3}) (?P<at>\d{1,2})")
"""A number behind the rod without its word: `3 rod 1 5`."""

_NO_ROD = re.compile(r"(?i)(?P<roll>(?:clip )?\S*\d\S*) (?P<word>position|pos) (?P<at>\d{1,3})")
"""A position without its rod: `17 position 5`."""

_MOVED = re.compile(
    rf"(?i)(?:moved?|put|hung|it hangs|hang it)(?: it)?(?: to| on)? ({_ROD}(?: {_AT})?)"
)


def rod_moved_to(line: str) -> str:
    """Return the rod, and be it with a position, that a line says the roll which is seen was moved
    to; empty for any other line.

    >>> rod_moved_to("move it to rod 5"), rod_moved_to("hung on rod 5 position 2")
    ('rod 5', 'rod 5 position 2')
    """
    said = _MOVED.fullmatch(" ".join(line.split()))
    return said[1] if said else ""


def position_in(line: str) -> tuple[str, int | None]:
    """Return a line without the position that it names beside a rod, and that position."""
    line = " ".join(line.split())
    found = _ROD_THEN_PLACE.search(line) or _PLACE_THEN_ROD.search(line)
    if found is None:
        return line, None
    return f"{line[: found.start()]}{found['rod']}{line[found.end() :]}", int(found["at"])


def refuse_half_a_place(session: Session, line: str) -> None:
    """Raise Refused for a place that is half said: `3 rod 1 5`, whose last number may be a position
    and another clip as well, and `17 position 5`, which names no rod, unless somebody is called so.
    """
    line = " ".join(line.split())
    bare, no_rod = _BARE.fullmatch(line), _NO_ROD.fullmatch(line)
    if bare is not None:
        raise Refused(
            f"{bare['at']} behind {bare['rod']} may be a position or another clip: type"
            f" “{bare['roll']} {bare['rod']} position {bare['at']}”, or say each clip by itself"
        )
    if no_rod is None or people.with_words(session.file.conn, tokens(no_rod["word"]), limit=1):
        return
    raise Refused(
        "a position alone is no place: name its rod too, as"
        f" “{no_rod['roll']} rod 3 position {no_rod['at']}”"
    )


def full_rod_words(session: Session, named: int | str, full: RodFull) -> str:
    """Return why a rod without a free position is refused, with the lines that do it all the same
    for a roll by its clip or number: at the last position that has a strip, with whose that is. One
    may be free only to leave room beside a wide strip.
    """
    elsewhere = (
        f"on rod {full.other} with “{named} rod {full.other}”" if full.other else "elsewhere"
    )
    why = f"rod {full.rod} is noted as full: hang it {elsewhere}"
    there = rolls.on_rod(session.file.conn, full.rod)
    if not there:  # told late, it has no room among what hung there since
        return why
    last = max(there, key=lambda each: each.place.position or 0)
    owner = session.owner(last)
    whose = f"{owner.short}'s" if owner else "an unknown roll"
    strip = f"clip {last.clip}" if last.clip else last.number
    return (
        f"{why}, or say where it hangs all the same, as “{named} rod {full.rod} position"
        f" {last.place.position}”: {strip} ({whose}), noted there, is missing"
        " then"
    )
