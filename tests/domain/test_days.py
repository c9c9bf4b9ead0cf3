"""Days as they are typed, against the calendar of 2026 (Tuesday 17 November; RFC 3339 dates)."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filmrack.domain.clock import day_words, whole_day
from filmrack.domain.days import ends_in_a_day, read_day, refuse_just_past
from filmrack.domain.refusal import Refused

TUESDAY = date(2026, 11, 17)


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("4 dec", date(2026, 12, 4)),
        ("dec 4", date(2026, 12, 4)),
        ("Dec. 4th,", date(2026, 12, 4)),
        ("4. december", date(2026, 12, 4)),
        ("december 4 2027", date(2027, 12, 4)),
        ("4 dec 2026", date(2026, 12, 4)),
        ("2026-12-04", date(2026, 12, 4)),
        ("fri 4 dec", date(2026, 12, 4)),
        ("Friday, 4 December 2026", date(2026, 12, 4)),
        ("17 nov", TUESDAY),
        ("16 nov", date(2027, 11, 16)),
        ("29 feb", date(2028, 2, 29)),
        ("friday", date(2026, 11, 20)),
        ("Fri", date(2026, 11, 20)),
        ("tuesday", date(2026, 11, 24)),
        ("today", TUESDAY),
        ("tomorrow", date(2026, 11, 18)),
    ],
)
def test_a_day_is_read_as_it_is_said(typed: str, day: date) -> None:
    assert read_day(typed, TUESDAY) == day


@pytest.mark.parametrize(
    "typed",
    ["", "soon", "30 feb", "32 dec", "4/12", "20.11.2026", "fr", "4 de", "dec", "4", "thu 4 dec"],
)
def test_what_is_no_day_or_can_be_two_is_refused(typed: str) -> None:
    with pytest.raises(Refused, match="4 dec, friday or 2026-12-04"):
        read_day(typed, TUESDAY)


def test_a_weekday_that_does_not_fit_may_be_a_name() -> None:
    assert ends_in_a_day(["ms", "sun", "4", "dec"], TUESDAY) == 2
    assert ends_in_a_day(["mara", "fri", "4", "dec"], TUESDAY) == 3
    assert ends_in_a_day(["mara", "Fri", "4", "Dec", "2026"], TUESDAY) == 4


def test_next_friday_can_be_two_days() -> None:
    with pytest.raises(Refused, match="two days"):
        ends_in_a_day(["novak", "next", "friday"], TUESDAY)


@given(st.dates(date(2026, 11, 17), date(2027, 11, 16)))
def test_every_day_of_the_coming_year_is_read_back_from_its_words(day: date) -> None:
    assert read_day(day_words(day, TUESDAY), TUESDAY) == day
    assert read_day(whole_day(day), TUESDAY) == day


@given(st.dates(TUESDAY, date(2040, 1, 1)))
def test_a_weekday_is_the_one_within_a_week(day: date) -> None:
    named = read_day(f"{day:%A}", TUESDAY)
    assert named.weekday() == day.weekday()
    assert timedelta(0) < named - TUESDAY <= timedelta(days=7)


@pytest.mark.parametrize("typed", ["16 nov", "mon 16 nov", "nov 1", "20 aug"])
def test_a_day_that_is_only_weeks_past_is_not_silently_next_years(typed: str) -> None:
    with pytest.raises(
        Refused, match=r"is past, for it was .* 2026: type another day, or its year"
    ):
        refuse_just_past(typed, read_day(typed.removeprefix("mon "), TUESDAY), TUESDAY)


@pytest.mark.parametrize(
    "typed", ["17 nov", "4 dec", "1 jun", "15 aug", "friday", "16 nov 2027", "2027-11-16", "29 feb"]
)
def test_a_coming_day_a_day_long_past_and_one_with_its_year_are_meant(typed: str) -> None:
    refuse_just_past(typed, read_day(typed, TUESDAY), TUESDAY)
