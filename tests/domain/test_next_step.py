"""The next step of a roll in the default room, wherever it is and whatever was done to it."""

from __future__ import annotations

from datetime import timedelta

import pytest

from filmrack.domain.attention import Dryers
from filmrack.domain.dryer import FanRun
from filmrack.domain.journey import fold
from tests.domain.test_attention import FAN_ON, roll_after, stands
from tests.domain.test_journey import NINE, tell

TOUCH_IT = "probably dry: touch both ends, edge only, clean dry finger"


@pytest.mark.parametrize(
    ("acts", "minutes", "words"),
    [
        (["load"], 1, "hang on rod 1"),
        (["load", "hang"], 2, "wait, flip at 09:06"),
        (["load", "hang"], 7, "flip it now, end for end"),
        (["load", "hang", "flip"], 20, TOUCH_IT),
        # A dryer that has taught nothing says "dry" after 40 fan minutes; it was hung at 09:01.
        (["load", "hang", "flip"], 40, TOUCH_IT),
        (["load", "hang", "flip"], 42, "to box 1, or with its owner"),
        (["load", "hang", ("touch", {"dry": True})], 3, "to box 1, or with its owner"),
        (["load", "hang", "box"], 10, "cut and sleeve"),
        (["load", "hang", "take"], 10, "cut and sleeve"),
        (["load", "hang", "sleeve"], 10, "make its contact sheet"),
        (["load", "hang", "sleeve", "file"], 10, "make its contact sheet"),
        (["load", "hang", "sleeve", "contact"], 10, "file in its binder"),
        (["load", "hang", "sleeve", "contact", "file"], 10, "nothing more to do"),
        (["load", "hang", "sleeve", "lend"], 10, "due on Tue 1 Dec"),
        (["load", "hang", "missing"], 10, "look for it: last seen 09:01, rod 1, position 4"),
        (["load", "hang", "sleeve", "release"], 10, "nothing more to do"),
    ],
)
def test_every_roll_has_one_next_step(acts: list[str], minutes: float, words: str):
    step = stands(roll_after(*acts), minutes).next
    assert step.words == words


def test_film_that_the_fan_leaves_wet_asks_for_the_dial():
    short = Dryers({1: [FanRun(NINE, NINE + timedelta(minutes=4))]}, FAN_ON.learned, {})
    seen = stands(roll_after("load", "hang", "flip"), 5, short)
    assert seen.next.act == "fan"


def test_a_roll_found_tacky_when_none_could_be_waits_for_a_touch_or_the_night_not_the_dial():
    entries = tell("load", "hang", "flip")
    entries += tell(("touch", {"dry": False}), since=60 * 48)
    roll = fold(entries)
    assert roll is not None
    seen = stands(roll, 60 * 48 + 5)
    assert (seen.state, seen.next.act) == ("wet", None)
    assert seen.next.words == "touch it again later, or leave it on the rod overnight"
