"""What has been done with a roll, as words with a shape before each."""

from __future__ import annotations

from datetime import datetime

from rich.text import Text

from filmrack.desk.ink import fitted, style
from filmrack.desk.themes import Palette
from filmrack.domain.attention import overdue
from filmrack.domain.roll import ARCHIVED, Roll
from filmrack.domain.room import Room

DONE, OWED, ELSEWHERE, GONE = "●", "○", "◇", "×"
WIDTHS = (14, 13, 17)
"""Cells of each mark: sleeved, contact sheet, where."""


def marks(roll: Roll, room: Room, now: datetime, palette: Palette) -> Text:
    """Return the three marks of a roll; what is to be done next stands out."""
    quiet, strong = style(palette.quiet), style(palette.text, bold=True)
    sleeved, contact = roll.sleeved_at is not None, bool(roll.sheets)
    kind = roll.place.kind
    cells = [
        (f"{DONE} sleeved", quiet) if sleeved else (f"{OWED} not sleeved", quiet),
        (f"{DONE} contact", quiet) if contact else (f"{OWED} no contact", quiet),
        (_where(roll), quiet),
    ]
    if kind in ("box", "owner"):
        cells[0] = (cells[0][0], strong)
    elif kind in ARCHIVED and not contact:
        cells[1] = (cells[1][0], strong)
    elif kind == "sleeve":
        cells[2] = (cells[2][0], strong)
    if kind == "missing" or overdue(roll, room, now):
        cells[2] = (cells[2][0], style(palette.left, bold=True))
    elif kind == "out":
        cells[2] = (cells[2][0], style(palette.text))
    return Text.assemble(
        *(fitted(words, w, how) for (words, how), w in zip(cells, WIDTHS, strict=True))
    )


def _where(roll: Roll) -> str:
    place = roll.place
    match place.kind:
        case "binder":
            return f"{DONE} {place}"
        case "sleeve":
            return f"{OWED} not filed"
        case "out":
            until = roll.loan.until if roll.loan else ""
            return f"{ELSEWHERE} out to {until[5:]}"
        case "missing":
            return f"{GONE} missing"
        case "handed_back" | "discarded":
            return f"{DONE} {place}"
        case "rod":
            return f"{ELSEWHERE} rod {place.number}"
        case _:
            return f"{ELSEWHERE} {place}"
