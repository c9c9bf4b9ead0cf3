"""Every kind of label on every stock at every dpi that the stock declares.

Each label is cut out of its page by the stock's own figures, not by ours: what lies outside its
label is not read.
"""

from __future__ import annotations

import io
from functools import cache

import numpy as np
import pypdfium2
import pytest

from filmrack.domain.refusal import Refused
from filmrack.printing import ClipTag, print_labels, stock, stock_names
from tests.outside.paper import (
    DPI,
    EACH_KIND,
    INCH,
    SHEETS,
    Found,
    Window,
    paper_of,
    printed,
    raster,
    read,
    read_part,
)

DECLARED = [(name, dpi) for name in SHEETS for dpi in stock(name).dpi]
OTHERS = (150, 360, 2400)
"""Resolutions of printers that no stock is meant for."""
NOT_DECLARED = [
    (name, dpi) for name in SHEETS for dpi in (*DPI, *OTHERS) if dpi not in stock(name).dpi
]

FINE = 1200
"""Dots an inch at which positions are measured: a coarser raster adds half a dot of its own."""


@cache
def ends_of_sheet(name: str, dpi: int) -> tuple[pypdfium2.PdfDocument, pypdfium2.PdfDocument]:
    """Return the kinds on the first labels of a sheet, and on the last."""
    first, last = (
        printed(EACH_KIND, name, dpi, start)
        for start in (1, max(1, SHEETS[name].places - len(EACH_KIND) + 1))
    )
    return pypdfium2.PdfDocument(first), pypdfium2.PdfDocument(last)


def places_of(name: str) -> list[tuple[int, int, int]]:
    """Return the document, the page and the place of each label of `ends_of_sheet`."""
    places = SHEETS[name].places
    starts = (0, max(0, places - len(EACH_KIND)))
    return [
        (which, *divmod(start + index, places))
        for which, start in enumerate(starts)
        for index in range(len(EACH_KIND))
    ]


def label_on(name: str, place: int) -> Window:
    sheet = SHEETS[name]
    return Window(*sheet.corner(place), sheet.width, sheet.height)


def around(found: Found, mm: float) -> Window:
    wide, high = found.right - found.left, found.bottom - found.top
    return Window(found.left - mm, found.top - mm, wide + 2 * mm, high + 2 * mm)


def measured(document: pypdfium2.PdfDocument, page: int, found: Found) -> Found:
    """Return a symbol with its edges measured finely."""
    (fine,) = read_part(document, FINE, page, around(found, 1))
    return fine


@cache
def place_in_label(name: str, dpi: int) -> tuple[float, float]:
    """Return where a symbol begins in its label, in mm, measured on labels printed alone.

    A symbol begins at a whole dot. The mean over four labels, each a quarter of a dot further on
    than the one before, is known to an eighth of a dot. Their paper, larger than any label, is
    whole dots of every resolution.
    """
    at = []
    for quarter in range(4):
        margin = quarter / 4 * INCH / dpi
        alone = stock(name)._replace(
            sheet_width=5 * INCH,
            sheet_height=3 * INCH,
            across=1,
            down=1,
            left=margin,
            top=margin,
            cut_lines=False,
        )
        document = pypdfium2.PdfDocument(printed([ClipTag(17, "A")], alone, dpi))
        (found,) = read(raster(document, dpi), dpi)
        found = measured(document, 0, found)
        at.append((found.left - margin, found.top - margin))
    x, y = np.mean(at, axis=0)
    return float(x), float(y)


def test_every_shipped_stock_is_tried() -> None:
    assert set(SHEETS) == set(stock_names())
    # 0.33 mm are 3 dots of 203 dpi (0.375 mm): 29 modules of these are 10.9 mm, which half an
    # inch would hold; at least 4 dots a module is a maker's advice, and 14.5 mm it does not hold.
    # The thermal rolls are for the two resolutions of thermal printers (common practice).
    left_out = {(name, dpi) for name, dpi in NOT_DECLARED if dpi in DPI}
    assert left_out == {("letter-80", 203), ("roll-2x1", 600), ("roll-2x1", 1200)}


@pytest.mark.parametrize(("name", "dpi"), DECLARED)
def test_a_label_of_every_kind_reads_and_stands_where_the_stock_says(name: str, dpi: int) -> None:
    documents = ends_of_sheet(name, dpi)
    size = documents[0][0].get_size()
    assert size == pytest.approx([mm / INCH * 72 for mm in paper_of(name)], abs=0.01)
    read_back = []
    for which, page, place in places_of(name):
        label = label_on(name, place)
        found = read_part(documents[which], dpi, page, label)
        read_back.append([each.text for each in found])
        fine = measured(documents[which], page, found[0])
        in_label = (fine.left - label.left, fine.top - label.top)
        assert in_label == pytest.approx(place_in_label(name, dpi), abs=0.1)
    assert read_back == [[label.payload] for label in EACH_KIND] * 2


@pytest.mark.parametrize(("name", "dpi"), DECLARED)
def test_the_quiet_zone_of_four_modules_is_white_and_within_the_label(name: str, dpi: int) -> None:
    document, _ = ends_of_sheet(name, dpi)
    label = label_on(name, 0)
    (found,) = read_part(document, dpi, 0, label)
    found = measured(document, 0, found)
    # ISO/IEC 18004: 4 modules; a tenth of one is left to the raster's edges.
    white = 3.9 * (found.right - found.left) / 21
    zone = around(found, white)
    assert label.left < zone.left
    assert label.top < zone.top
    assert zone.left + zone.width < label.left + label.width
    assert zone.top + zone.height < label.top + label.height
    image = raster(document, FINE, 0, zone)
    ink = np.argwhere(image < 128)
    edges = [*ink.min(axis=0), *(image.shape - ink.max(axis=0))]
    assert edges == pytest.approx([white * FINE / INCH] * 4, abs=3)


@pytest.mark.parametrize(("name", "dpi"), NOT_DECLARED)
def test_a_printer_that_a_stock_does_not_serve_is_refused_in_words(name: str, dpi: int) -> None:
    for label in EACH_KIND:
        out = io.BytesIO()
        with pytest.raises(Refused) as refusal:
            print_labels([label], stock(name), out, dpi=dpi)
        said = str(refusal.value)
        assert said.startswith(f"{name} does not serve a printer of {dpi} dpi")
        for served in stock(name).dpi:
            assert str(served) in said
        assert out.getvalue() == b""
