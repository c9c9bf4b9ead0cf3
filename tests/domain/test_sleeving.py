from __future__ import annotations

from functools import cache
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.film import FORMATS
from filmrack.domain.refusal import Refused
from filmrack.domain.sleeving import (
    PAGE_NAMES,
    SHORTEST_STRIP,
    Strip,
    cut_plan,
    page_named,
    sleeves,
    strips_of,
)

THE_135 = FORMATS["135"]

counts = st.integers(0, 45)
lengths = st.integers(1, 8)


@cache
def every_cut(frames: int, strips: int, per_strip: int, minimum: int) -> tuple[list[int], ...]:
    """Return every way to cut a roll into that many strips between two lengths."""
    if strips == 0:
        return ([],) if frames == 0 else ()
    return tuple(
        [first, *rest]
        for first in range(minimum, min(per_strip, frames) + 1)
        for rest in every_cut(frames - first, strips - 1, per_strip, minimum)
    )


@settings(max_examples=150, deadline=None)
@given(counts, lengths)
def test_no_frame_is_lost_and_no_strip_is_too_long_or_one_too_many(frames, per_strip):
    plan = cut_plan(frames, per_strip)
    assert sum(plan) == frames
    assert all(1 <= strip <= per_strip for strip in plan)
    assert len(plan) == ceil(frames / per_strip)


@settings(max_examples=150, deadline=None)
@given(counts, lengths)
def test_only_where_no_cut_avoids_it_is_a_strip_shorter_than_three(frames, per_strip):
    plan = cut_plan(frames, per_strip)
    possible = frames >= len(plan) * SHORTEST_STRIP and per_strip >= SHORTEST_STRIP
    if possible:
        assert all(strip >= SHORTEST_STRIP for strip in plan)
    elif plan:
        assert min(plan) == min(frames // len(plan), SHORTEST_STRIP)


@settings(max_examples=80, deadline=None)
@given(st.integers(1, 27), st.integers(3, 7))
def test_among_all_cuts_the_one_that_fills_the_earliest_strips_is_taken(frames, per_strip):
    plan = cut_plan(frames, per_strip)
    cuts = every_cut(frames, len(plan), per_strip, min(SHORTEST_STRIP, *plan))
    # Filling from the beginning is moving as few frames as needed from the latest strips.
    assert plan == max(cuts)


def test_a_roll_that_divides_evenly_is_cut_evenly():
    assert cut_plan(36, 6) == [6] * 6
    assert cut_plan(20, 5) == [5] * 4


def test_one_or_two_frames_are_one_strip_and_none_are_no_strip():
    assert [cut_plan(n, 6) for n in (0, 1, 2, 3)] == [[], [1], [2], [3]]


def test_five_frames_in_fours_cannot_all_be_threes_and_are_three_and_two():
    assert cut_plan(5, 4) == [3, 2]
    assert cut_plan(7, 3) == [3, 2, 2]


def test_a_room_may_ask_for_longer_last_strips():
    assert cut_plan(38, 6, minimum=4) == [6, 6, 6, 6, 6, 4, 4]


@pytest.mark.parametrize(("frames", "per_strip"), [(-1, 6), (36, 0)])
def test_frames_that_cannot_be_are_refused(frames, per_strip):
    with pytest.raises(Refused, match="count the frames"):
        cut_plan(frames, per_strip)


def test_strips_bear_the_frames_of_the_roll_in_their_order():
    assert strips_of([6, 4, 3]) == (Strip(1, 6), Strip(7, 10), Strip(11, 13))


def test_39_frames_in_sixes_need_one_page_of_seven_and_leave_no_pocket_free():
    (sleeve,) = sleeves(39, page_named("7x6"), THE_135)
    assert (len(sleeve.strips), sleeve.free_pockets) == (7, 0)


def test_a_roll_of_24_in_sixes_leaves_two_pockets_of_six_free():
    (sleeve,) = sleeves(24, page_named("6x6"), THE_135)
    assert sleeve.free_pockets == 2


def test_smaller_frames_fill_the_same_pocket_with_more_of_them():
    page = page_named("4x3")
    frames = {name: page.frames_in_pocket(FORMATS[name]) for name in FORMATS if "120" in name}
    assert frames == {"120-6x4.5": 4, "120-6x6": 3, "120-6x7": 2, "120-6x9": 2}
    assert [len(s.strips) for s in sleeves(16, page, FORMATS["120-6x4.5"])] == [4]


def test_every_sheet_of_a_set_has_a_pocket_of_its_own():
    (sleeve,) = sleeves(3, page_named("2x2"), FORMATS["sheet-4x5"])
    assert sleeve.strips == (Strip(1, 1), Strip(2, 2), Strip(3, 3))
    assert sleeve.free_pockets == 1


@settings(max_examples=80, deadline=None)
@given(counts, st.sampled_from(PAGE_NAMES), st.sampled_from(sorted(FORMATS)))
def test_over_all_its_pages_a_roll_has_every_frame_once(frames, name, format_name):
    page, format_ = page_named(name), FORMATS[format_name]
    pages = sleeves(frames, page, format_)
    seen = [n for sleeve in pages for s in sleeve.strips for n in range(s.first, s.last + 1)]
    assert seen == list(range(1, frames + 1))
    assert [sleeve.number for sleeve in pages] == list(range(1, len(pages) + 1))
    assert all(sleeve.free_pockets == 0 for sleeve in pages[:-1])
    for sleeve in pages:
        assert len(sleeve.strips) + sleeve.free_pockets == page.pockets(format_)


def test_a_page_is_read_whatever_the_case_or_the_sign_between():
    assert page_named(" 7 X 5 ") == page_named("7×5") == page_named("7x5")
    assert page_named("10x4").strips == 10


@pytest.mark.parametrize("typed", ["", "7", "0x5", "99x5", "7x9", "7x5x2", "[/x]"])
def test_what_is_no_page_is_refused_with_pages_that_are(typed):
    with pytest.raises(Refused, match="write for instance 7x5, 6x6"):
        page_named(typed)
