"""What has been done with a roll, as words with a shape before each."""

from __future__ import annotations

from datetime import datetime

from rich.style import Style
from rich.text import Text

from filmrack.desk.ink import fitted, style
from filmrack.desk.themes import Palette
from filmrack.domain.loans import due_words, overdue
from filmrack.domain.roll import ARCHIVED, Roll
from filmrack.domain.room import Room

_DONE, _OWED, _ELSEWHERE, _GONE = "●", "○", "◇", "×"
WIDTHS = (14, 13, 17)
"""Cells of each mark: sleeved, contact sheet, where."""

SHORT = 20
"""Cells of the three marks where there is less room."""


def marks(roll: Roll, room: Room, now: datetime, palette: Palette, borrower: str = "") -> Text:
    """Return the three marks of a roll; what is to be done next stands out.

    Of a roll that is lent they are shapes, with who has it and until when.
    """
    if borrower and roll.loan is not None:
        words = f"{borrower}, {due_words(roll.loan, room, now, brief=True)}"
        return _lent(words, roll, room, now, palette, width=sum(WIDTHS))
    cells = _cells(roll, room, now, palette)
    return Text.assemble(
        *(fitted(words, w, how) for (words, how), w in zip(cells, WIDTHS, strict=True))
    )


def short_marks(
    roll: Roll, room: Room, now: datetime, palette: Palette, borrower: str = ""
) -> Text:
    """Return the three marks as shapes, with the word of the one that counts."""
    if borrower and roll.loan is not None:
        return _lent(borrower, roll, room, now, palette, width=SHORT)
    cells = _cells(roll, room, now, palette)
    contact_owed = roll.place.kind in ("sleeve", "binder") and not roll.sheets
    words, how = cells[1 if contact_owed else 2]
    shapes = "".join(mark[0] for mark, _ in cells)
    return Text.assemble((f"{shapes} ", style(palette.quiet)), fitted(words[2:], SHORT - 4, how))


def _lent(
    words: str, roll: Roll, room: Room, now: datetime, palette: Palette, *, width: int
) -> Text:
    cells = _cells(roll, room, now, palette)
    shapes = "".join(mark[0] for mark, _ in cells)
    return Text.assemble(
        (f"{shapes} ", style(palette.quiet)), fitted(words, width - 4, cells[2][1])
    )


def _cells(roll: Roll, room: Room, now: datetime, palette: Palette) -> list[tuple[str, Style]]:
    quiet, strong = style(palette.quiet), style(palette.text, bold=True)
    sleeved, contact = roll.sleeved_at is not None, bool(roll.sheets)
    kind = roll.place.kind
    first = f"{_DONE} sleeved" if sleeved else f"{_OWED} not sleeved"
    second = f"{_DONE} contact" if contact else f"{_OWED} no contact"
    last = quiet
    if kind == "missing" or overdue(roll, room, now):
        last = style(palette.left, bold=True)
    elif kind == "out":
        last = style(palette.text)
    elif kind == "sleeve" and contact:
        last = strong
    return [
        (first, strong if kind in ("box", "owner") else quiet),
        (second, strong if kind in ARCHIVED and not contact else quiet),
        (_where(roll), last),
    ]


def _where(roll: Roll) -> str:
    place = roll.place
    match place.kind:
        case "binder":
            return f"{_DONE} {place}"
        case "sleeve":
            return f"{_OWED} not filed"
        case "out":
            return f"{_ELSEWHERE} borrowed"
        case "missing":
            return f"{_GONE} missing"
        case "handed_back" | "discarded":
            return f"{_DONE} {place}"
        case "rod":
            return f"{_ELSEWHERE} rod {place.number}"
        case _:
            return f"{_ELSEWHERE} {place}"
