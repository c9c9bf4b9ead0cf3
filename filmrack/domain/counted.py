"""Numbers of things in words."""

from __future__ import annotations


def counted(number: int, one: str, more: str = "") -> str:
    """Return a number of things; `more` is their name where it is not `one` with an s.

    >>> counted(1, "roll"), counted(0, "roll"), counted(2, "person", "people")
    ('1 roll', '0 rolls', '2 people')
    """
    return f"{number} {one if number == 1 else more or one + 's'}"
