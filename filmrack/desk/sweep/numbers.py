"""What a bare number is at a rod of the sweep: how many hang there, or a clip."""

from __future__ import annotations

from typing import Literal

from filmrack.desk.sweep.course import Turn
from filmrack.desk.sweep.ways import hangs
from filmrack.domain.clip import clips_of
from filmrack.domain.counted import listed
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod


def most(rod: Rod) -> int:
    """Return how many rolls a rod can hold by any count: two of sheets or short ones a position."""
    return 2 * rod.positions


def hangs_on(turn: Turn, clip: int) -> bool:
    """Tell whether a clip hangs on a rod by the record."""
    return any(each.roll.clip == clip for each in turn.hanging)


def corrects(turn: Turn) -> bool:
    """Tell whether a rod was counted and the count did not agree, so that a new count fits."""
    return turn.scanning and turn.count is not None and turn.count.counted is not None


def belongs(turn: Turn, roll: Roll | None) -> bool:
    """Tell whether a roll should hang on a rod, hung there in this sweep, or is missing from it."""
    if roll is None:
        return False
    lost = roll.place.kind == "missing" and roll.seen.is_rod(turn.rod.number)
    here = (each.roll.id for each in turn.hanging)
    own = (each.roll.id for each in turn.found if each.own)
    return lost or roll.id in (*here, *own)


def number_means(
    turn: Turn, number: int, on_clip: Roll | None
) -> Literal["count", "clip", "either"]:
    """Return what a number typed at a rod is; `either` where it has to be asked. `on_clip` is the
    roll on such a clip, if any is.

    It counts a rod of which nothing is told, unless it is too many and a clip that is known: a
    strip that strayed there, as likely. At a rod whose count did not agree it is a new count,
    unless such a clip should hang there. At one that is being scanned it is a clip, unless it is
    as many as should hang or hang still, or no such clip hangs there. As many as hang still are a
    count where no such clip hangs there.
    Raises Refused for a new count of more than the rod's positions.
    """
    known = on_clip is not None
    if corrects(turn) and not belongs(turn, on_clip):
        if number > max(turn.rod.positions, turn.expected):
            raise Refused(
                f"{number} is too many for rod {turn.rod.number}, which has {turn.rod.positions}"
                f" positions: type “clip {number}” if it is that clip, or scan it"
            )
        return "count"
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
