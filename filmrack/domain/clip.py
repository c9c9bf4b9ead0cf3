"""Clip pairs: two clips, A and B, with one number, and what can happen to them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal, NamedTuple

from filmrack.domain.asking import code_in
from filmrack.domain.counted import listed
from filmrack.domain.names import folded
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll

HIGHEST_CLIP = 999
_READ = 20
"""How many clips are read out before the rest is counted."""

Side = Literal["A", "B"]


class Lost(NamedTuple):
    """A hook or a tag that one of the two clips has lost."""

    part: Literal["hook", "tag"]
    side: Side

    def __str__(self) -> str:
        """Return it as people say it: `hook A`."""
        return f"{self.part} {self.side}"


class Clip(NamedTuple):
    """A clip pair, what it has lost, and whether it is still used."""

    number: int
    lost: tuple[Lost, ...] = ()
    retired: bool = False

    @property
    def can_be_flipped(self) -> bool:
        """Tell whether a strip can hang from either of the two."""
        return not any(lost.part == "hook" for lost in self.lost)

    @property
    def says(self) -> str:
        """Return in words what is wrong with it, or nothing."""
        hooks = [lost.side for lost in self.lost if lost.part == "hook"]
        tags = [lost.side for lost in self.lost if lost.part == "tag"]
        words = ["retired"] if self.retired else []
        if len(hooks) == 2:
            words.append("no hook: cannot hang")
        elif hooks:
            words.append(f"{hooks[0]} has no hook: bottom only, the strip cannot be flipped")
        words.extend(f"{side} has no tag: print one" for side in tags)
        return "; ".join(words)

    def cautions(self, *, flip: bool = False) -> tuple[str, ...]:
        """Return what to tell whoever hangs or flips a strip on it; neither is refused."""
        words = []
        if flip and not self.can_be_flipped:
            words.append(f"clip {self.number} cannot be flipped: a hook of it is noted as lost")
        wrong = self._replace(retired=False, lost=() if words else self.lost).says
        if wrong:
            words.append(f"clip {self.number}: {wrong}")
        if self.retired:
            words.append(
                f"clip {self.number} is retired: type “clip restore {self.number}” if it is in use"
                " again"
            )
        return tuple(words)


def clip_number(text: str) -> int:
    """Return the number of a clip pair: `17`, `clip 17`, `17A`, or one of its tags scanned.

    Raises Refused for anything else.
    """
    code = code_in(text)
    if code is not None and code.kind == "C":
        return int(code.parts[0])
    match = re.fullmatch(r"(?:clip)?([0-9]{1,3})[ab]?", "".join(text.casefold().split()), re.ASCII)
    if match is None or not 1 <= int(match[1]) <= HIGHEST_CLIP:
        raise Refused(
            f"“{text.strip()[:20]}” is no clip: give the number on it, from 1 to {HIGHEST_CLIP},"
            " or scan it"
        )
    return int(match[1])


def refuse_other_clips(number: int) -> None:
    """Raise Refused for a number that no clip pair has."""
    if not 1 <= number <= HIGHEST_CLIP:
        raise Refused(f"there is no clip {number}: clips are numbered from 1 to {HIGHEST_CLIP}")


def lost_named(text: str) -> Lost:
    """Return what was lost as typed: `hook A`, `tag b`. Raises Refused for anything else."""
    match = re.fullmatch(r"(hook|tag) ?([ab])", folded(text))
    if match is None:
        raise Refused(
            f"“{text.strip()[:20]}” is nothing that a clip loses: say hook or tag, and A or B"
        )
    return Lost("hook" if match[1] == "hook" else "tag", "A" if match[2] == "a" else "B")


def clips_of(some: Iterable[Roll]) -> str:
    """Return the clips of rolls as they are read along a rod: `clips 3 17 22`."""
    read = [str(roll.clip or roll.number) for roll in some]
    return f"{'clip' if len(read) == 1 else 'clips'} {listed(read, _READ).replace(',', '')}"
