"""What a choice of labels comes to, read from the darkroom file: labels and where they fall."""

from __future__ import annotations

from datetime import datetime
from math import ceil
from pathlib import Path
from typing import NamedTuple

from filmrack.acts import labelling
from filmrack.acts.labelling import PrintOrder
from filmrack.acts.new_files import free_name
from filmrack.desk.labels.choice import Choice
from filmrack.desk.labels.press import Printout, print_folder
from filmrack.desk.session import Session
from filmrack.domain.refusal import Refused
from filmrack.printing import stock
from filmrack.printing.modules import check_dpi
from filmrack.store.file import DarkroomFile


class Sheets(NamedTuple):
    """How a number of labels falls on sheets of a stock."""

    across: int
    down: int
    start: int
    labels: int

    @property
    def sheets(self) -> int:
        """Return how many sheets are needed."""
        return ceil((self.start - 1 + self.labels) / (self.across * self.down))

    def place(self, number: int) -> str:
        """Tell whether a place of the first sheet (from 1) is used, printed on now, or free."""
        if number < self.start:
            return "used"
        return "now" if number < self.start + self.labels else "free"


class Reading(NamedTuple):
    """What a choice comes to: labels with where they fall, or why there are none.

    `path` is the file that it goes to.
    """

    path: Path
    order: PrintOrder | None = None
    sheets: Sheets | None = None
    why: str = ""


class Reader:
    """Reads what is chosen, anew when that or the file has changed."""

    def __init__(self, session: Session, own: Path | None) -> None:
        """`own` is the folder of own stock."""
        self._session = session
        self._own = own
        self._asked: tuple[int, Choice, Printout | None] | None = None
        self.latest: Reading | None = None
        """What was read last; None before the first."""

    def read(self, choice: Choice, now: datetime, saved: Printout | None) -> Reading:
        """Return what a choice comes to; what was `saved` last takes the name of a file."""
        asked = self._session.stamp, choice, saved
        if self.latest is None or self._asked != asked:
            self._asked = asked
            path = free_name(print_folder(self._session), choice.kind)
            self.latest = _read(self._session.file, choice, now, path, self._own)
        return self.latest


def _read(
    file: DarkroomFile, choice: Choice, now: datetime, path: Path, own: Path | None
) -> Reading:
    """Return what a choice comes to whose file is `path`; `own` is the folder of own stock."""
    if not choice.on_labels:
        return Reading(path)
    try:
        order = labelling.order(file, choice.kind, choice.asked.split(), now)
        sheets = _sheets_for(file, choice, len(order.wanted.labels), own)
    except Refused as refused:
        return Reading(path, why=str(refused))
    return Reading(path, order, sheets)


def _sheets_for(file: DarkroomFile, choice: Choice, labels: int, own: Path | None) -> Sheets:
    """Return how the labels of a choice fall.

    Raises Refused for a stock that is wrong, and for a printer that it does not serve.
    """
    name = choice.stock or labelling.usual_stock(file.room(), choice.kind)
    sheet = stock(name, own)
    check_dpi(sheet, choice.dpi)
    start = choice.start or labelling.usual_start(file, name, own)
    return Sheets(sheet.across, sheet.down, start, labels)
