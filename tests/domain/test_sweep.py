from __future__ import annotations

import pytest

from filmrack.domain.sweep import RodCount, accuracy


def test_a_rod_whose_count_is_wrong_wants_scanning():
    assert RodCount(3, 6, 5, 0, 0).wants_scanning
    assert not RodCount(3, 6, 6, 0, 0).wants_scanning
    assert not RodCount(3, 6, None, 0, 0).wants_scanning


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
