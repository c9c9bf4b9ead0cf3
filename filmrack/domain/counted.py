"""Numbers of things in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


def counted(number: int, one: str, more: str = "") -> str:
    """Return a number of things; `more` is their name where it is not `one` with an s.

    >>> counted(1, "roll"), counted(0, "roll"), counted(2, "person", "people")
    ('1 roll', '0 rolls', '2 people')
    """
    return f"{number} {one if number == 1 else more or one + 's'}"


def listed(things: Sequence[str], most: int, what: str = "") -> str:
    """Return the first things one after the other, and how many more there are, of `what`.

    >>> listed(["rod 1", "rod 2"], 2), listed(["rod 1", "rod 2", "rod 3"], 2)
    ('rod 1, rod 2', 'rod 1, rod 2 and 1 more')
    >>> listed(["rod 1", "rod 2", "rod 3"], 1, "change")
    'rod 1 and 2 more changes'
    """
    left = len(things) - most
    number = counted(left, f"more {what}") if what else f"{left} more"
    more = f" and {number}" if left > 0 else ""
    return ", ".join(things[:most]) + more


def frames_words(frames: Iterable[int]) -> str:
    """Return frames as they are read and typed.

    >>> frames_words([4, 11])
    '4, 11'
    """
    return ", ".join(map(str, frames))
