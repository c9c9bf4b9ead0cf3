"""What the desk answers to a line."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Said:
    """What the desk answers: `headline` in large letters, `words` below it.

    `select` is a roll to show, `rod` one to go to; `done` tells that the file was changed.
    """

    headline: str
    words: str = ""
    select: int | None = None
    rod: int | None = None
    done: bool = False
    screen: str | None = None
