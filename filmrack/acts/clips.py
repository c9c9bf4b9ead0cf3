"""What happens to clip pairs: a hook or tag lost, retired, and put right again."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable
from datetime import datetime

from filmrack.domain.clip import Clip, Lost, refuse_other_clips
from filmrack.domain.roll import Roll
from filmrack.store.clips import read_clip, save_clip
from filmrack.store.file import DarkroomFile


def retire(file: DarkroomFile, now: datetime, number: int) -> Clip:
    """Use a clip pair no more; a roll that is on it keeps it until it is sleeved."""
    return _change(file, now, number, lambda clip: clip._replace(retired=True))


def lose(file: DarkroomFile, now: datetime, number: int, lost: Lost) -> Clip:
    """Keep that one clip of a pair has lost its hook or its tag."""

    def without(clip: Clip) -> Clip:
        both = {*clip.lost, lost}
        return clip._replace(lost=tuple(sorted(both, key=str)))

    return _change(file, now, number, without)


def restore(file: DarkroomFile, now: datetime, number: int) -> Clip:
    """Keep that a clip pair is whole and in use again."""
    return _change(file, now, number, lambda clip: Clip(clip.number))


def cautions(conn: sqlite3.Connection, number: int | None, *, flip: bool = False) -> list[str]:
    """Return what to tell whoever hangs or flips a strip on a clip pair."""
    clip = None if number is None else read_clip(conn, number)
    return [] if clip is None else list(clip.cautions(flip=flip))


def flip_warnings(file: DarkroomFile, flipped: Iterable[Roll]) -> list[str]:
    """Return what to tell whoever flipped rolls, of their clip pairs."""
    return [words for roll in flipped for words in cautions(file.conn, roll.clip, flip=True)]


def _change(file: DarkroomFile, now: datetime, number: int, change: Callable[[Clip], Clip]) -> Clip:
    refuse_other_clips(number)
    with file.writing() as conn:
        changed = change(read_clip(conn, number) or Clip(number))
        save_clip(conn, changed, now)
    return changed
