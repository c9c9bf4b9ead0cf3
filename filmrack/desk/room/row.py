"""A row of the screen Room, and the place where it stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.domain.roomfields import Field


class RoomPlace(NamedTuple):
    """Where on the screen Room somebody looks: a section, or one entry of a list in it.

    `entry` is the list and what tells the entry apart in it, else empty.
    """

    section: str
    entry: tuple[str, ...] = ()


Reply = Said | Question | RoomPlace
"""What Enter on a row leads to: an answer, a question, or the entry that it opens."""


@dataclass(frozen=True, slots=True)
class RoomRow:
    """One row: a name and what is said of it, and what Enter and typing do to it.

    A row without a name is a sentence; a `heading` parts the rows; a `drawn` row is a picture's.
    """

    name: str
    words: str = ""
    does: str = ""
    """What Enter does, as the footer says it."""
    enter: Callable[[], Reply] | None = None
    field: Field | None = None
    """What a value typed straight is read as."""
    take: Callable[[str], Said | Question] | None = None
    """Takes a value typed straight: asks whether it is meant, for a number could be a clip's."""
    remove: Callable[[], Said] | None = None
    heading: bool = False
    drawn: Text | None = None
    note: str = ""
    """What it is, said where there is room for it."""
    is_person: bool = False
    """Whether it is somebody's: found by their names, and by no word."""
