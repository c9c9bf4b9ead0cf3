"""Whole pages: everything printed on paper that is not a label."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import BinaryIO, Protocol

from filmrack.domain.refusal import Refused
from filmrack.printing.leaf import Leaf
from filmrack.printing.modules import module_size
from filmrack.printing.pen import UNTOUCHED, Calibration, Pen
from filmrack.printing.print_run import Printed, Progress, finish, unless_stopped
from filmrack.printing.stock import DPI_RANGE

PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
"""Width and height in mm: 8.5 × 11 in, and A4 of ISO 216."""


class Page(Protocol):
    """Anything that fills a page, or several if it must."""

    def draw(self, leaf: Leaf) -> None:
        """Open a page on the leaf and fill it."""


def print_pages(
    pages: Sequence[Page],
    paper: str,
    out: BinaryIO | Path,
    *,
    dpi: int = 300,
    calibration: Calibration = UNTOUCHED,
    progress: Progress | None = None,
) -> Printed:
    """Print pages on `letter` or `a4`; `labels` of what is returned counts the symbols.

    Nothing is written unless all of it can be: raises Refused for nothing to print, an unknown
    paper, an odd printer, a character without a glyph, and a file that cannot be written.
    """
    if not pages:
        raise Refused("there is nothing to print because no page was asked for: name at least one")
    if paper not in PAPERS:
        raise Refused(f"there is no paper named “{paper}” for pages: choose letter or a4")
    module = module_size(29, 100.0, dpi)
    if module is None or not DPI_RANGE[0] <= dpi <= DPI_RANGE[1]:
        raise Refused(
            f"a printer of {dpi} dpi cannot be served: "
            f"name its real resolution, from {DPI_RANGE[0]} to {DPI_RANGE[1]}"
        )
    pen = Pen(*PAPERS[paper], dpi, "Filmrack pages", calibration)
    leaf = Leaf(pen, module)
    for _, page in unless_stopped(pages, "pages", progress):
        page.draw(leaf)
    finish(pen, out, len(pages), progress)
    return Printed(
        labels=leaf.symbols,
        pages=pen.pages,
        paper_mm=PAPERS[paper],
        module_mm=module.mm if leaf.symbols else 0.0,
        dots_per_module=module.dots if leaf.symbols else 0,
        next_start=1,
    )
