"""What the desk answers to a line."""

from collections.abc import Sequence
from typing import NamedTuple

from filmrack.domain.names import Person
from filmrack.domain.roll import Roll

WRONG = "Wrong? Type “undo”"
"""How an act is taken back, as every answer to one ends."""


class Said(NamedTuple):
    """What the desk answers to a line, to Enter, or to what comes of time."""

    headline: str
    """Whom or what it is about, in large letters."""
    words: str = ""
    """What stands below that."""
    select: int | None = None
    """A roll to show."""
    rod: int | None = None
    """A rod to go to, with `go`."""
    done: bool = False
    """Whether the file was changed."""
    go: bool = False
    """Whether the roll was looked for: it is shown where it is, whatever screen is on."""
    rests: bool = False
    """Whether Enter leaves the roll alone, unless the line has asked for it."""
    beyond_undo: str = ""
    """What was done that cannot be taken back: a bare undo says so once, before it reaches past."""
    enter: str = ""
    """What Enter does and what can follow, behind `words`; a screen with an Enter of its own says
    that in its place."""
    further: str = ""
    """What stands behind both."""
    about: int | None = None
    """A roll that it speaks of where none is to be shown."""

    def all_words(self, enter: str = "") -> str:
        """Return all that stands below the headline, with the screen's own `enter` if it has it."""
        return ". ".join(part for part in (self.words, enter or self.enter, self.further) if part)

    def and_also(self, words: str) -> "Said":
        """Return the answer with one sentence more at its end; the same one for no words."""
        return self._replace(further=". ".join(part for part in (self.further, words) if part))


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
