"""What happens to clip pairs: made known, a hook or tag lost, retired, and put right again.

Each change is on the ledger and can be taken back.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable

from filmrack.acts.group import Hand
from filmrack.acts.listing import keep_listed
from filmrack.domain.clip import Clip, Lost, refuse_other_clips
from filmrack.domain.roll import Roll
from filmrack.store.clips import know_clips, read_clip, save_clip
from filmrack.store.file import DarkroomFile
from filmrack.store.lists import key_of_clip, read_rows


def add(file: DarkroomFile, hand: Hand, numbers: Iterable[int]) -> list[int]:
    """Make clip pairs known that have their tags; return those that were not known before."""
    with file.writing() as conn:
        new = [number for number in numbers if read_clip(conn, number) is None]
        before = read_rows(conn, map(key_of_clip, new))
        know_clips(conn, new)
        keep_listed(conn, file.room(), hand, before)
    return new


def retire(file: DarkroomFile, hand: Hand, number: int) -> Clip:
    """Use a clip pair no more; a roll that is on it keeps it until it is sleeved.

    Raises Refused for a number that no clip pair has.
    """
    return _change(file, hand, number, lambda clip: clip._replace(retired=True))


def lose(file: DarkroomFile, hand: Hand, number: int, lost: Lost) -> Clip:
    """Keep that one clip of a pair has lost its hook or its tag.

    Raises Refused as `retire` does.
    """

    def without(clip: Clip) -> Clip:
        both = {*clip.lost, lost}
        return clip._replace(lost=tuple(sorted(both, key=str)))

    return _change(file, hand, number, without)


def restore(file: DarkroomFile, hand: Hand, number: int) -> Clip:
    """Keep that a clip pair is whole and in use again. Raises Refused as `retire` does."""
    return _change(file, hand, number, lambda clip: Clip(clip.number))


def cautions(conn: sqlite3.Connection, number: int | None, *, flip: bool = False) -> list[str]:
    """Return what to tell whoever hangs or flips a strip on a clip pair."""
    clip = None if number is None else read_clip(conn, number)
    return [] if clip is None else list(clip.cautions(flip=flip))


def flip_warnings(file: DarkroomFile, flipped: Iterable[Roll]) -> list[str]:
    """Return what to tell whoever flipped rolls, of their clip pairs."""
    return [words for roll in flipped for words in cautions(file.conn, roll.clip, flip=True)]


def _change(file: DarkroomFile, hand: Hand, number: int, change: Callable[[Clip], Clip]) -> Clip:
    refuse_other_clips(number)
    with file.writing() as conn:
        changed = change(read_clip(conn, number) or Clip(number))
        before = read_rows(conn, [key_of_clip(number)])
        save_clip(conn, changed, hand.at)
        keep_listed(conn, file.room(), hand, before)
    return changed
