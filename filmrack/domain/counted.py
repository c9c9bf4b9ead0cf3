"""Numbers of things in words."""

from __future__ import annotations

from collections.abc import Sequence


def counted(number: int, one: str, more: str = "") -> str:
    """Return a number of things; `more` is their name where it is not `one` with an s.

    >>> counted(1, "roll"), counted(0, "roll"), counted(2, "person", "people")
    ('1 roll', '0 rolls', '2 people')
    """
    return f"{number} {one if number == 1 else more or one + 's'}"


def listed(things: Sequence[str], most: int) -> str:
    """Return the first things one after the other, and how many more there are.

    >>> listed(["rod 1", "rod 2"], 2), listed(["rod 1", "rod 2", "rod 3"], 2)
    ('rod 1, rod 2', 'rod 1, rod 2 and 1 more')
    """
    more = f" and {len(things) - most} more" if len(things) > most else ""
    return ", ".join(things[:most]) + more
