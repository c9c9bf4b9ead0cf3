"""Whose names are kept no longer, and which words hold one of them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from filmrack.domain.names import Person, tokens
from filmrack.domain.room import Room
from filmrack.domain.roomchange import values_of

_FIRST_WITHOUT_SPACES = 0x0E00
"""From here on many scripts set no space between words (Thai, Chinese, Japanese; Unicode)."""

_SHORTEST_PART = 3
"""A part of a longer name counts alone from so many letters: `cruz` of `de la Cruz`, not `la`."""


def holds_a_name(text: str, person: Person) -> bool:
    """Tell whether a text holds a name of a person, by itself or in part, in whatever case.

    Errs on the side of removing: a note on "may" mentions whoever is called May.
    """
    written = tokens(text)
    # `Mara's` as one word and as two; `Maras` as some write it.
    words = [*written, *tokens(text.translate(_APART))]
    known = {*words, *(word[:-1] for word in words if word.endswith("s"))}
    for name in (person.given, person.family, person.called or ""):
        parts = tokens(name)
        if not parts:
            continue
        if len(parts) == 1 and parts[0] in known:
            return True
        if len(parts) > 1 and (
            f" {' '.join(parts)} " in f" {' '.join(written)} "
            or any(part in known for part in parts if len(part) >= _SHORTEST_PART)
        ):
            return True
        if any(
            part in word
            for part in parts
            for word in written
            if ord(part[0]) >= _FIRST_WITHOUT_SPACES
        ):
            return True
    return False


def says_of(room: Room, person: Person) -> list[str]:
    """Return what a room calls its periods, days and things, where that holds a name of theirs."""
    former = [period.name for period in room.former_periods]
    said: list[str] = []
    for text in (*_texts(values_of(room)), *former):
        # The day plans say the periods' names once more.
        if holds_a_name(text, person) and not any(known in text for known in said):
            said.append(text)
    return said


def kept_until(last: date, years: int) -> date:
    """Return the day until which a name is kept, so many years after its last use.

    What was last used on a leap day is kept until the 28th.
    """
    try:
        return last.replace(year=last.year + years)
    except ValueError:
        return last.replace(year=last.year + years, day=28)


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from _texts(one)
    elif isinstance(value, list):
        for one in value:
            yield from _texts(one)


_APART = {ord(mark): " " for mark in "'’ʼ`"}
