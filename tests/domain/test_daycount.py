from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.daycount import DayCount, open_runs

ORIGIN = date(2026, 1, 1)

near = st.integers(0, 80)
stretches = st.lists(st.tuples(near, st.integers(0, 20)), max_size=5)


def dates(stretch: tuple[int, int]) -> tuple[date, date]:
    first, length = stretch
    return ORIGIN + timedelta(days=first), ORIGIN + timedelta(days=first + length)


@settings(max_examples=80, deadline=None)
@given(stretches, stretches)
def test_a_day_is_open_when_it_lies_in_an_open_stretch_and_in_no_shut_one(open_, shut):
    opened, closed = [dates(stretch) for stretch in open_], [dates(stretch) for stretch in shut]
    runs = open_runs(opened, closed)
    assert list(runs) == sorted(runs)
    assert all(one[1] < other[0] for one, other in pairwise(runs))
    for n in range(-5, 110):
        day = ORIGIN + timedelta(days=n)
        wanted = (not opened or any(first <= day <= last for first, last in opened)) and not any(
            first <= day <= last for first, last in closed
        )
        assert any(first <= day.toordinal() <= last for first, last in runs) == wanted


def test_a_year_of_weekdays_is_counted_as_the_calendar_counts_it():
    # 2026 has 261 days from Monday to Friday: 365 days that begin on a Thursday (ISO 8601).
    weekdays = DayCount((0, 1, 2, 3, 4), open_runs([], []))
    assert ORIGIN.isoweekday() == 4
    assert weekdays.before(date(2027, 1, 1)) - weekdays.before(ORIGIN) == 261
