"""The rolls of the archive in rows below their period, and what stands there where none are."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.archive.marks import WITH_PLACE, WORD, mark
from filmrack.desk.archive.shelf import ShelfRow
from filmrack.desk.ink import fit, fitted, ground, style
from filmrack.desk.now import Now
from filmrack.desk.themes import Palette
from filmrack.domain.counted import counted
from filmrack.domain.names import called
from filmrack.domain.room import Room
from filmrack.store.archive import WhichRolls

_NUMBER, _FILM, _SELECTED = 14, 10, 2
_WIDE = 70
"""Cells from which it stands beside what a roll owes where it is."""
_NAME = 24
"""Cells of a name at most."""
_WITH_FILM = 96

_NONE: Mapping[WhichRolls, str] = {
    "sleeve": "Nothing is left to sleeve.",
    "file": "Nothing is left to file.",
    "binder": "Nothing is in binders.",
    "out": "Nothing is borrowed.",
    "missing": "Nothing is missing.",
    "gone": "Nothing is handed back or discarded.",
    "contact": "Every sleeve has its contact sheet.",
    "owner": "Every roll has its owner.",
}
"""What stands there where a term has no roll of a kind."""


class Notes(NamedTuple):
    """By roll, what is written on film without an owner, and who has borrowed it."""

    said: Mapping[int, str]
    borrowers: Mapping[int, str]


def heading(row: ShelfRow, room: Room, rolls: int, *, width: int, palette: Palette) -> Text:
    """Return the name of a period, with how many rolls stand below it."""
    period = room.period(row.pile.period)
    name = period.name if period else f"Without a {room.period_word}"
    return Text.assemble(
        (fit(name, max(8, width - 14)).rstrip(), style(palette.text, bold=True)),
        (f"  {counted(rolls, 'roll')}", style(palette.quiet)),
    )


def roll_row(
    row: ShelfRow,
    now: Now,
    notes: Notes,
    *,
    named: bool,
    selected: bool,
    width: int,
    palette: Palette,
) -> Text:
    """Return a roll: whose, its number, its film where there is room, what it owes."""
    person, roll = row.pile.person, row.roll
    assert roll is not None
    name = called(person, notes.said.get(roll.id))
    film = _FILM if width >= _WITH_FILM else 0
    least = WITH_PLACE if width >= _WIDE else WORD
    space = max(8, min(_NAME, width - _SELECTED - _NUMBER - film - least))
    left = max(least, width - _SELECTED - _NUMBER - film - space)
    owes = mark(
        roll,
        now.room,
        now.at,
        palette,
        width=left if width >= _WIDE else WORD,
        borrower=notes.borrowers.get(roll.id, ""),
    )
    line = Text.assemble(
        ("▸ " if selected else "  ", style(palette.text, bold=True)),
        fitted(name if named or selected or person is None else "", space - 1, style(palette.text)),
        " ",
        fitted(roll.number, _NUMBER, style(palette.quiet)),
        fitted(roll.film, film, style(palette.quiet)),
        owes,
    )
    if selected:
        line.stylize(ground(palette))
    return line


def empty(term: str, which: WhichRolls, palette: Palette) -> list[Text]:
    """Return what stands in place of rolls where there are none."""
    if which == "all":
        title, words = f"Nothing of {term} yet.", "A roll stands here from the moment it is loaded."
    else:
        title, words = _NONE[which], "Esc shows all."
    return in_words(title, words, palette)


def in_words(title: str, words: str, palette: Palette) -> list[Text]:
    """Return a sentence, and what to do below it."""
    return [
        Text(title, style=style(palette.text, bold=True)),
        Text(words, style=style(palette.quiet)),
    ]
