"""Printed labels as paper sees them: rasterised by pypdfium2, read by zxing-cpp, measured on ink.

What sheets measure stands here in figures of its own, never taken from our stock files.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from typing import NamedTuple

import numpy as np
import pypdfium2
import zxingcpp

from filmrack.domain import codes
from filmrack.printing import (
    UNTOUCHED,
    BinderLabel,
    BoxLabel,
    Calibration,
    ClipTag,
    Label,
    RodLabel,
    SleeveLabel,
    Stock,
    print_labels,
    stock,
)

INCH = 25.4
"""By definition."""


class Sheet(NamedTuple):
    """A sheet's label, grid, left and top, pitch; in mm."""

    width: float
    height: float
    across: int
    down: int
    left: float
    top: float
    pitch_x: float
    pitch_y: float

    @property
    def places(self) -> int:
        return self.across * self.down

    def corner(self, place: int) -> tuple[float, float]:
        """Return the upper left corner of a label, counted from 0 in rows."""
        row, column = divmod(place, self.across)
        return self.left + column * self.pitch_x, self.top + row * self.pitch_y


# Common practice: each sheet's own printed dimensions. The tags are plain paper: four of 48 mm
# centred on 215.9 mm or 210 mm, five of 52 or 54 mm on 279.4 mm or 297 mm.
SHEETS = {
    "letter-30": Sheet(2.625 * INCH, INCH, 3, 10, 0.1875 * INCH, 0.5 * INCH, 2.75 * INCH, INCH),
    "letter-80": Sheet(
        1.75 * INCH, INCH / 2, 4, 20, 0.28125 * INCH, INCH / 2, 2.0625 * INCH, INCH / 2
    ),
    "letter-20": Sheet(4 * INCH, INCH, 2, 10, 0.15625 * INCH, 0.5 * INCH, 4.1875 * INCH, INCH),
    "letter-10": Sheet(
        4 * INCH, 2 * INCH, 2, 5, 0.15625 * INCH, 0.5 * INCH, 4.1875 * INCH, 2 * INCH
    ),
    "a4-21": Sheet(63.5, 38.1, 3, 7, 7.25, 15.15, 66.0, 38.1),
    "a4-24": Sheet(64, 33.9, 3, 8, 6.5, 12.9, 66.5, 33.9),
    "a4-65": Sheet(38.1, 21.2, 5, 13, 4.75, 10.7, 40.6, 21.2),
    "roll-2x1": Sheet(2 * INCH, INCH, 1, 1, 0, 0, 2 * INCH, INCH),
    "tags-letter": Sheet(48, 52, 4, 5, 11.95, 9.7, 48, 52),
    "tags-a4": Sheet(48, 54, 4, 5, 9, 13.5, 48, 54),
}

PAPER = {"letter": (8.5 * INCH, 11 * INCH), "a4": (210, 297), "roll": (2 * INCH, INCH)}
"""Width and height in mm (ISO 216 for a4)."""

DPI = (203, 300, 600, 1200)
"""Thermal printers for labels, and office printers (common practice)."""

EACH_KIND: tuple[Label, ...] = (
    ClipTag(888, "B"),
    SleeveLabel(codes.roll_code("26F", 142), "135-36", "26F", "14 Oct 2026"),
    SleeveLabel(codes.page_code("26F", 142, 2), "120 6×6", "26F", "14 Oct 2026", "page 2 of 2"),
    RodLabel(3, "Period 3"),
    BoxLabel(12, "Period 3"),
    BinderLabel("26F", 1, "Photography 1"),
)
"""A label of every kind, and of both codes that a sleeve can have."""


def paper_of(name: str) -> tuple[float, float]:
    """Return what the sheet of a stock measures, in mm."""
    return next(size for paper, size in PAPER.items() if paper in name.split("-"))


class Window(NamedTuple):
    """A part of a page, in mm from its upper left corner."""

    left: float
    top: float
    width: float
    height: float


class Found(NamedTuple):
    """A symbol's text and its outer edges in mm from the page's upper left corner."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


def printed(
    labels: Iterable[Label],
    on: str | Stock,
    dpi: int = 300,
    start: int = 1,
    calibration: Calibration = UNTOUCHED,
) -> bytes:
    out = io.BytesIO()
    sheet = stock(on) if isinstance(on, str) else on
    print_labels(list(labels), sheet, out, dpi=dpi, start=start, calibration=calibration)
    return out.getvalue()


def raster(
    pdf: bytes | pypdfium2.PdfDocument, dpi: int, page: int = 0, part: Window | None = None
) -> np.ndarray:
    """Return a page, or the dots of a part of it, as a printer of `dpi` would see it."""
    document = pypdfium2.PdfDocument(pdf) if isinstance(pdf, bytes) else pdf
    drawn = document[page]
    # A hair under the dpi: the rasteriser rounds its size up, and would stretch a page of exactly
    # 6,600 dots to 6,601.
    scale = (dpi - 1e-4) / 72
    crop = (0.0, 0.0, 0.0, 0.0)
    if part is not None:
        x, y, wide, high = dots(part, dpi)
        across, down = (-int(-side * scale // 1) for side in drawn.get_size())
        # The rasteriser rounds these up to whole dots as well.
        left, bottom, right, top = x, down - y - high, across - x - wide, y
        crop = tuple(max(0.0, (side - 0.5) / scale) for side in (left, bottom, right, top))
    return drawn.render(scale=scale, grayscale=True, crop=crop).to_numpy().copy()


def dots(part: Window, dpi: int) -> tuple[int, int, int, int]:
    """Return a part's left, top, width and height in whole dots."""
    left, top = round(part.left * dpi / INCH), round(part.top * dpi / INCH)
    right, bottom = part.left + part.width, part.top + part.height
    return left, top, round(right * dpi / INCH) - left, round(bottom * dpi / INCH) - top


def read(image: np.ndarray, dpi: int, left_mm: float = 0.0, top_mm: float = 0.0) -> list[Found]:
    """Return the symbols of a raster that begins at a point of its page, measured on the ink."""
    found = []
    for code in zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode):
        where = code.position
        corners = (where.top_left, where.top_right, where.bottom_left, where.bottom_right)
        xs, ys = [c.x for c in corners], [c.y for c in corners]
        # The decoder gives corners to about a module: the ink within says where it really ends.
        slack = (max(xs) - min(xs)) // 14
        x0, y0 = max(0, min(xs) - slack), max(0, min(ys) - slack)
        dark = image[y0 : max(ys) + slack + 1, x0 : max(xs) + slack + 1] < 128
        columns, rows = np.flatnonzero(dark.any(axis=0)), np.flatnonzero(dark.any(axis=1))
        mm = INCH / dpi
        found.append(
            Found(
                code.text,
                left_mm + (x0 + columns[0]) * mm,
                top_mm + (y0 + rows[0]) * mm,
                left_mm + (x0 + columns[-1] + 1) * mm,
                top_mm + (y0 + rows[-1] + 1) * mm,
            )
        )
    return found


def read_part(pdf: bytes | pypdfium2.PdfDocument, dpi: int, page: int, part: Window) -> list[Found]:
    """Return the symbols within a part of a page, measured in mm of the whole page."""
    x, y, *_ = dots(part, dpi)
    return read(raster(pdf, dpi, page, part), dpi, x * INCH / dpi, y * INCH / dpi)
