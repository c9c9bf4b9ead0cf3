"""Cells of a table that is harmless in a spreadsheet, and gives back exactly what was put in.

A spreadsheet takes a cell for a formula that begins with = + - @, a tab, a carriage return or a
line feed (OWASP, "CSV Injection", from memory), also in their full-width forms. Such a cell gets
an apostrophe in front; so does one that begins with an apostrophe, and an empty text, so that
nothing at all can stand for "no value".

>>> from_cell(to_cell("=1+1"))
'=1+1'
>>> to_cell(None), to_cell("")
('', "'")
"""

from __future__ import annotations

STARTS_A_FORMULA = frozenset("=+-@\t\r\n＝＋－＠")
MARK = "'"


def to_cell(text: str | None) -> str:
    """Return the cell of a text, or of no value."""
    if text is None:
        return ""
    return MARK + text if not text or text[0] in STARTS_A_FORMULA or text[0] == MARK else text


def from_cell(cell: str) -> str | None:
    """Return the text of a cell, or None where there is no value."""
    if not cell:
        return None
    return cell[1:] if cell[0] == MARK else cell
