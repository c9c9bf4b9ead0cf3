"""What a sweep boxes: by a right count, and by scans, whatever the record says."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from filmrack.acts import closing, lending, undoing
from filmrack.acts.fetching import box
from filmrack.acts.hanging import hang
from filmrack.acts.scans import Scan, read_scans
from filmrack.acts.sweeping import sweep
from filmrack.acts.terms import open_term
from filmrack.domain.codes import box_code, clip_code, rod_code
from filmrack.domain.refusal import Refused
from filmrack.store import checking, rolls
from tests.acts.conftest import places
from tests.conftest import OLU, School, longer_rods


def test_a_rod_whose_count_is_right_is_boxed_each_roll_in_its_own_box(
    school: School, hung: list[int]
):
    swept = sweep(school.file, school.hand(), counts={2: 3})
    assert swept.boxed == hung[1:]
    assert places(school, hung) == ["rod 1, position 1", "box 2", "box 2", "box 1"]
    assert not any(school.roll(number).checks for number in hung)


def test_what_hangs_on_behind_scans_is_counted_with_them(school: School, hung: list[int]):
    longer_rods(school, 10)
    wet = hang(school.file, school.hand(), person=OLU, clip=9, rod=2).roll.id
    scans = read_scans(school.file, [rod_code(2), *(clip_code(clip, "A") for clip in (2, 3, 4))])
    sweep(school.file, school.hand(), scans=scans)
    swept = sweep(school.file, school.hand(), counts={2: 1}, finish=True)
    assert (swept.hangs_on, swept.missing, swept.open) == ([wet], [], ())
    assert swept.rods[2].right


def test_a_wrong_count_boxes_nothing_until_the_rolls_are_scanned(school: School, hung: list[int]):
    swept = sweep(school.file, school.hand(), counts={2: 2})
    assert (swept.boxed, swept.rods[2].wrong) == ([], True)
    scans = read_scans(school.file, [rod_code(2), clip_code(2, "A"), clip_code(4, "B")])
    sweep(school.file, school.hand(), scans=scans)
    finished = sweep(school.file, school.hand(), finish=True)
    assert finished.missing == [hung[2]]
    assert places(school, hung) == ["rod 1, position 1", "box 2", "missing", "box 1"]


def test_what_hangs_on_another_rod_is_found_in_the_wrong_place(school: School, hung: list[int]):
    swept = sweep(school.file, school.hand(), scans=[Scan(hung[0], rod=2)])
    assert (swept.wrong_place, swept.boxed) == ([hung[0]], [hung[0]])
    assert (swept.rods[2].matched, swept.rods[2].extra) == (0, 1)
    assert places(school, hung[:1]) == ["box 1"]


def test_a_clip_that_no_roll_is_on_is_one_unknown_roll_for_both_its_tags(
    school: School, hung: list[int]
):
    lines = [rod_code(2), clip_code(40, "A"), clip_code(40, "B")]
    swept = sweep(school.file, school.hand(), scans=read_scans(school.file, lines))
    (unknown,) = swept.unknown
    roll = school.roll(unknown)
    assert (roll.person, roll.period, roll.clip, str(roll.place)) == (None, 2, 40, "box 2")
    assert "load" in roll.assumed
    assert checking.problems(school.file) == []


def test_both_tags_of_a_known_roll_are_one_find(school: School, hung: list[int]):
    swept = sweep(school.file, school.hand(), scans=[Scan(hung[1]), Scan(hung[1])])
    assert swept.boxed == [hung[1]]
    assert swept.rods[2].matched == 1


def test_a_box_scanned_first_says_where_the_rolls_went(school: School, hung: list[int]):
    lines = [box_code(2), clip_code(1, "A")]
    sweep(school.file, school.hand(), scans=read_scans(school.file, lines))
    assert places(school, hung[:1]) == ["box 2"]


def test_a_roll_found_in_a_box_says_nothing_of_the_rod_it_should_hang_on(
    school: School, hung: list[int]
):
    sweep(school.file, school.hand(), scans=[Scan(hung[1], box=2)])
    assert sweep(school.file, school.hand(), finish=True).missing == []
    assert places(school, hung[2:]) == ["rod 2, position 2", "rod 2, position 3"]


def test_a_roll_that_is_in_its_box_already_is_as_recorded(school: School, hung: list[int]):
    box(school.file, school.hand(), [hung[0]])
    swept = sweep(school.file, school.hand(), scans=[Scan(hung[0], box=1)])
    assert swept.wrong_place == []


@pytest.mark.parametrize(
    ("counts", "why"),
    [({9: 1}, "there is no rod 9"), ({2: -1}, "nobody can count -1"), ({2: 1000}, "count 1000")],
)
def test_a_count_that_cannot_be_is_refused_and_nothing_is_done(
    school: School, hung: list[int], counts: dict[int, int], why: str
):
    before = school.dump()
    with pytest.raises(Refused, match=why):
        sweep(school.file, school.hand(), counts={1: 1, **counts})
    assert school.dump() == before


@pytest.mark.parametrize(
    "line", ["https://example.org", "C017A71", "mara", "R26F999999", "XFLIP51"]
)
def test_a_scan_that_is_none_names_its_line(school: School, hung: list[int], line: str):
    with pytest.raises(Refused, match=r"^line 3: "):
        read_scans(school.file, ["rod 2", "", line])


def test_the_other_tag_of_a_clip_is_no_second_find_in_a_later_step(school: School, hung: list[int]):
    sweep(school.file, school.hand(), scans=[Scan(hung[1])])
    again = sweep(school.file, school.hand(), scans=[Scan(hung[1])])
    assert (again.boxed, again.wrong_place) == ([], [])
    assert (again.rods[2].matched, again.rods[2].extra) == (1, 0)


@pytest.fixture
def next_term(school: School, hung: list[int]) -> School:
    """The term of the rolls that hang is closed, and the next one runs."""
    closing.close_term(school.file, school.hand(), "26F", "film hangs over the holidays")
    open_term(school.file, school.hand(), "27S")
    school.now = datetime(2027, 1, 12, 16, 0, tzinfo=UTC)
    return school


def test_film_of_a_closed_term_goes_to_its_box_with_the_others_and_is_named(
    next_term: School, hung: list[int]
):
    fresh = hang(next_term.file, next_term.hand(), person=OLU, clip=9, rod=1).roll.id
    swept = sweep(next_term.file, next_term.hand(), counts={1: 2}, not_dry_too=True)
    assert (swept.boxed, swept.closed_term) == ([hung[0], fresh], hung[:1])
    assert places(next_term, [hung[0], fresh])[0] == "box 1"
    assert checking.problems(next_term.file) == []


def test_film_of_a_closed_term_that_nobody_saw_is_missing_like_any_other(
    next_term: School, hung: list[int]
):
    finished = sweep(next_term.file, next_term.hand(), counts={2: 0}, finish=True)
    assert finished.missing == hung[1:]
    assert checking.problems(next_term.file) == []


def test_a_sweep_of_film_of_a_closed_term_is_taken_back_and_nothing_else_changes_it(
    next_term: School, hung: list[int]
):
    sweep(next_term.file, next_term.hand(), counts={2: 3})
    undoing.undo(next_term.file, next_term.hand())
    assert places(next_term, hung[1:2]) == ["rod 2, position 1"]
    with pytest.raises(Refused, match="26F is closed: reopen it"):
        box(next_term.file, next_term.hand(), hung[:1])
    with pytest.raises(Refused, match="26F is closed: reopen it"):
        lending.missing(next_term.file, next_term.hand(), hung[:1])


def test_a_counted_roll_without_a_box_of_its_own_hangs_on_and_the_others_are_boxed(
    school: School, hung: list[int]
):
    hang(school.file, school.hand(), person=OLU, clip=8, rod=3)
    school.now = datetime(2026, 11, 18, 3, 0, tzinfo=UTC)  # no class is on
    nobodys = hang(school.file, school.hand(), clip=40, rod=3).roll
    assert nobodys.period is None
    swept = sweep(school.file, school.hand(), counts={3: 2}, not_dry_too=True)
    assert swept.no_box == [nobodys.id]
    assert [str(roll.place) for roll in rolls.by_ids(school.file.conn, swept.boxed)] == ["box 2"]
    assert places(school, [nobodys.id]) == ["rod 3, position 2"]
    sweep(school.file, school.hand(), scans=[Scan(nobodys.id, box=1)], finish=True)
    assert places(school, [nobodys.id]) == ["box 1"]


def test_an_unknown_roll_gets_no_number_while_no_term_is_open_and_the_others_are_boxed(
    school: School, hung: list[int]
):
    closing.close_term(school.file, school.hand(), "26F", "film hangs over the holidays")
    lines = [rod_code(2), clip_code(40, "A"), clip_code(40, "B"), clip_code(2, "A")]
    swept = sweep(school.file, school.hand(), scans=read_scans(school.file, lines))
    assert (swept.no_term, swept.unknown, swept.boxed) == ([40], [], [hung[1]])
    assert checking.problems(school.file) == []
