"""What the desk answers to a line."""

from collections.abc import Sequence
from typing import NamedTuple

from filmrack.domain.names import Person
from filmrack.domain.roll import Roll

WRONG = "Wrong? Type “undo”"
"""How an act is taken back, as every answer to one ends."""


class Said(NamedTuple):
    """What the desk answers: `headline` in large letters, `words` below it.

    `select` is a roll to show, `rod` one to go to; `done` tells that the file was changed, `go`
    that the roll was looked for, so that it is shown where it is, whatever screen is on, `rests`
    that Enter leaves it alone unless the line has asked for it. `stays` is what is said to a bare
    undo behind an act that cannot be taken back: it is not to reach past that unsaid. `enter` is
    the part of `words` that says what comes next: not so on a screen with an Enter of its own.
    `about` is a roll that it speaks of where none is to be shown.
    """

    headline: str
    words: str = ""
    select: int | None = None
    rod: int | None = None
    done: bool = False
    go: bool = False
    rests: bool = False
    stays: str = ""
    enter: str = ""
    about: int | None = None


def capital(words: str) -> str:
    """Return words as the beginning of a sentence or a title; the name of a file stays as it is."""
    first = words.split(maxsplit=1)[0].rstrip(".,:;!?…") if words.strip() else ""
    named = any(sign.isdecimal() or sign in "./\\_" for sign in first)
    return words if named else words[:1].upper() + words[1:]


def headline(roll: Roll, owner: Person | None) -> str:
    """Return whom an answer means, as every desk may show it: `17 → Mara O.`."""
    return f"{roll.clip or roll.number} → {owner.short if owner else 'unknown roll'}"


def dial(hours: float | None) -> str:
    """Return what to do with the dial, as the end of a sentence."""
    return "" if hours is None else f". Turn the dial to {hours:g} h"


def also(warnings: Sequence[str]) -> str:
    """Return what is to be heeded, as the end of a sentence."""
    return "".join(f". {capital(words)}" for words in warnings)
