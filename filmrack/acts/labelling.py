"""Printing from the darkroom file: labels on a stock, pages on paper, both to a PDF.

The file is written first and what follows from it is kept then, or neither: no label leaves the
queue that is not on paper.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from io import BytesIO
from math import isfinite
from pathlib import Path
from typing import NamedTuple

from filmrack.acts.new_files import write_new
from filmrack.acts.wanted_labels import LABEL_KINDS, Wanted, labels_wanted
from filmrack.acts.wanted_pages import PAGE_KINDS, pages_wanted
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Room
from filmrack.printing import (
    PAPERS,
    UNTOUCHED,
    Calibration,
    Page,
    Printed,
    Progress,
    measured,
    print_labels,
    print_pages,
    stock,
)
from filmrack.store import labelling
from filmrack.store.clips import know_clips
from filmrack.store.file import DarkroomFile
from filmrack.store.labelling import Lengths, PrinterRecord
from filmrack.store.trouble import refuse_over

KINDS = (*LABEL_KINDS, *PAGE_KINDS)
"""Everything that can be printed: labels, then pages."""

USUAL_DPI = 300
USUAL_PRINTER = ""

_USUAL_STOCK = {
    "letter": {
        "clips": "tags-letter",
        "sleeves": "letter-30",
        "rods": "letter-20",
        "boxes": "letter-10",
        "binders": "letter-10",
    },
    "a4": {"clips": "tags-a4", **dict.fromkeys(("sleeves", "rods", "boxes", "binders"), "a4-21")},
}
_A4_AREAS = ("Africa/", "Asia/", "Australia/", "Europe/")
_NO_LABELS = Wanted(())


class PrintOrder(NamedTuple):
    """What is to be printed: labels with what hangs on them, or pages."""

    kind: str
    wanted: Wanted = _NO_LABELS
    pages: tuple[Page, ...] = ()

    @property
    def on_labels(self) -> bool:
        """Tell whether it goes on a stock of labels rather than on plain pages."""
        return self.kind in LABEL_KINDS


class PrintSetup(NamedTuple):
    """On what an order is printed; of what is left out, the usual."""

    stock_name: str = ""
    """The stock of labels, or the paper of pages; empty for the room's usual one."""
    dpi: int = USUAL_DPI
    """The printer's resolution, in dots an inch."""
    start: int | None = None
    """The label to begin at, from 1; else it goes on where the last sheet stopped."""
    printer: str = USUAL_PRINTER
    own: Path | None = None
    """The user's folder of stock and designs."""


USUAL_SETUP = PrintSetup()


def order(file: DarkroomFile, kind: str, asked: Sequence[str], moment: datetime) -> PrintOrder:
    """Return what there is to print of a kind; see `labels_wanted` and `pages_wanted`.

    `moment` says for which day and in which term. Raises Refused for an unknown kind.
    """
    if kind in LABEL_KINDS:
        return PrintOrder(kind, labels_wanted(file, kind, asked, moment))
    if kind in PAGE_KINDS:
        return PrintOrder(kind, pages=pages_wanted(file, kind, asked, moment))
    raise Refused(f"“{kind[:40]}” cannot be printed: name one of {', '.join(KINDS)}")


def _usual_paper(room: Room) -> str:
    """Return the paper that a room's printer has: `a4` or `letter`.

    By the room's time zone, which is all that is known of its country (from memory of Unicode
    CLDR's paper sizes: Letter in most of America, A4 elsewhere). Where it errs, name the stock.
    """
    return "a4" if room.zone.startswith(_A4_AREAS) else "letter"


def usual_stock(room: Room, kind: str) -> str:
    """Return the stock, or the paper, on which a kind is printed when nobody says otherwise."""
    paper = _usual_paper(room)
    return _USUAL_STOCK[paper].get(kind, paper)


def usual_start(file: DarkroomFile, stock_name: str, own: Path | None = None) -> int:
    """Return the label after the last one printed on a stock, from 1."""
    start = labelling.next_label(file.conn, stock_name)
    # A stock of the user's own may have got fewer labels since.
    return start if start <= stock(stock_name, own).places else 1


def print_order(
    file: DarkroomFile,
    ordered: PrintOrder,
    out: Path,
    setup: PrintSetup = USUAL_SETUP,
    progress: Progress | None = None,
) -> Printed:
    """Print an order to a new PDF, and keep what follows from it.

    Clips with a tag are known from then on, printed sleeves leave the queue, and the next order
    goes on where this sheet stopped. Raises Refused over anything that exists, and as
    `print_labels` and `print_pages` do; nothing is kept then and no file is made.
    """
    refuse_over(out)
    name = setup.stock_name or usual_stock(file.room(), ordered.kind)
    own, start = setup.own, setup.start
    # Drawn before the file is held, so that no scan at a desk has to wait for it.
    drawn = BytesIO()
    against = calibration(file, setup.printer)
    if ordered.on_labels:
        printed = print_labels(
            ordered.wanted.labels,
            stock(name, own),
            drawn,
            dpi=setup.dpi,
            start=usual_start(file, name, own) if start is None else start,
            calibration=against,
            own=own,
            progress=progress,
        )
    elif start is not None:
        raise Refused("a whole page has no labels to start at: leave the start out")
    elif name not in PAPERS:
        raise Refused(f"“{name[:40]}” is no paper for a whole page: name letter or a4")
    else:
        printed = print_pages(
            ordered.pages, name, drawn, dpi=setup.dpi, calibration=against, progress=progress
        )
    used = setup._replace(stock_name=name)
    _keep(file, ordered, printed, used, out=out, document=drawn.getvalue())
    return printed


def _keep(
    file: DarkroomFile,
    ordered: PrintOrder,
    printed: Printed,
    setup: PrintSetup,
    *,
    out: Path,
    document: bytes,
) -> None:
    printer, written = setup.printer, False
    try:
        with file.writing() as conn:
            know_clips(conn, ordered.wanted.clips)
            labelling.forget_queued(conn, ordered.wanted.queued)
            if ordered.on_labels:
                labelling.remember_next_label(conn, setup.stock_name, printed.next_start)
            if ordered.kind == "test":
                record = labelling.printers(conn).get(printer, PrinterRecord())
                tested = record.get("used", _lengths(UNTOUCHED))
                labelling.keep_printer(conn, printer, {**record, "tested": tested})
            write_new(out, document)
            written = True
    except BaseException:
        if written:
            out.unlink(missing_ok=True)
        raise


def calibration(file: DarkroomFile, printer: str = USUAL_PRINTER) -> Calibration:
    """Return what is done against a printer; nothing, where its test page was not measured."""
    record = labelling.printers(file.conn).get(printer, PrinterRecord())
    return Calibration(**record.get("used", _lengths(UNTOUCHED)))


def four_lengths(text: str) -> tuple[float, float, float, float]:
    """Read the four lengths of `tell_measured`, in mm, parted by commas.

    Raises Refused for anything else.
    """
    try:
        left, top, across, down = (float(part) for part in text.split(","))
    except ValueError:
        raise Refused(
            f"“{text[:40]}” are not four lengths: give left, upper, across and down in mm, such as"
            " 20.4,19.8,150.3,200.2"
        ) from None
    return left, top, across, down


def tell_measured(
    file: DarkroomFile,
    lengths_mm: tuple[float, float, float, float],
    printer: str = USUAL_PRINTER,
) -> Calibration:
    """Keep what counters a printer, from the four lengths measured on its last test page.

    In mm: from the left edge to the cross, from the upper edge to the cross, the ruler across,
    the ruler down. What that test page was itself printed with is counted in, so that telling
    the same lengths twice changes nothing. Raises Refused for lengths that no printer makes.
    """
    if not all(map(isfinite, lengths_mm)):
        raise Refused("one of the four lengths is no number: measure the test page in mm again")
    more = measured(*lengths_mm)
    with file.writing() as conn:
        record = labelling.printers(conn).get(printer, PrinterRecord())
        tested = record.get("tested", _lengths(UNTOUCHED))
        found = Calibration(
            right_mm=tested["right_mm"] + more.right_mm * tested["stretch_x"],
            down_mm=tested["down_mm"] + more.down_mm * tested["stretch_y"],
            stretch_x=tested["stretch_x"] * more.stretch_x,
            stretch_y=tested["stretch_y"] * more.stretch_y,
        )
        found.check()
        labelling.keep_printer(conn, printer, {**record, "used": _lengths(found)})
    return found


def _lengths(of: Calibration) -> Lengths:
    return Lengths(
        right_mm=of.right_mm,
        down_mm=of.down_mm,
        stretch_x=of.stretch_x,
        stretch_y=of.stretch_y,
    )
