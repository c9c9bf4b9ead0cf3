"""What a choice of labels comes to, read from the darkroom file: labels and where they fall."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from filmrack.acts import labelling
from filmrack.acts.labelling import PrintOrder
from filmrack.desk.labels.choice import Choice, Sheets, sheets_for
from filmrack.desk.said import Said
from filmrack.domain.refusal import Refused
from filmrack.store.file import DarkroomFile


class Reading(NamedTuple):
    """What a choice comes to: labels with where they fall, or why there are none.

    `path` is the file that it goes to.
    """

    path: Path
    order: PrintOrder | None = None
    sheets: Sheets | None = None
    why: str = ""


def tell_measured(file: DarkroomFile, text: str) -> Said:
    """Keep what was measured on a test page. Raises Refused for lengths that are none."""
    found = labelling.tell_measured(file, labelling.four_lengths(text))
    words = (
        f"all is moved {found.right_mm:+.2f} mm to the right and {found.down_mm:+.2f} mm down;"
        " print the test page again to check it"
    )
    return Said("Printer measured", words, done=True)


def read(
    file: DarkroomFile, choice: Choice, now: datetime, path: Path, own: Path | None
) -> Reading:
    """Return what a choice comes to whose file is `path`; `own` is the folder of own stock."""
    if not choice.on_labels:
        return Reading(path)
    try:
        order = labelling.order(file, choice.kind, choice.asked.split(), now)
        sheets = sheets_for(file, choice, len(order.wanted.labels), own)
    except Refused as refused:
        return Reading(path, why=str(refused))
    return Reading(path, order, sheets)
