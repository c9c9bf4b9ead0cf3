"""Sleeving: where a roll is cut, and which strip goes into which pocket of which page.

>>> cut_plan(38, 6)
[6, 6, 6, 6, 6, 5, 3]
>>> [len(sleeve.strips) for sleeve in sleeves(36, page_named("7x5"), FORMATS["135"])]
[7, 1]
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import accumulate, pairwise
from typing import NamedTuple

from filmrack.domain.film import FORMATS, Format
from filmrack.domain.refusal import Refused

SHORTEST_STRIP = 3
"""Frames that the last strip keeps: a shorter one slips out of its pocket (common practice)."""

PAGE_NAMES = ("7x5", "6x6", "7x6", "10x4", "4x3")
"""Pages that a room starts with: strips × frames a strip; 4x3 is meant for 120."""

MOST_STRIPS, MOST_PER_STRIP = 12, 8


class SleevePage(NamedTuple):
    """A sleeve page: so many pockets, each for a strip of `per_strip` frames.

    For 120 film the frames are counted as 6x6, so that one pocket takes more of the smaller
    frames and fewer of the larger ones. For sheets every frame is a pocket of its own.
    """

    name: str
    strips: int
    per_strip: int

    def frames_in_pocket(self, format_: Format) -> int:
        """Return how many frames of a format a strip for this page has."""
        match format_.gauge:
            case "135":
                return self.per_strip
            case "120":
                pocket_mm = self.per_strip * FORMATS["120-6x6"].pitch_mm
                return max(1, int(pocket_mm // format_.pitch_mm))
            case "sheet":
                return 1

    def pockets(self, format_: Format) -> int:
        """Return how many strips, or sheets, the page holds."""
        return self.strips * (self.per_strip if format_.gauge == "sheet" else 1)


class Strip(NamedTuple):
    """A cut piece of the roll: its first and its last frame, counted from 1."""

    first: int
    last: int


class Sleeve(NamedTuple):
    """One page of a roll, numbered from 1, with the strips in its pockets from the top."""

    number: int
    strips: tuple[Strip, ...]
    free_pockets: int


def page_named(text: str, own: Iterable[str] = ()) -> SleevePage:
    """Return the page that was written as strips × frames a strip: `7x5`.

    Raises Refused for anything else, naming the usual pages and the room's `own`.
    """
    match = re.fullmatch(
        r"([1-9][0-9]?)x([1-9])", re.sub(r"\s", "", text.lower().replace("×", "x"))
    )
    if match is None or int(match[1]) > MOST_STRIPS or int(match[2]) > MOST_PER_STRIP:
        names = ", ".join(dict.fromkeys((*PAGE_NAMES, *own)))
        raise Refused(
            f"“{text[:40]}” is no page because a page is written as up to {MOST_STRIPS} strips x up"
            f" to {MOST_PER_STRIP} frames: write for instance {names}"
        )
    return SleevePage(match[0], int(match[1]), int(match[2]))


def cut_plan(frames: int, per_strip: int, minimum: int = SHORTEST_STRIP) -> list[int]:
    """Return the frames of each strip, from the beginning of the roll.

    Strips are full until the last, which keeps at least `minimum` frames: as few frames as needed
    come from the latest strips that can spare them (common practice). A roll of fewer frames is
    one strip. Where the numbers leave no such cut (five frames in fours), the minimum is lowered
    only as far as it must be.

    Raises Refused for a negative number of frames, or strips without any.
    """
    if frames < 0 or per_strip < 1:
        raise Refused(
            f"{frames} frames cannot be cut into strips of {per_strip} because both are counted "
            "from the film: count the frames and choose a page"
        )
    full, rest = divmod(frames, per_strip)
    strips = [per_strip] * full
    if not rest:
        return strips
    strips.append(rest)
    shortest = min(minimum, frames // len(strips))
    for latest in range(len(strips) - 2, -1, -1):
        moved = max(0, min(shortest - strips[-1], strips[latest] - shortest))
        strips[latest] -= moved
        strips[-1] += moved
    return strips


def strips_of(plan: list[int]) -> tuple[Strip, ...]:
    """Return the strips of a cut plan with the frames they bear."""
    edges = accumulate(plan, initial=0)
    return tuple(Strip(before + 1, last) for before, last in pairwise(edges))


def sleeves(frames: int, page: SleevePage, format_: Format) -> tuple[Sleeve, ...]:
    """Return the pages that a roll needs, filled in order; the last may have free pockets.

    Raises Refused for a negative number of frames.
    """
    strips = strips_of(cut_plan(frames, page.frames_in_pocket(format_)))
    pockets = page.pockets(format_)
    pages = (strips[start : start + pockets] for start in range(0, len(strips), pockets))
    return tuple(
        Sleeve(number, held, pockets - len(held)) for number, held in enumerate(pages, start=1)
    )
