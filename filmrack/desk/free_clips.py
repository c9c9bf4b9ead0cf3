"""Free clip pairs of this room: what every question for one and every example of one names; and
which number is hardly one of them.
"""

from __future__ import annotations

from filmrack.desk.session import Session
from filmrack.domain.clip import HIGHEST_CLIP
from filmrack.store.clips import all_clips, free

_MOST_NAMED = 3
"""Free clip pairs that an answer names."""

_ENOUGH = 10
"""Clip pairs that a room must know before one is beyond them: at first every one is new."""


def free_words(session: Session) -> str:
    """Return the lowest clip pairs that are free, as the end of a sentence; empty for none."""
    lowest = free(session.file.conn)[:_MOST_NAMED]
    return f". Free: {', '.join(map(str, lowest))}" if lowest else ""


def with_free_clip(session: Session, words: str) -> str:
    """Return words with the lowest free clip pair for `{free}`: where no known one is, a number
    that no pair has yet. What is to be done with it is then done when it is typed just so.
    """
    if "{free}" not in words:
        return words
    conn = session.file.conn
    known = {clip.number for clip in all_clips(conn)}
    new = (number for number in range(1, HIGHEST_CLIP + 1) if number not in known)
    number = next(iter(free(conn)), None) or next(new, HIGHEST_CLIP)
    return words.replace("{free}", str(number))


def highest_far_below(session: Session, clip: int) -> int | None:
    """Return the highest clip pair that is known where a number is more than twice that, so that a
    digit slipped rather than that a pair is new; None for any other number.
    """
    known = [each.number for each in all_clips(session.file.conn)]
    return known[-1] if len(known) >= _ENOUGH and clip > 2 * known[-1] else None
