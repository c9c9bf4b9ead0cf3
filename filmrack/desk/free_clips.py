"""Free clip pairs of this room: what every question for one and every example of one names."""

from __future__ import annotations

from filmrack.desk.session import Session
from filmrack.domain.clip import HIGHEST_CLIP
from filmrack.store.clips import all_clips, free

_MOST_NAMED = 3
"""Free clip pairs that an answer names."""


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
