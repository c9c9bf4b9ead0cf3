from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.contact import PAPERS, Block, Paper, block_of, fits, paper_named, spare_mm
from filmrack.domain.film import FORMATS
from filmrack.domain.refusal import Refused
from filmrack.domain.sleeving import page_named

THE_135 = FORMATS["135"]


def test_a_block_with_exactly_a_millimetre_left_fits_and_with_less_does_not():
    block = Block(THE_135, 6, 6)
    exact = Paper("exact", block.across_mm + 1, block.along_mm + 1)
    tight = Paper("tight", block.across_mm + 0.9, block.along_mm + 1)
    assert fits(block, exact) == "fits"
    assert fits(block, tight) == "pictures_only"


def test_a_long_low_block_is_laid_along_the_paper():
    assert fits(Block(THE_135, 2, 6), paper_named("8x10in")) == "fits"
    assert fits(Block(FORMATS["120-6x6"], 2, 4), paper_named("8x10in")) == "fits"


def test_the_block_of_a_page_counts_the_frames_that_its_pockets_take():
    assert block_of(page_named("4x3"), FORMATS["120-6x4.5"]) == Block(FORMATS["120-6x4.5"], 4, 4)
    assert block_of(page_named("2x2"), FORMATS["sheet-4x5"]) == Block(FORMATS["sheet-4x5"], 2, 2)


def test_strips_left_in_their_page_lie_a_pocket_apart():
    assert Block(THE_135, 7, 5, 36.0).across_mm == pytest.approx(6 * 36 + 34.975)


@settings(max_examples=100, deadline=None)
@given(
    st.sampled_from(sorted(FORMATS)),
    st.integers(1, 12),
    st.integers(1, 8),
    st.sampled_from(sorted(PAPERS)),
)
def test_a_block_fits_in_one_of_two_ways_of_laying_it_or_not_at_all(name, rows, per_strip, paper):
    block, sheet = Block(FORMATS[name], rows, per_strip), PAPERS[paper]
    width, height = block.along_mm + 1, block.across_mm + 1
    either = (width <= sheet.short_mm and height <= sheet.long_mm) or (
        height <= sheet.short_mm and width <= sheet.long_mm
    )
    assert (fits(block, sheet) == "fits") == either
    assert (spare_mm(block, sheet) >= 1) == either
    if rows > 1:
        worse = ("fits", "pictures_only", "no")
        fewer = Block(FORMATS[name], rows - 1, per_strip)
        assert worse.index(fits(fewer, sheet)) <= worse.index(fits(block, sheet))


@pytest.mark.parametrize("typed", ["8X10in", " 8 × 10 in "])
def test_a_paper_is_read_as_people_write_it(typed):
    assert paper_named(typed) is PAPERS["8x10in"]


def test_a_paper_that_is_none_is_refused_with_those_that_are():
    with pytest.raises(Refused, match=r"write one of 8x10in, 8.5x11in, 9.5x12in, 11x14in, a4"):
        paper_named("postcard")
