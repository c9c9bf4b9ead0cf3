"""What is written at the end of a term: its finding aid, and what is to be handed back to whom."""

from __future__ import annotations

import csv
import io
from datetime import datetime
from pathlib import Path

from filmrack.acts.closing import rolls_of_term
from filmrack.acts.inscriptions import owners_initials
from filmrack.acts.new_files import write_new
from filmrack.domain.cells import to_cell
from filmrack.domain.finding_aid import ELEMENTS, Described, finding_aid
from filmrack.domain.refusal import Refused
from filmrack.domain.termreport import RollsOfOne, to_hand_back
from filmrack.store import terms
from filmrack.store.file import DarkroomFile


def finding_aid_of_term(file: DarkroomFile, code: str) -> list[Described]:
    """Describe a closed term and what is kept of it.

    Raises Refused for a term that is not there, or still open: its finding aid would not stay true.
    """
    term = file.room().term_of(code)
    if term.code not in terms.closed(file.conn):
        raise Refused(
            f"term {term.code} has no finding aid yet because it is still open: close it first with"
            f" “term close {term.code}”"
        )
    kept = rolls_of_term(file, term.code)
    return finding_aid(file.room(), term, kept, owners_initials(file, kept))


def as_text(described: list[Described]) -> str:
    """Return a finding aid as plain text: the term's elements, then a line for each roll."""
    head, *items = described
    width = max(map(len, ELEMENTS))
    lines = [f"{name.ljust(width)}  {text}" for name, text in zip(ELEMENTS, head, strict=True)]
    lines.append("")
    for roll in items:
        told = (roll.reference_code, roll.dates, roll.creator, roll.extent, roll.scope, roll.access)
        lines.append("  ".join(told))
    return "\n".join(lines) + "\n"


def as_csv(described: list[Described]) -> str:
    """Return a finding aid as a table, a row for the term and one for each roll."""
    written = io.StringIO(newline="")
    rows = csv.writer(written, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    rows.writerow(ELEMENTS)
    rows.writerows([to_cell(text) for text in each] for each in described)
    return written.getvalue()


def write_finding_aid(described: list[Described], out: Path) -> None:
    """Write a finding aid to a new file: a table where its name ends in .csv, else plain text.

    Raises Refused over anything that exists, and where it cannot be written.
    """
    document = as_csv(described) if out.suffix.casefold() == ".csv" else as_text(described)
    write_new(out, document.encode())


def hand_back_list(
    file: DarkroomFile, code: str | None, now: datetime
) -> tuple[str, tuple[RollsOfOne, ...]]:
    """Return a term, the one in force if None, and what is to be handed back by period and person.

    Raises Refused for a term that is not there.
    """
    term = file.room().term_meant(code, now)
    return term.code, to_hand_back(rolls_of_term(file, term.code))
