"""Picks: the frames that somebody chose on a contact sheet, as they are typed and read.

>>> picks_in("4, 11"), picks_in("picks 11 and 4")
([4, 11], [4, 11])
"""

from __future__ import annotations

from collections.abc import Iterable

from filmrack.domain.counted import frames_words
from filmrack.domain.film import film_named
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll

_BESIDE_PICKS = frozenset(
    {"picks", "pick", "frames", "frame", "with", "and", "of", "number", "numbers", "on"}
)
"""Words that may stand beside the frames picked."""


def picks_in(text: str) -> list[int]:
    """Return the frames that are typed, each once and in their order.

    Raises Refused for what is no frame.
    """
    words = text.replace(",", " ").replace(";", " ").replace("&", " ").split()
    frames = without_pick_words(words)
    for frame in frames:
        if not (frame.isascii() and frame.isdecimal()):
            raise Refused(f"“{frame[:20]}” is no frame: write the picks as 4,11")
    return sorted({int(frame[:4]) for frame in frames})


def without_pick_words(words: list[str]) -> list[str]:
    """Return words without those that but say that frames follow: `picks`, `and`."""
    return [word for word in words if word.casefold() not in _BESIDE_PICKS]


def refuse_picks(roll: Roll, picks: Iterable[int]) -> None:
    """Raise Refused for picks that are no frames of a roll."""
    most = film_named(roll.film).most_frames if roll.frames is None else roll.frames
    beyond = [pick for pick in picks if not 1 <= pick <= most]
    if beyond:
        raise Refused(f"{roll.number} has no frame {beyond[0]}: name frames from 1 to {most}")


def refuse_unpicked(roll: Roll, frames: Iterable[int]) -> None:
    """Raise Refused unless frames are named and all of them are picked on a sheet of a roll."""
    picked = frames_words(roll.picks)
    if not picked:
        raise Refused(f"{roll.number} has no picks to take back: look at its card")
    wrong = sorted(set(frames))
    if not wrong:
        raise Refused(
            f"which picks of {roll.number} are taken back is not said: name some of {picked}"
        )
    for frame in wrong:
        if frame not in roll.picks:
            raise Refused(f"{roll.number} has no pick {frame} to take back: name some of {picked}")
