"""Cutting and contact papers against the trade's habits and the standards of film and paper."""

from __future__ import annotations

import pytest

from filmrack.domain.contact import PAPERS, Block, block_of, fits, paper_named, spare_mm
from filmrack.domain.film import FORMATS
from filmrack.domain.sleeving import cut_plan, page_named, sleeves

THE_135 = FORMATS["135"]


@pytest.mark.parametrize(
    ("frames", "per_strip", "strips"),
    [
        # Common practice: never a last strip of fewer than three.
        (38, 6, [6, 6, 6, 6, 6, 5, 3]),
        (26, 5, [5, 5, 5, 5, 3, 3]),
        (25, 6, [6, 6, 6, 4, 3]),
        (9, 4, [3, 3, 3]),
        (36, 6, [6, 6, 6, 6, 6, 6]),
    ],
)
def test_a_roll_is_cut_as_the_trade_cuts_it(frames, per_strip, strips):
    assert cut_plan(frames, per_strip) == strips


def test_36_frames_on_seven_strips_of_five_need_a_second_sleeve():
    # Common practice; computed: 36 = 7 × 5 + 1.
    first, second = sleeves(36, page_named("7x5"), THE_135)
    assert (len(first.strips), len(second.strips), second.free_pockets) == (7, 1, 6)


@pytest.mark.parametrize(
    ("name", "short", "long_"),
    [
        # ISO 1008 series; an inch is 25.4 mm.
        ("8x10in", 203.2, 254.0),
        ("8.5x11in", 215.9, 279.4),
        ("9.5x12in", 241.3, 304.8),
        ("11x14in", 279.4, 355.6),
        ("24x30cm", 240, 305),
        # ISO 216.
        ("a4", 210, 297),
    ],
)
def test_papers_have_the_sizes_of_their_standards(name, short, long_):
    assert PAPERS[name].short_mm == pytest.approx(short)
    assert PAPERS[name].long_mm == pytest.approx(long_)


ROWS = [
    # Computed from ISO 1007 (34.975 mm a row, 38 mm a frame) and, for 120, ISO 732 from memory.
    ("7x5", "135", 190, 244.8, "fits", "fits", "fits", "fits"),
    ("6x6", "135", 228, 209.9, "pictures_only", "fits", "pictures_only", "fits"),
    ("7x6", "135", 228, 244.8, "no", "no", "no", "fits"),
    ("10x4", "135", 152, 349.8, "no", "no", "no", "no"),
    ("4x3", "120-6x6", 186, 246, "fits", "fits", "fits", "fits"),
]


@pytest.mark.parametrize(
    ("page", "name", "along", "across", "on_8x10", "on_letter", "on_a4", "on_9_5x12"), ROWS
)
def test_a_contact_sheet_fits_its_paper_or_not(
    page, name, along, across, on_8x10, on_letter, on_a4, on_9_5x12
):
    block = block_of(page_named(page), FORMATS[name])
    assert block.along_mm == pytest.approx(along, abs=0.051)
    assert block.across_mm == pytest.approx(across, abs=0.051)
    papers = ("8x10in", "8.5x11in", "a4", "9.5x12in")
    found = [fits(block, paper_named(paper)) for paper in papers]
    assert found == [on_8x10, on_letter, on_a4, on_9_5x12]


def test_ten_strips_of_four_fit_the_next_larger_paper():
    # Computed from ISO 1007 and ISO 1008.
    assert fits(block_of(page_named("10x4"), THE_135), paper_named("11x14in")) == "fits"


def test_six_strips_of_six_are_over_on_one_paper_and_too_tight_on_another():
    # Computed: 6 × 34.975 mm = 209.85 mm, against 203.2 mm (ISO 1008) and 210 mm (ISO 216).
    block = Block(THE_135, 6, 6)
    assert spare_mm(block, paper_named("8x10in")) == pytest.approx(-6.65)
    assert spare_mm(block, paper_named("a4")) == pytest.approx(0.15)
    # Images alone: 5 × 34.975 + 24 mm.
    assert block.images_across_mm == pytest.approx(198.875)


def test_seven_rows_in_pockets_reach_the_end_of_ten_inches_at_a_pitch_of_36_5():
    # Computed: (254 − 35) / 6 = 36.5 mm.
    assert Block(THE_135, 7, 5, 36.5).across_mm <= 254.0
    assert Block(THE_135, 7, 5, 36.6).across_mm > 254.0
