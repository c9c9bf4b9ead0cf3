"""What a bare number is at a rod of the sweep: how many hang there, or a clip."""

from __future__ import annotations

from typing import Literal

from filmrack.desk.sweep.rod_words import without_strays
from filmrack.desk.sweep.turn import Turn
from filmrack.domain.clip import clips_of
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod


def most(rod: Rod) -> int:
    """Return how many rolls a rod can hold by any count: two of sheets or short ones a position."""
    return 2 * rod.positions


def number_means(
    turn: Turn, number: int, on_clip: Roll | None, *, corrects: bool = False
) -> Literal["count", "clip", "either"]:
    """Return what a bare number typed at a rod is; `either` where it has to be asked.

    `on_clip` is the roll on the clip of that number, if any is. `corrects` tells that the number
    stands where it was asked whether another count is meant.

    - 0 is a count.
    - More than the rod's positions is no count of it, but the clip.
    - Where nothing is told of the rod it is a count.
    - Where a count did not agree, or is asked about, it is a new count, unless the rod has such a
      clip. Where more was counted than is known, and the clip is asked for that is one too many, it
      is asked about, but for what should hang.
    - Where strips are scanned it is a count if just so many hang still and no such clip does; it is
      asked about if it is as many as should hang or hang still, or if a clip of that number is not
      from here; else it is the clip.

    Raises Refused for more than the rod's positions where another count is asked for.
    """
    if not number:
        return "count"
    known, here = on_clip is not None, turn.has_clip(number)
    if corrects:
        _refuse_too_many(turn, number)
        return "either" if turn.has(on_clip) else "count"
    if number > max(turn.rod.positions, turn.expected):
        return "clip"
    if turn.asks_for_more and not here and number not in (turn.expected, len(turn.hanging)):
        return "clip" if turn.has(on_clip) else "either"
    if turn.count is None or (turn.counted_wrong and not turn.has(on_clip)):
        return "count"
    if number == len(turn.hanging) and not here:
        return "count"
    if number in (turn.expected, len(turn.hanging)):
        return "either" if known else "count"
    return "either" if turn.counted is None and not here else "clip"


def _refuse_too_many(turn: Turn, number: int) -> None:
    if number > max(turn.rod.positions, turn.expected):
        raise Refused(
            f"{number} is too many for rod {turn.rod.number}, which has {turn.rod.positions}"
            f" positions: type “clip {number}” if it is that clip, or scan it"
        )


def likelier(turn: Turn, number: int) -> Literal["count", "clip"]:
    """Return what a number that can be both is more likely: what Enter takes it for."""
    return "clip" if turn.has_clip(number) or turn.asks_for_more else "count"


def count_boxes(turn: Turn, number: int) -> str:
    """Return what a count would do that is right: ` (boxes clips 3 17 22)`; else nothing."""
    if number != len(turn.hanging) or not number:
        return ""
    if not turn.dry:
        return " (boxes nothing)"
    return f"{without_strays(turn)} (boxes {clips_of(each.roll for each in turn.dry)})"
