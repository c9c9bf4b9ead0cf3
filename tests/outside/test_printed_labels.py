"""Printed labels as paper sees them: rasterised by pypdfium2 and read by zxing-cpp.

Positions are measured on the raster, never taken from our own layout.
"""

from __future__ import annotations

import io

import numpy as np
import pypdfium2
import pytest

from filmrack.domain import codes
from filmrack.printing import (
    BoxLabel,
    Calibration,
    ClipTag,
    RodLabel,
    SleeveLabel,
    clip_pairs,
    print_labels,
    stock,
)
from tests.outside.paper import (
    EACH_KIND,
    INCH,
    PAPER,
    SHEETS,
    Window,
    printed,
    raster,
    read,
    read_part,
)


def first_label(name: str) -> Window:
    sheet = SHEETS[name]
    return Window(sheet.left, sheet.top, sheet.width, sheet.height)


@pytest.mark.parametrize("name", SHEETS)
def test_each_symbol_stands_in_its_label_to_a_tenth_of_a_millimetre(name: str) -> None:
    width, height, across, down, left, top, pitch_x, pitch_y = SHEETS[name]
    tags = clip_pairs(range(1, across * down + 1))[: across * down]
    pdf = printed(tags, name, dpi=300)
    found = {each.text: each for each in read(raster(pdf, 600), 600)}
    assert len(found) == len(tags)
    first = found[tags[0].payload]
    in_label = (first.left - left, (first.top + first.bottom) / 2 - top)
    if height < width:  # beside its words a symbol is centred in height, on a tag it is under them
        assert in_label[1] == pytest.approx(height / 2, abs=0.1)
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
    # 0.5 mm: 4 dots at 203 dpi; 0.508 mm: 6 at 300, 12 at 600, 24 at 1200. A half-inch label holds
    # 29 modules a side of 5 dots at 300 dpi: 29 × 0.423 = 12.28 mm, of 6 dots 14.7 mm.
    # Pages that are whole dots themselves, so that the raster is a printer's.
    [
        ("roll-2x1", 203, 4),
        ("letter-30", 300, 6),
        ("letter-30", 600, 12),
        ("letter-30", 1200, 24),
        ("letter-80", 300, 5),
        ("letter-80", 600, 10),
        ("letter-80", 1200, 20),
        ("tags-letter", 300, 6),
        ("tags-letter", 1200, 24),
    ],
)
def test_modules_are_whole_dots_on_the_raster(name: str, dpi: int, dots: int) -> None:
    image = raster(printed([ClipTag(17, "A")], name, dpi=dpi), dpi, part=first_label(name))
    (found,) = read(image, dpi)
    assert (found.right - found.left) * dpi / INCH == pytest.approx(21 * dots, abs=1)
    y0, x0 = round(found.top * dpi / INCH), round(found.left * dpi / INCH)
    patch = image[y0 : y0 + 21 * dots, x0 : x0 + 21 * dots]
    # A printer has no grey: every dot is ink or paper, but for the rasteriser's rounding.
    assert not ((patch > 16) & (patch < 240)).any()


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


@pytest.mark.parametrize("name", SHEETS)
def test_no_word_leaves_its_label_or_runs_into_the_symbol(name: str) -> None:
    width, height, _, _, left, top, *_ = SHEETS[name]
    for label in [
        *EACH_KIND,
        BoxLabel(12, LONG),
        SleeveLabel(codes.page_code("26F", 9999, 2), LONG, "26F", LONG, LONG, "ÅQ"),
    ]:
        pdf = pypdfium2.PdfDocument(printed([label], name))
        words = pdf[0].get_textpage()
        (symbol,) = read_part(pdf, 300, 0, first_label(name))
        white = 4 * (symbol.right - symbol.left) / 21 - 0.3
        paper = pdf[0].get_height()
        assert words.count_chars()
        for index in range(words.count_chars()):
            x0, y0, x1, y1 = words.get_charbox(index)
            from_left, to_right = x0 * INCH / 72, x1 * INCH / 72
            upper, lower = (paper - y1) * INCH / 72, (paper - y0) * INCH / 72
            beside, above = symbol.right + white < from_left, lower < symbol.top - white
            assert beside or above
            assert left < from_left
            assert to_right < left + width
            assert top < upper
            assert lower < top + height


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
