"""Where a value comes to 0."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filmrack.domain.crossing import LONGEST, crossing, minutes_until


@given(
    st.floats(0, 600), st.sampled_from([0.05, 0.3, 1, 3, 9]), st.floats(0, 1), st.sampled_from("/_")
)
def test_a_crossing_is_found_whatever_the_value_looks_like(place, power, high, shape):
    looked = []

    def value(x):
        looked.append(x)
        if shape == "_":  # a step: nothing but its sign is known
            return high if x >= place else -0.5
        return math.copysign(abs(x - place) ** power, x - place)

    found = crossing(value, 0, 600, to=0.01)
    assert found is not None
    assert place - 1e-9 <= found <= place + 0.01 + 1e-9
    assert len(looked) <= 2 + 2 * math.log2(600 / 0.01)


def test_what_is_there_already_or_never_comes_is_no_crossing():
    assert crossing(lambda x: x + 1, 0, 600) == 0
    assert crossing(lambda x: x - 601, 0, 600) is None


@given(st.floats(0.1, 600))
def test_minutes_are_found_between_their_bounds_and_are_one_of_them_beyond(place):
    assert minutes_until(lambda x: x - place) == pytest.approx(place, rel=2e-6)
    least, most = place + 0.5, place + 1
    assert minutes_until(lambda x: x - place, least, most) == least
    assert minutes_until(lambda x: x - place - 2, least, most) == most
    assert minutes_until(lambda x: x - LONGEST - 1) == LONGEST
