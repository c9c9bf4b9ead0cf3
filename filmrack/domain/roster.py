"""A roster as a school's office or a spreadsheet writes it: from bytes to rows.

The file says nothing of its encoding and little of its form, so both are found out, and what was
found is a `Mapping` that a person can look at before anything is written.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from filmrack.domain.headings import Meaning, columns_of
from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused

MOST_BYTES = 10_000_000
MOST_LINES = 50_000
MOST_LINES_IN_ROW = 20
"""Lines that one row may take by line breaks in its cells; beyond, a quotation mark is missing."""

HEADING_LINES = 10
"""Lines searched for the headings: some offices print a title above them."""

_WIDE = (("utf-16", "UTF-16"),)
_NARROW = (("utf-8-sig", "UTF-8"), ("cp1252", "Windows-1252"))

SEPARATORS = {",": "comma", ";": "semicolon", "\t": "tab"}


class RosterLine(NamedTuple):
    """One person of a roster; `period` is what stands there, and `called` and `school_id` may be
    missing.
    """

    line: int
    given: str
    family: str
    called: str | None = None
    school_id: str | None = None
    period: str | None = None


class Mapping(NamedTuple):
    """How a roster was read: its encoding, what parts its cells, and what each column is."""

    encoding: str
    separator: str
    columns: tuple[tuple[str, Meaning], ...]
    """Each heading that is used, and what is taken from it."""
    not_used: tuple[str, ...]


class Roster(NamedTuple):
    """The rows that can be read, and the lines that cannot, each with why."""

    mapping: Mapping
    rows: tuple[RosterLine, ...]
    refused: tuple[tuple[int, str], ...]


def read_roster(data: bytes, period_word: str = "period") -> Roster:
    """Return the rows of a roster, whatever its encoding, separator and order of columns.

    Raises Refused when it is no text, too long, or no column for names is recognised.
    """
    text, encoding = _decoded(data)
    lines = list(io.StringIO(text, newline=""))
    if len(lines) > MOST_LINES:
        raise Refused(
            f"the roster has {len(lines)} lines, more than {MOST_LINES}: split it into several"
        )
    told = re.fullmatch(r"sep=([,;\t])\r?\n?", lines[0]) if lines else None
    first, separator, headings, columns = _headings(
        lines, 1 if told else 0, told[1] if told else None, period_word
    )
    used = {number: meaning for meaning, number in columns.items()}
    mapping = Mapping(
        encoding,
        SEPARATORS[separator],
        tuple((headings[number].strip(), used[number]) for number in sorted(used)),
        tuple(
            heading.strip()
            for number, heading in enumerate(headings)
            if number not in used and heading.strip()
        ),
    )
    rows: list[RosterLine] = []
    refused: list[tuple[int, str]] = []
    for line, cells in _rows(lines, first, separator):
        if isinstance(cells, str):
            refused.append((line, cells))
        elif any(cell.strip() for cell in cells) and cells != headings:
            try:
                rows.append(_row(line, cells, headings, columns))
            except Refused as error:
                refused.append((line, str(error)))
    return Roster(mapping, tuple(rows), tuple(refused))


def _decoded(data: bytes) -> tuple[str, str]:
    if len(data) > MOST_BYTES:
        raise Refused(
            f"the roster has {len(data) // 1_000_000} MB, more than {MOST_BYTES // 1_000_000}:"
            " choose the right file"
        )
    if data.startswith(b"PK\x03\x04"):
        raise Refused("the roster is a workbook or an archive: save the sheet as CSV first")
    wide = data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    for encoding, name in _WIDE if wide else _NARROW:
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" in text:
            break
        return text, name
    raise Refused("the roster is no text that can be read: save it as CSV in UTF-8")


def _headings(
    lines: Sequence[str], begin: int, told: str | None, period_word: str
) -> tuple[int, str, list[str], dict[Meaning, int]]:
    """Return the first line of the rows, the separator, the headings and what they mean."""
    for number in range(begin, min(len(lines), begin + HEADING_LINES)):
        best: tuple[int, str, list[str], dict[Meaning, int], int] | None = None
        for separator in [told] if told else SEPARATORS:
            cells, taken = _record(lines, number, separator)
            if isinstance(cells, str):
                continue
            columns = columns_of(cells, period_word)
            named = "full" in columns or "family" in columns or "given" in columns
            # A separator that stands nowhere in the line gives one cell, and so wins only where
            # the roster has that one column.
            if named and (best is None or len(columns) > best[4]):
                best = number + taken, separator, cells, columns, len(columns)
        if best is not None:
            return best[:4]
    raise Refused(
        "the roster has no heading for names that is known: write one above each column, such as"
        " Family, Given, Called, ID and Period"
    )


def _rows(
    lines: Sequence[str], first: int, separator: str
) -> Iterator[tuple[int, list[str] | str]]:
    number = first
    while number < len(lines):
        cells, taken = _record(lines, number, separator)
        yield number + 1, cells
        number += taken


def _record(lines: Sequence[str], number: int, separator: str) -> tuple[list[str] | str, int]:
    """Return the cells of the row at a line, or what is wrong with it, and the lines it takes."""
    some = islice(lines, number, number + MOST_LINES_IN_ROW)
    reader = csv.reader(some, delimiter=separator, skipinitialspace=True, strict=True)
    try:
        return next(reader, []), max(1, reader.line_num)
    except csv.Error:
        return "its quotation marks do not match: close each one, or take them out", 1


def _row(
    line: int, cells: Sequence[str], headings: Sequence[str], columns: dict[Meaning, int]
) -> RosterLine:
    if any(cell.strip() for cell in cells[len(headings) :]):
        raise Refused(
            f"it has {len(cells)} cells and there are {len(headings)} headings: put a name with a"
            " comma in quotation marks"
        )

    def cell(meaning: Meaning, what: str) -> str:
        number = columns.get(meaning)
        return "" if number is None or number >= len(cells) else clean(cells[number], what)

    called = cell("called", "the called-by name")
    if "full" in columns:
        given, family, bracketed = _whole_name(cell("full", "the name"))
        called = called or bracketed
    else:
        given, family = cell("given", "the given name"), cell("family", "the family name")
    if not given and not family:
        raise Refused("it has no name: write one, or take the line out")
    if not given:
        given, family = family, ""
    return RosterLine(
        line,
        given,
        family,
        called if called != given and called else None,
        cell("school_id", "the school id") or None,
        cell("period", "the period") or None,
    )


def _whole_name(text: str) -> tuple[str, str, str]:
    """Return given name, family name and called-by name of a name in one piece.

    With a comma the family name stands first, else it is the last word; a name in brackets is
    the one the person goes by.

    >>> _whole_name("Okafor, Margaret (Mara)")
    ('Margaret', 'Okafor', 'Mara')
    """
    bracketed = re.search(r"\(([^()]+)\)", text)
    called = bracketed[1].strip() if bracketed else ""
    plain = " ".join(re.sub(r"\([^()]*\)", " ", text).split())
    if "," in plain:
        family, given = (part.strip(" ,") for part in plain.split(",", 1))
    else:
        given, _, family = plain.rpartition(" ")
        if not given:
            given, family = family, ""
    return given, family, called
