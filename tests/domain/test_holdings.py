from __future__ import annotations

from datetime import timedelta

from filmrack.domain.holdings import holdings
from tests.domain.test_journey import NINE, tell


def test_a_roll_holds_its_clip_from_tank_to_sleeve_and_its_position_while_it_hangs():
    entries = tell("load", "hang", "flip", "box", "sleeve")
    had = {holding.kind: holding for holding in holdings(entries)}
    clip, position = had["clip"], had["position"]
    assert (clip.what, clip.since, clip.until) == (17, NINE, NINE + timedelta(minutes=4))
    assert position.what == (1, 4)
    assert (position.since, position.until) == (
        NINE + timedelta(minutes=1),
        NINE + timedelta(minutes=3),
    )
    assert position.entry.act == "hang"


def test_a_move_gives_up_one_position_for_another():
    places = [each for each in holdings(tell("load", "hang", "move")) if each.kind == "position"]
    assert [(each.what, each.until is None) for each in places] == [((1, 4), False), ((2, 1), True)]


def test_who_comes_as_the_other_leaves_is_not_in_its_way():
    (first,) = [h for h in holdings(tell("load", "hang", "box")) if h.kind == "position"]
    later = [entry._replace(roll=2) for entry in tell("load", "hang", "flip", since=1)]
    (second,) = [h for h in holdings(later) if h.kind == "position"]
    assert first.until == second.since
    assert not first.overlaps(second)
    assert not second.overlaps(first)


def test_two_rolls_at_one_position_at_once_are_in_each_others_way():
    (first,) = [h for h in holdings(tell("load", "hang")) if h.kind == "position"]
    later = [entry._replace(roll=2) for entry in tell("load", "hang", since=5)]
    (second,) = [h for h in holdings(later) if h.kind == "position"]
    assert first.overlaps(second)
    assert second.overlaps(first)
    assert not first.overlaps(first)
