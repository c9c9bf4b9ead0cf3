from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from filmrack.domain.default_room import default_room
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Period, short_period

ROOM = default_room("America/Chicago", date(2026, 11, 17))
BLOCKS = ROOM._replace(
    period_word="block",
    periods=(Period(1, "Block A"), Period(2, "Block B"), Period(3, "Club"), Period(4, "3")),
    former_periods=(Period(9, "Block Z"),),
)


@pytest.mark.parametrize(
    ("written", "number"),
    [
        ("Block B", 2),
        ("block  b", 2),
        ("b", 2),
        ("B ", 2),
        ("club", 3),
        ("2", 2),
        ("02", 2),
        ("3", 4),  # a name goes before a number
        ("Z", None),
        ("Block Z", None),
        ("9", None),
        ("²", None),
        ("block", None),
        ("", None),
    ],
)
def test_a_period_is_meant_by_name_without_its_word_or_by_number(written: str, number: int | None):
    found = BLOCKS.period_named(written)
    assert (None if found is None else found.number) == number


def test_the_word_period_is_understood_in_every_room():
    assert ROOM.period_named("period 3") == Period(3, "Period 3")
    assert BLOCKS.period_named("period b") == Period(2, "Block B")


def test_a_former_period_keeps_its_name_for_the_rolls_of_its_terms():
    assert BLOCKS.period(9) == Period(9, "Block Z")


def test_a_period_is_written_as_short_as_it_is_still_understood():
    assert [short_period(period, BLOCKS.periods, "block") for period in BLOCKS.periods] == [
        "A",
        "B",
        "Club",
        "3",
    ]
    puzzling = (Period(1, "Block 2"), Period(2, "2"))
    assert [short_period(period, puzzling, "block") for period in puzzling] == ["Block 2", "2"]


def test_headings_speak_of_periods_in_the_rooms_own_word():
    assert BLOCKS.in_its_words("Periods, boxes") == "Blocks, boxes"
    assert BLOCKS.in_its_words("add a period") == "add a block"
    assert ROOM.in_its_words("Periods, boxes") == "Periods, boxes"


NOON = datetime(2026, 11, 17, 18, 0, tzinfo=UTC)


def test_a_term_is_meant_by_its_code_and_without_one_by_the_time():
    assert ROOM.term_meant(None, NOON).code == "26F"
    assert ROOM.term_meant(" 26 f", NOON).code == "26F"
    assert ROOM.term_of("26f") == ROOM.terms[0]


@pytest.mark.parametrize(
    ("code", "moment", "why"),
    [
        (None, NOON.replace(year=2020), "no term has begun by 2020-11-17: open one"),
        ("25s", NOON, r"there is no term 25S \(this room has 26F\): open it"),
        ("spring", NOON, "“spring” is no term"),
    ],
)
def test_a_term_that_cannot_be_meant_is_refused(code: str | None, moment: datetime, why: str):
    with pytest.raises(Refused, match=why):
        ROOM.term_meant(code, moment)


def test_a_rod_that_is_not_there_is_refused_with_those_that_are():
    assert ROOM.rod_meant(ROOM.rods[0].number) == ROOM.rods[0]
    with pytest.raises(Refused, match="there is no rod 99: this room has the rods 1, 2"):
        ROOM.rod_meant(99)
