from __future__ import annotations

import pytest

from filmrack.domain.sweep import OpenCount, RodCount, accuracy


def test_a_count_is_wrong_where_another_number_should_hang():
    assert RodCount(3, 6, 5, 0, 0).wrong
    assert not RodCount(3, 6, 6, 0, 0).wrong
    assert not RodCount(3, 6, None, 0, 0).wrong


def test_the_accuracy_of_a_record_is_matches_by_records_counted():
    # Inventory record accuracy: 485 matches of 500 records counted are 97 %.
    assert accuracy([RodCount(1, 300, None, 290, 0), RodCount(2, 200, None, 195, 0)]) == 0.97


def test_one_extra_and_one_missing_are_two_errors():
    assert accuracy([RodCount(1, 10, None, 9, 1)]) == pytest.approx(9 / 11)


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
