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
FAN_ON = Dryers({1: [FanRun(NINE, NINE + timedelta(days=9))]}, {1: Learned(Posterior.prior())}, {})

LOAD = DETAILS["load"]


def roll_after(*acts: str | tuple[str, Detail]) -> Roll:
    roll = fold(tell(*acts))
    assert roll is not None
    return roll


def stands(roll: Roll, minutes: float = 10, dryers: Dryers = FAN_ON) -> Standing:
    return Standing(roll, ROOM, dryers, NINE + timedelta(minutes=minutes))


def why(roll: Roll, minutes: float = 10) -> list[str]:
    return [reason for reason, _ in stands(roll, minutes).why]


def test_film_is_named_when_a_flip_is_due_it_is_nobodys_it_is_missing_or_in_a_wrong_place():
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
