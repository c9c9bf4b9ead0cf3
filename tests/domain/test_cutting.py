"""Cut plans and papers as they are said beforehand.

Strips and the orphan rule are common practice; film widths and pitches are of ISO 1007 (summary),
papers of the ISO 1008 series and ISO 216: a page of seven strips of five is 190 × 244.8 mm and
fits 8×10 in, six strips of six are 228 × 209.9 mm, of which only the pictures (198.9 mm) fit.
"""

from __future__ import annotations

import pytest

from filmrack.domain.cutting import (
    cut_of,
    cut_words,
    fit_on,
    paper_words,
    pocket_words,
    rule_words,
)
from filmrack.domain.refusal import Refused
from filmrack.domain.roomrules import Materials
from tests.domain.test_attention import roll_after

ROOM = Materials()


@pytest.mark.parametrize(
    ("film", "page", "frames", "words"),
    [
        ("135-36", None, None, "cut 5 5 5 5 5 5 3 | 3"),
        ("135-36", "6x6", None, "cut 6 6 6 6 6 6"),
        ("135-36", "7x6", 38, "cut 6 6 6 6 6 5 3"),
        ("135-24", None, 26, "cut 5 5 5 5 3 3"),
        ("120-6x6", None, None, "cut 3 3 3 3"),
        ("sheet-4x5", None, None, "4 sheets"),
    ],
)
def test_a_cut_plan_is_said_strip_for_strip(
    film: str, page: str | None, frames: int | None, words: str
) -> None:
    assert cut_words(cut_of(film, ROOM, page, frames)) == words


def test_the_page_its_strips_and_its_sleeves_are_said() -> None:
    assert pocket_words(cut_of("135-36", ROOM)) == (
        "8 strips in 2 sleeves (a sleeve takes 7 of 5 frames)"
    )
    assert pocket_words(cut_of("135-36", ROOM, "6x6")) == (
        "6 strips in 1 sleeve (a sleeve takes 6 of 6 frames)"
    )


def test_shortened_strips_are_explained_and_whole_ones_are_not() -> None:
    assert rule_words(cut_of("135-36", ROOM)) == "each strip has 3 frames or more"
    assert rule_words(cut_of("135-36", ROOM, "6x6")) == ""
    assert rule_words(cut_of("135-36", ROOM, "7x6", 39)) == ""  # six strips of 6, and one of 3
    assert rule_words(cut_of("135-24", ROOM, None, 2)) == ""


@pytest.mark.parametrize(("page", "frames"), [("large", None), ("7x5", 40), (None, 0)])
def test_a_page_that_is_none_and_frames_that_cannot_be_are_refused(
    page: str | None, frames: int | None
) -> None:
    with pytest.raises(Refused):
        cut_of("135-36", ROOM, page, frames)


def test_a_paper_is_said_with_how_it_takes_the_page() -> None:
    roll = roll_after("load", "hang", "sleeve")._replace(page_name="6x6")
    assert fit_on(roll, "8x10in", ROOM) == "pictures_only"
    assert paper_words(roll, "8x10in", ROOM) == "on 8x10in: pictures only, edge numbers are lost"
    assert paper_words(roll, "9.5x12in", ROOM) == "on 9.5x12in: fits"
    assert paper_words(roll._replace(page_name="10x4"), "a4", ROOM) == "on a4: does not fit"
    assert paper_words(roll._replace(page_name=None), "a4", ROOM) == "on a4"
