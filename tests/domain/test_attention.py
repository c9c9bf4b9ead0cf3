"""How rolls stand in the default room: periods at 08:00 and 08:56, a rod and a box each."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from filmrack.domain.attention import URGENCY, Dryers, Standing
from filmrack.domain.default_room import default_room
from filmrack.domain.dryer import FanRun
from filmrack.domain.journey import fold
from filmrack.domain.learning import Learned
from filmrack.domain.loans import overdue
from filmrack.domain.posterior import Posterior
from filmrack.domain.roll import Detail, Roll
from filmrack.domain.room import Rod
from tests.domain.test_journey import DETAILS, NINE, tell

ROOM = default_room("UTC", date(2026, 11, 17), periods=2, positions=3)
ROOM = ROOM._replace(rods=(*ROOM.rods, Rod(3, 1, 2, None)))
TOUCH_IT = "probably dry: touch both ends, edge only, clean dry finger"
FAN_ON = Dryers({1: [FanRun(NINE, NINE + timedelta(days=9))]}, {1: Learned(Posterior.prior())}, {})

LOAD = DETAILS["load"]


def roll_after(*acts: str | tuple[str, Detail]) -> Roll:
    roll = fold(tell(*acts))
    assert roll is not None
    return roll


def stands(roll: Roll, minutes: float = 10, dryers: Dryers = FAN_ON) -> Standing:
    return Standing(roll, ROOM, dryers, NINE + timedelta(minutes=minutes))


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
    assert seen.next.words == "wait: only another touch tells, or a night on the rod"


def why(roll: Roll, minutes: float = 10) -> list[str]:
    return [reason for reason, _ in stands(roll, minutes).why]


def test_reasons_for_attention():
    unknown: Detail = {**LOAD, "person": None}
    assert why(roll_after("load", "hang"), 2) == []
    assert why(roll_after("load", "hang"), 7) == ["flip due"]
    assert why(roll_after(("load", unknown), "hang"), 7) == ["flip due", "unknown roll"]
    assert why(roll_after("load", "hang", "missing")) == ["missing"]
    assert why(roll_after("load", "hang", ("box", {"box": 2}))) == ["in the wrong box"]
    assert why(roll_after("load", "hang", ("box", {"box": 1}))) == []
    assert why(roll_after("load", ("hang", {"rod": 2, "position": 1})), 2) == ["on the wrong rod"]
    assert why(roll_after("load", ("hang", {"rod": 3, "position": 1})), 2) == []


def test_a_rod_to_which_filmrack_sent_it_is_not_the_wrong_one():
    sent: Detail = {"rod": 2, "position": 1, "sent": True}
    assert why(roll_after("load", ("hang", sent)), 2) == []


def test_film_that_still_hangs_when_the_school_day_is_over_is_left_behind():
    # The second and last period of this room ends at 09:46.
    roll = roll_after("load", "hang", "flip")
    assert not stands(roll, 45).left_behind
    assert stands(roll, 46).left_behind
    assert "left behind" in why(roll, 46)


@pytest.mark.parametrize(
    ("acts", "days", "reason"),
    [
        # Tuesday the 17th; the room names a box after 5 school days, a sleeve after 10.
        (["load", "hang", "box"], 7, None),
        (["load", "hang", "box"], 8, "long in its box"),
        (["load", "hang", "take"], 8, "long with its owner"),
        (["load", "hang", "sleeve"], 14, None),
        (["load", "hang", "sleeve"], 15, "no contact sheet yet"),
        (["load", "hang", "sleeve", "contact"], 15, None),
        (["load", "hang", "sleeve", "lend"], 14, None),
        (["load", "hang", "sleeve", "lend"], 15, "loan overdue"),
    ],
)
def test_what_lies_too_long_is_named(acts: list[str], days: int, reason: str | None):
    assert why(roll_after(*acts), days * 24 * 60) == ([] if reason is None else [reason])


def test_a_loan_is_overdue_from_the_day_after_its_date_in_the_rooms_zone():
    chicago = default_room("America/Chicago", date(2026, 11, 17))
    roll = roll_after("load", "hang", "sleeve", "lend")
    assert not overdue(roll, chicago, datetime(2026, 12, 2, 5, 59, tzinfo=UTC))
    assert overdue(roll, chicago, datetime(2026, 12, 2, 6, 0, tzinfo=UTC))


def test_the_most_urgent_reason_comes_first():
    roll = roll_after(("load", {**LOAD, "person": None}), ("hang", {"rod": 2, "position": 1}))
    reasons = why(roll, 50)
    assert sorted(reasons, key=URGENCY.index) == reasons
    assert reasons == ["left behind", "on the wrong rod", "unknown roll"]
