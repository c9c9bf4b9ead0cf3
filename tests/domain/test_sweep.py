from __future__ import annotations

from collections.abc import Iterable

import pytest

from filmrack.domain.sweep import OpenCount, RodCount, accuracy, not_seen


def test_a_count_is_wrong_where_another_number_should_hang():
    assert RodCount(3, 6, 5, 0, 0).wrong
    assert not RodCount(3, 6, 6, 0, 0).wrong
    assert not RodCount(3, 6, None, 0, 0).wrong


def test_the_accuracy_of_a_record_is_matches_by_records_counted():
    # Inventory record accuracy: 485 matches of 500 records counted are 97 %.
    assert accuracy([RodCount(1, 300, None, 290, 0), RodCount(2, 200, None, 195, 0)]) == 0.97


def test_one_extra_and_one_missing_are_two_errors():
    assert accuracy([RodCount(1, 10, None, 9, 1)]) == pytest.approx(9 / 11)


def test_what_was_scanned_and_hangs_on_matches_too():
    assert accuracy([RodCount(1, 4, None, 1, 0, seen=3)]) == 1


def test_nothing_counted_has_no_accuracy():
    assert accuracy([]) is None


def test_a_rod_was_looked_through_when_it_was_scanned_or_found_empty():
    assert RodCount(3, 6, None, 1, 0).looked_through
    assert RodCount(3, 6, 5, 4, 0).looked_through
    assert RodCount(3, 6, 0, 0, 0).looked_through


def test_a_rod_that_was_only_counted_was_not_looked_through():
    assert not RodCount(3, 6, 6, 6, 0).looked_through
    assert not RodCount(3, 6, 5, 0, 0).looked_through


def test_a_stray_alone_does_not_tell_that_a_rod_was_looked_through():
    assert not RodCount(3, 6, None, 0, 1).looked_through
    assert not RodCount(3, 6, 5, 0, 1).looked_through
    assert RodCount(3, 6, 1, 0, 1).looked_through


def test_a_rod_is_through_when_as_many_of_its_own_as_were_counted_are_found_or_hang_on():
    count = RodCount(3, 6, 5, 3, 2)
    assert not count.through(found=3, kept=1, unseen=2)
    assert count.through(found=3, kept=2, unseen=1)
    assert count.through(found=3, kept=0, unseen=0)
    assert not RodCount(3, 6, None, 3, 0).through(found=3, kept=0, unseen=3)


def test_a_rod_is_not_through_because_a_hand_said_so_before_any_of_it_was_scanned():
    assert not RodCount(3, 6, 5, 0, 0, left=True).through(found=0, kept=0, unseen=6)
    assert RodCount(3, 6, 5, 1, 0, left=True).through(found=1, kept=0, unseen=5)


def test_a_rod_on_which_more_was_counted_than_is_known_waits_for_what_strayed_there():
    assert not RodCount(3, 0, 1, 0, 0).through(found=0, kept=0, unseen=0)
    assert not RodCount(3, 6, 7, 6, 0).through(found=6, kept=0, unseen=0)
    assert RodCount(3, 0, 1, 0, 1).through(found=0, kept=0, unseen=0)
    assert RodCount(3, 6, 7, 6, 0, left=True).through(found=6, kept=0, unseen=0)


def test_a_count_that_nobody_explains_says_how_many_are_not_there_and_names_none():
    one, two = OpenCount(7, 6, 5, off=1), OpenCount(7, 6, 4, off=2)
    assert one.told == "Rod 7: 5 of 6 counted, nobody said which is not there"
    assert two.told == "Rod 7: 4 of 6 counted, nobody said which 2 are not there"
    asked = "Rod 7: 5 counted, 6 should hang: which is not there? “rod 7” goes back"
    assert one.asked == asked


def test_of_a_count_that_is_explained_in_part_the_others_are_asked_for():
    assert OpenCount(7, 6, 4, off=1).told.endswith("nobody said which other is not there")


def test_more_than_should_hang_are_said_to_be_on_no_list():
    told = "Rod 7: 8 counted, 6 should hang, nobody said which 2 are too many"
    assert OpenCount(7, 6, 8, off=-2).told == told


def test_as_many_are_counted_as_are_listed_less_those_missing_with_those_that_strayed_there():
    assert RodCount(3, 6, 6, 0, 0).off(hanging=6) == 0
    one_strayed_there = RodCount(3, 6, 7, 0, 1)
    assert one_strayed_there.off(hanging=6) == 0
    one_missing = RodCount(3, 6, 5, 0, 0)
    assert (one_missing.off(hanging=6), one_missing.off(hanging=5)) == (1, 0)
    one_of_each = RodCount(3, 6, 6, 2, 1)
    assert (one_of_each.off(hanging=4), one_of_each.off(hanging=3)) == (1, 0)
    assert RodCount(3, 6, 9, 0, 1).off(hanging=6) == -2
    assert RodCount(3, 6, None, 2, 1).off(hanging=4) == 0


def test_a_count_behind_scans_is_right_where_all_that_was_listed_still_was_counted():
    assert RodCount(3, 6, 7, 0, 1, agreed=True).right
    assert RodCount(3, 6, 6, 0, 1, agreed=False).wrong  # five of six, and one that strayed there


SCANNED = RodCount(3, 4, None, 1, 0)


def counted(number: int, **more: int) -> RodCount:
    """Return a rod of four that was counted, and then looked through."""
    return RodCount(3, 4, number, 1, 0)._replace(**more)


# Rolls 1 to 3 still hang on rod 3; a fourth was found and went to its box.
@pytest.mark.parametrize(
    ("count", "seen", "felt", "dry", "missing", "wet", "passed_over"),
    [
        pytest.param(SCANNED, {1, 2, 3}, (), {1, 2, 3}, [], [], [], id="a hand had each of them"),
        pytest.param(SCANNED, {1}, (), {3}, [], [2], [3], id="dry beside wet, nobody counted"),
        pytest.param(SCANNED, {1}, (), (), [], [2, 3], [], id="what is wet hangs on"),
        pytest.param(SCANNED, (), (), {1, 2, 3}, [1, 2, 3], [], [], id="all dry and none found"),
        pytest.param(counted(4), {1}, (), {2, 3}, [], [], [2, 3], id="a count of all that hang"),
        pytest.param(counted(5), {1}, (), {2, 3}, [], [], [2, 3], id="a count of more"),
        pytest.param(counted(4, extra=1), {1}, (), {2, 3}, [2, 3], [], [], id="one is a stray"),
        pytest.param(counted(3), {1}, (), {2, 3}, [2, 3], [], [], id="one of two is gone"),
        pytest.param(counted(3), {1}, (), {3}, [3], [2], [], id="what is gone was dry"),
        pytest.param(counted(3), {1}, (), (), [2, 3], [], [], id="what is gone was wet"),
        pytest.param(counted(2), {1}, (), {3}, [2, 3], [], [], id="wet and dry are gone"),
        pytest.param(counted(3), {1}, {2}, {2, 3}, [3], [], [], id="a finger felt it just before"),
        pytest.param(counted(2), {1}, {2}, {2, 3}, [2, 3], [], [], id="but the count has no room"),
        pytest.param(SCANNED, (), {2}, {1, 3}, [], [], [1, 3], id="felt, and nobody counted"),
    ],
)
def test_what_no_hand_had_is_missing_hangs_on_wet_or_was_passed_over(
    count: RodCount,
    seen: Iterable[int],
    felt: Iterable[int],
    dry: Iterable[int],
    missing: list[int],
    wet: list[int],
    passed_over: list[int],
):
    is_dry = set(dry).__contains__
    judged = not_seen(count, [1, 2, 3], hung=3, seen=set(seen), felt=set(felt), is_dry=is_dry)
    assert judged == (missing, wet, passed_over)
