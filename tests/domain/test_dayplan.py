from __future__ import annotations

from datetime import UTC, time

import pytest

from filmrack.domain.dayplan import Slot, day_plan
from filmrack.domain.refusal import Refused


def test_a_day_plan_stands_in_the_order_of_the_day():
    second, first = Slot(2, time(9), time(9, 50)), Slot(1, time(8), time(8, 50))
    assert day_plan([second, first]) == (first, second)


def test_a_class_may_begin_in_the_minute_in_which_the_one_before_ends():
    assert len(day_plan([Slot(1, time(8), time(9)), Slot(2, time(9), time(10))])) == 2


def test_two_classes_at_once_in_one_room_are_refused_by_their_periods():
    with pytest.raises(Refused, match=r"^period 2 cannot start at 08:55 because period 1 ends"):
        day_plan([Slot(1, time(8), time(9)), Slot(2, time(8, 55), time(10))])


def test_a_period_that_ends_before_it_starts_is_refused():
    with pytest.raises(Refused, match=r"^period 3 cannot end at 10:00"):
        Slot(3, time(10), time(10))


def test_zero_hour_is_a_period_and_a_negative_one_is_none():
    assert Slot(0, time(7), time(7, 45)).period == 0
    with pytest.raises(Refused, match="count from 0"):
        Slot(-1, time(7), time(7, 45))


def test_a_time_on_the_wall_has_no_zone():
    with pytest.raises(Refused, match="clock on the wall"):
        Slot(1, time(7, tzinfo=UTC), time(8, tzinfo=UTC))
