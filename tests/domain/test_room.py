from __future__ import annotations

from datetime import date

import pytest

from filmrack.domain.default_room import default_room
from filmrack.domain.room import Period, short_name

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
    assert [short_name(period, BLOCKS.periods, "block") for period in BLOCKS.periods] == [
        "A",
        "B",
        "Club",
        "3",
    ]
    puzzling = (Period(1, "Block 2"), Period(2, "2"))
    assert [short_name(period, puzzling, "block") for period in puzzling] == ["Block 2", "2"]


def test_headings_speak_of_periods_in_the_rooms_own_word():
    assert BLOCKS.in_its_words("Periods, boxes") == "Blocks, boxes"
    assert BLOCKS.in_its_words("add a period") == "add a block"
    assert ROOM.in_its_words("Periods, boxes") == "Periods, boxes"
