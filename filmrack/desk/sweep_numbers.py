"""What a bare number is at a rod of the sweep: how many hang there, or a clip."""

from __future__ import annotations

from typing import Literal

from filmrack.desk.sweep_course import Turn
from filmrack.desk.sweep_ways import hangs
from filmrack.domain.clip import clips_of
from filmrack.domain.counted import listed
from filmrack.domain.room import Rod


def most(rod: Rod) -> int:
    """Return how many rolls a rod can hold by any count: two of sheets or short ones a position."""
    return 2 * rod.positions


def hangs_on(turn: Turn, clip: int) -> bool:
    """Tell whether a clip hangs on a rod by the record."""
    return any(each.roll.clip == clip for each in turn.hanging)


def number_means(turn: Turn, number: int, *, known: bool) -> Literal["count", "clip", "either"]:
    """Return what a number typed at a rod is; `either` where it has to be asked. `known` tells that
    such a clip is on a roll.

    It counts a rod of which nothing is told, unless it is too many and a clip that is known: a
    strip that strayed there, as likely. At a rod that is being scanned it is a clip, unless it is
    as many as should hang or hang still, or no count was told and no such clip hangs there. As
    many as hang still are a count where no such clip hangs there.
    """
    if number > most(turn.rod):
        return "clip"
    here = hangs_on(turn, number)
    if turn.count is None:
        return "either" if known and number > turn.expected else "count"
    if number == len(turn.hanging) and not here:
        return "count"
    if number in (turn.expected, len(turn.hanging)):
        return "either" if known else "count"
    return "either" if turn.count.counted is None and not here else "clip"


def likelier(turn: Turn, number: int, *, known: bool) -> Literal["count", "clip"]:
    """Return what a number that can be both is more likely: what Enter takes it for."""
    strayed = known and number > max(turn.expected, turn.rod.positions)
    return "clip" if strayed or hangs_on(turn, number) else "count"


def count_does(turn: Turn, number: int) -> str:
    """Return what a count would do that is right: ` (boxes clips 3 17 22)`; else nothing."""
    if number != len(turn.hanging) or not number:
        return ""
    if not turn.dry:
        return " (boxes nothing)"
    return f"{without(turn)} (boxes {clips_of(each.roll for each in turn.dry)})"


def count_words(turn: Turn) -> str:
    """Return what a right count does where damp film hangs: `box the 3 dry, 8 hang on`."""
    dry = f"box the {len(turn.dry)} dry, " if turn.dry else "none is dry, "
    return f"{dry}{hangs(turn.not_dry)} on"


def without(turn: Turn) -> str:
    """Return what a count of those that hang there still leaves out: ` without 128`.

    That is what strayed there and went to its box; nothing where none did.
    """
    if not turn.strays:
        return ""
    return f" without {listed([str(each.clip or each.number) for each in turn.strayed], 3)}"
