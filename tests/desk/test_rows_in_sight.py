"""Lists that do not fit: the row that is looked at is among those drawn, and none is kept back."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from filmrack.desk.rows_in_sight import in_sight, more_below
from filmrack.desk.themes import PALETTES


@given(
    many=st.integers(1, 60),
    at=st.integers(0, 59),
    first=st.integers(0, 70),
    height=st.integers(1, 30),
    above=st.integers(0, 3),
)
def test_the_selected_row_is_drawn_and_every_row_below_is_counted(
    many: int, at: int, first: int, height: int, above: int
) -> None:
    at = min(at, many - 1)
    sight = in_sight(first, at, many, height, above=above)
    assert 0 <= sight.first <= at < sight.end <= many
    assert sight.end - sight.first + bool(sight.below) <= height
    if height > 1:
        assert sight.below == many - sight.end
    again = in_sight(sight.first, at, many, height, above=above)
    assert again == sight, "what is in sight does not move by itself"


def test_a_narrow_list_says_only_how_many_more_there_are() -> None:
    assert more_below(12, 40, PALETTES["dim"]).plain.rstrip() == "↓ 12 more below, with the arrows"
    assert more_below(12, 16, PALETTES["dim"]).plain.rstrip() == "↓ 12 more below"
