"""What a submitted line comes to."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.desk.question import Question
from filmrack.desk.said import Said


class Wish(NamedTuple):
    """What only the desk itself can do: go to a screen, or help, colours, quit.

    `say` a line on a screen, as if it was typed there; with `stay` without going there.
    """

    what: str
    screen: str = ""
    line: str = ""
    stay: bool = False


Outcome = Said | Question | Wish | None
"""None for nothing to say."""
