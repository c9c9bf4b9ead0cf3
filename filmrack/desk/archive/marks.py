"""What a roll of the archive still owes, as a word with a shape before it, and where it is."""

from __future__ import annotations

from datetime import datetime

from rich.cells import cell_len
from rich.style import Style
from rich.text import Text

from filmrack.desk.ink import fit, fitted, style
from filmrack.desk.themes import Palette
from filmrack.domain.counted import counted
from filmrack.domain.loans import due_words, overdue
from filmrack.domain.roll import ARCHIVED, Roll
from filmrack.domain.room import Room

_DONE, _OWED, _ELSEWHERE, _GONE = "●", "○", "◇", "×"

_FILED, _NOT_SLEEVED = f"{_DONE} filed", f"{_OWED} not sleeved"

WORD = 20
"""Cells of what a roll owes."""

WITH_PLACE = 40
"""Cells from which it also stands there where the roll is."""


def mark(
    roll: Roll, room: Room, now: datetime, palette: Palette, *, width: int, borrower: str = ""
) -> Text:
    """Return what a roll owes next, and where it is if there is room; of one that is lent, who has
    it and until when. How many frames are picked stands there too where there is room.
    """
    how = _style(roll, room, now, palette)
    if borrower and roll.loan is not None:
        return fitted(_lent(borrower, roll, room, now, width), width, how)
    word, where = _told(roll)
    if width < WITH_PLACE:
        # What is filed or not sleeved says where it is: the place tells the other thing too.
        sign = word[:1]
        return fitted(f"{sign} {where}" if word in (_FILED, _NOT_SLEEVED) else word, width, how)
    picks = f", {counted(len(roll.picks), 'pick')}" if where and roll.picks else ""
    if cell_len(where + picks) <= width - WORD:
        where += picks
    return Text.assemble(fitted(word, WORD, how), fitted(where, width - WORD, style(palette.quiet)))


def _lent(borrower: str, roll: Roll, room: Room, now: datetime, width: int) -> str:
    """Return who has borrowed a roll, and the day it is due where there is room: that day whole."""
    assert roll.loan is not None
    if width < WITH_PLACE:
        return f"{_ELSEWHERE} {borrower}"
    due = f", {due_words(roll.loan, room, now, brief=True)}"
    if cell_len(borrower + due) > width - 2:  # whom to ask is wanted whole before a small word
        due = due.replace(" since ", " ")
    space = width - 2 - cell_len(due)
    return f"{_ELSEWHERE} {fit(borrower, space).rstrip()}{due}"


def _told(roll: Roll) -> tuple[str, str]:
    """Return what a roll owes, and where it is."""
    place = roll.place
    match place.kind:
        case "out":
            return f"{_ELSEWHERE} borrowed", ""
        case "missing":
            return f"{_GONE} missing", ""
        case "handed_back" | "discarded":
            return f"{_DONE} {place}", ""
        case "sleeve" | "binder" if not roll.sheets:
            return f"{_OWED} no contact sheet", "not filed" if place.kind == "sleeve" else str(
                place
            )
        case "sleeve":
            return f"{_OWED} not filed", str(place)
        case "binder":
            return _FILED, str(place)
        case "rod":
            return _NOT_SLEEVED, f"rod {place.number}"
        case _:
            return _NOT_SLEEVED, str(place)


def _style(roll: Roll, room: Room, now: datetime, palette: Palette) -> Style:
    kind = roll.place.kind
    if kind == "missing" or overdue(roll, room, now):
        return style(palette.left, bold=True)
    done = kind in ("handed_back", "discarded") or (kind == "binder" and bool(roll.sheets))
    return style(palette.quiet if done else palette.text, bold=kind in ARCHIVED and not done)
