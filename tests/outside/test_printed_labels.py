"""Printed labels as paper sees them: rasterised by pypdfium2 and read by zxing-cpp.

Positions are measured on the raster, never taken from our own layout.
"""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import pypdfium2
import pytest
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
    clip_pairs,
    print_labels,
    stock,
)

# Sheet, label, grid, left and top, pitch; in mm. Common practice: each sheet's own printed
# dimensions; 1 in = 25.4 mm by definition.
INCH = 25.4
SHEETS = {
    "letter-30": (2.625 * INCH, INCH, 3, 10, 0.1875 * INCH, 0.5 * INCH, 2.75 * INCH, INCH),
    "letter-80": (1.75 * INCH, INCH / 2, 4, 20, 0.28125 * INCH, INCH / 2, 2.0625 * INCH, INCH / 2),
    "letter-20": (4 * INCH, INCH, 2, 10, 0.15625 * INCH, 0.5 * INCH, 4.1875 * INCH, INCH),
    "letter-10": (4 * INCH, 2 * INCH, 2, 5, 0.15625 * INCH, 0.5 * INCH, 4.1875 * INCH, 2 * INCH),
    "a4-21": (63.5, 38.1, 3, 7, 7.25, 15.15, 66.0, 38.1),
    "a4-24": (64, 33.9, 3, 8, 6.5, 12.9, 66.5, 33.9),
    "a4-65": (38.1, 21.2, 5, 13, 4.75, 10.7, 40.6, 21.2),
    "roll-2x1": (2 * INCH, INCH, 1, 1, 0, 0, 2 * INCH, INCH),
}
PAPER = {"letter": (8.5 * INCH, 11 * INCH), "a4": (210, 297), "roll": (2 * INCH, INCH)}  # ISO 216


@dataclass(frozen=True)
class Found:
    text: str
    left: float
    top: float
    right: float
    bottom: float


def raster(pdf: bytes, dpi: int, page: int = 0) -> np.ndarray:
    # A hair under the dpi: the rasteriser rounds its size up, and would stretch a page of exactly
    # 6,600 dots to 6,601.
    scale = (dpi - 1e-4) / 72
    return pypdfium2.PdfDocument(pdf)[page].render(scale=scale, grayscale=True).to_numpy().copy()


def read(image: np.ndarray, dpi: int) -> list[Found]:
    """Return the symbols on a page with their outer edges in mm, measured on the ink."""
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
        mm = 25.4 / dpi
        found.append(
            Found(
                code.text,
                (x0 + columns[0]) * mm,
                (y0 + rows[0]) * mm,
                (x0 + columns[-1] + 1) * mm,
                (y0 + rows[-1] + 1) * mm,
            )
        )
    return found


def printed(
    labels: Iterable[Label],
    name: str,
    dpi: int = 300,
    start: int = 1,
    calibration: Calibration = UNTOUCHED,
) -> bytes:
    out = io.BytesIO()
    sheet = stock(name)
    print_labels(list(labels), sheet, out, dpi=dpi, start=start, calibration=calibration)
    return out.getvalue()


ASSORTED: list[Label] = [
    *clip_pairs([1, 17, 888]),
    SleeveLabel(codes.roll_code("26F", 142), "135-36", "26F", "14 Oct 2026"),
    SleeveLabel(codes.page_code("26F", 142, 2), "120 6×6", "26F", "14 Oct 2026", "page 2 of 2"),
    RodLabel(3, "Period 3"),
    BoxLabel(3, "Period 3"),
    BinderLabel("26F", 1, "Photography 1"),
]


@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_every_label_of_a_sheet_reads_at_the_printers_dpi(name: str, dpi: int) -> None:
    if dpi not in stock(name).dpi:
        pytest.skip(f"{name} does not serve {dpi} dpi")
    labels = ASSORTED[:1] if name.startswith("roll") else ASSORTED
    pdf = printed(labels, name, dpi=dpi)
    pages = range(len(pypdfium2.PdfDocument(pdf)))
    read_back = [found.text for page in pages for found in read(raster(pdf, dpi, page), dpi)]
    assert sorted(read_back) == sorted(label.payload for label in labels)


@pytest.mark.parametrize("name", SHEETS)
def test_each_symbol_stands_in_its_label_to_a_tenth_of_a_millimetre(name: str) -> None:
    width, height, across, down, left, top, pitch_x, pitch_y = SHEETS[name]
    tags = clip_pairs(range(1, across * down + 1))[: across * down]
    pdf = printed(tags, name, dpi=300)
    size = pypdfium2.PdfDocument(pdf)[0].get_size()
    assert size == pytest.approx([mm / INCH * 72 for mm in PAPER[name.partition("-")[0]]], abs=0.01)
    found = {each.text: each for each in read(raster(pdf, 600), 600)}
    assert len(found) == len(tags)
    first = found[tags[0].payload]
    in_label = (first.left - left, (first.top + first.bottom) / 2 - top)
    assert in_label[1] == pytest.approx(height / 2, abs=0.1)  # the symbol is centred in height
    assert first.right - first.left == pytest.approx(first.bottom - first.top, abs=0.05)
    for place, tag in enumerate(tags):
        row, column = divmod(place, across)
        at = found[tag.payload]
        assert at.left - column * pitch_x - left == pytest.approx(in_label[0], abs=0.1)
        assert (at.top + at.bottom) / 2 - row * pitch_y - top == pytest.approx(in_label[1], abs=0.1)
        assert left + column * pitch_x < at.left
        assert at.right < left + column * pitch_x + width


@pytest.mark.parametrize(
    ("name", "dpi", "dots"),
    # 0.5 mm: 4 dots at 203 dpi; 0.508 mm: 6 at 300, 12 at 600. A half-inch label holds 25 + 4
    # modules a side of 5 dots at 300 dpi: 29 × 0.423 = 12.28 mm, of 6 dots 14.7 mm.
    # Pages that are whole dots themselves, so that the raster is a printer's.
    [
        ("roll-2x1", 203, 4),
        ("letter-30", 300, 6),
        ("letter-30", 600, 12),
        ("letter-80", 300, 5),
        ("letter-80", 600, 10),
        ("tags-letter", 300, 6),
    ],
)
def test_modules_are_whole_dots_on_the_raster(name: str, dpi: int, dots: int) -> None:
    pdf = printed([ClipTag(17, "A")], name, dpi=dpi)
    image = raster(pdf, dpi)
    (found,) = read(image, dpi)
    assert (found.right - found.left) * dpi / INCH == pytest.approx(21 * dots, abs=1)
    y0, x0 = round(found.top * dpi / INCH), round(found.left * dpi / INCH)
    patch = image[y0 : y0 + 21 * dots, x0 : x0 + 21 * dots]
    # A printer has no grey: every dot is ink or paper, but for the rasteriser's rounding.
    assert not ((patch > 16) & (patch < 240)).any()


def test_the_quiet_zone_is_white_for_four_modules() -> None:
    for name in ("letter-30", "letter-80", "a4-65", "tags-letter", "roll-2x1"):
        image = raster(printed([ClipTag(888, "B")], name, dpi=300), 600)
        (found,) = read(image, 600)
        module = (found.right - found.left) / 21
        px = 600 / INCH
        grow = 3.9 * module
        x0, y0 = max(0, round((found.left - grow) * px)), max(0, round((found.top - grow) * px))
        around = image[
            y0 : round((found.bottom + grow) * px), x0 : round((found.right + grow) * px)
        ]
        dark = np.argwhere(around < 128)
        side = (found.right - found.left) * px
        assert dark.min(axis=0).min() >= 0
        assert (dark.max(axis=0) - dark.min(axis=0)) == pytest.approx([side, side], abs=3)


@pytest.mark.parametrize("name", ["tags-letter", "tags-a4", "letter-30", "letter-80", "a4-21"])
def test_the_clip_number_is_the_largest_thing_on_the_tag(name: str) -> None:
    image = raster(printed([ClipTag(17, "A")], name, dpi=300), 300)
    (found,) = read(image, 300)
    page = pypdfium2.PdfDocument(printed([ClipTag(17, "A")], name, dpi=300))[0].get_textpage()
    left, bottom, _, top = page.get_charbox(page.get_text_range().index("1"))
    wide = page.get_charbox(page.get_text_range().index("A"))[2] - left
    number = wide * (top - bottom) * (INCH / 72) ** 2
    assert number > (found.right - found.left) * (found.bottom - found.top)


LONG = "Advanced photography, alternative processes and a very long title"


@pytest.mark.parametrize("name", ["letter-30", "letter-80", "a4-21", "a4-65", "roll-2x1"])
def test_no_word_leaves_its_label_or_runs_into_the_symbol(name: str) -> None:
    width, height, _, _, left, top, *_ = SHEETS[name]
    for label in [
        *ASSORTED,
        BoxLabel(12, LONG),
        SleeveLabel(codes.page_code("26F", 9999, 2), LONG, "26F", LONG, LONG, "ÅQ"),
    ]:
        pdf = printed([label], name)
        page = pypdfium2.PdfDocument(pdf)[0]
        words = page.get_textpage()
        (symbol,) = read(raster(pdf, 300), 300)
        quiet = 4 * (symbol.right - symbol.left) / 21
        paper = page.get_height()
        assert words.count_chars()
        for index in range(words.count_chars()):
            box = [mm * INCH / 72 for mm in words.get_charbox(index)]
            assert symbol.right + quiet - 0.3 < box[0]
            assert box[2] < left + width
            assert top < paper * INCH / 72 - box[3]
            assert paper * INCH / 72 - box[1] < top + height


def test_tags_a_and_b_of_a_pair_stand_side_by_side() -> None:
    found = {f.text: f for f in read(raster(printed(clip_pairs([17, 18]), "tags-a4"), 300), 300)}
    for number in (17, 18):
        a, b = found[codes.clip_code(number, "A")], found[codes.clip_code(number, "B")]
        assert b.left - a.left == pytest.approx(48, abs=0.1)
        assert b.top == pytest.approx(a.top, abs=0.1)


def test_a_sheet_half_used_is_started_at_its_next_label() -> None:
    (found,) = read(raster(printed([RodLabel(3)], "letter-30", start=14), 600), 600)
    (first,) = read(raster(printed([RodLabel(3)], "letter-30"), 600), 600)
    # Label 14 is the second of the fifth row.
    assert found.left - first.left == pytest.approx(2.75 * INCH, abs=0.1)
    assert found.top - first.top == pytest.approx(4 * INCH, abs=0.1)


def test_a_printer_that_shifts_and_stretches_is_countered() -> None:
    (plain,) = read(raster(printed([RodLabel(3)], "letter-30", start=30), 600), 600)
    moved = Calibration(right_mm=1.5, down_mm=-2.0, stretch_x=1.01, stretch_y=0.99)
    pdf = printed([RodLabel(3)], "letter-30", start=30, calibration=moved)
    (there,) = read(raster(pdf, 600), 600)
    assert there.left == pytest.approx(plain.left * 1.01 + 1.5, abs=0.1)
    assert there.top == pytest.approx(plain.top * 0.99 - 2.0, abs=0.1)


@pytest.mark.parametrize(
    ("name", "left", "top"), [("tags-letter", 11.95, 9.7), ("tags-a4", 9, 13.5)]
)
def test_cut_lines_lie_on_the_edges_of_the_tags(name: str, left: float, top: float) -> None:
    # Plain paper: 4 × 48 mm across, centred on 215.9 mm or 210 mm.
    image = raster(printed([ClipTag(17, "A")], name, dpi=600), 600)
    px = 600 / INCH
    above = image[round((top - 1.5) * px)] < 200
    edges = np.flatnonzero(above[1:] & ~above[:-1]) / px
    assert edges == pytest.approx([left + 48 * column for column in range(5)], abs=0.15)
    assert left * 2 + 48 * 4 == pytest.approx(PAPER[name.partition("-")[2]][0], abs=0.1)


def test_labels_wrapped_around_something_thin_get_smaller_modules_that_still_read() -> None:
    around = stock("letter-30")._replace(wrapped=True)
    out = io.BytesIO()
    # 5 dots of 300 dpi are 0.423 mm.
    assert print_labels([ClipTag(17, "A")], around, out, dpi=300).dots_per_module == 5
    (found,) = read(raster(out.getvalue(), 300), 300)
    assert found.right - found.left == pytest.approx(21 * 0.4233, abs=0.1)
