"""Day plans as people type them."""

from __future__ import annotations

import pytest

from filmrack.domain.refusal import Refused
from filmrack.domain.roomplans import plan_shown, plan_typed

MONDAY = ["1 08:00-08:50", "2 08:56-09:46", "Block C 12:30-13:20"]
PLANS = {"mon": MONDAY, "Early": ["1 08:00-08:30"]}


def test_classes_are_typed_with_their_times_and_lunch_is_the_gap():
    typed = "1 8:00-8:50, 2 8.56 - 9.46, lunch 11:30–12:20, Block C 12:30-13:20"
    assert plan_typed(typed, (), PLANS) == MONDAY
    assert plan_shown(MONDAY).startswith("1 08:00-08:50, 2 08:56-09:46 (free 09:46-12:30) Block C")


def test_commas_may_be_left_out():
    assert plan_typed("1 8:00-8:50 2 8:56-9:46 Block C 12:30-13:20", (), {}) == MONDAY


def test_periods_alone_come_at_the_times_there_are():
    assert plan_typed("2 1", MONDAY, {}) == ["2 08:00-08:50", "1 08:56-09:46"]
    assert plan_typed("Block C, 1, 2", (), PLANS)[0] == "Block C 08:00-08:50"


def test_another_plan_is_taken_by_its_name_and_none_is_nobody():
    assert plan_typed("early", MONDAY, PLANS) == PLANS["Early"]
    assert plan_typed("none", MONDAY, PLANS) == []
    assert plan_shown([]) == "nobody"


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        ("1 8:00-8:50, lunch 8:30-9:00", "lunch from 08:30 to 09:00 falls into 1"),
        ("1 2 3 4", "times for 3 classes, not for 4"),
        ("8:00-8:50", "is no class"),
        ("1 8:00 to 8:50", "is no class"),
    ],
)
def test_what_is_no_plan_is_refused_in_words(typed: str, why: str):
    with pytest.raises(Refused, match=why):
        plan_typed(typed, MONDAY, PLANS)


def test_a_plan_without_times_wants_them():
    with pytest.raises(Refused, match="no times yet"):
        plan_typed("1 2", (), {})
