"""Loans as a line says them, on Tuesday 17 November 2026."""

from __future__ import annotations

from datetime import date

import pytest

from filmrack.domain.loans import LoanLine, loan_line
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import DayOff, SchoolDays

TUESDAY = date(2026, 11, 17)
FOURTH = date(2026, 12, 4)
SCHOOL = SchoolDays(days_off=(DayOff("Day off", date(2026, 11, 20), date(2026, 11, 20)),))


@pytest.mark.parametrize(
    ("typed", "who", "until"),
    [
        ("Ms Novak 4 dec", "Ms Novak", FOURTH),
        ("to Ms Novak until dec 4", "Ms Novak", FOURTH),
        ("Ms Novak by 2026-12-04", "Ms Novak", FOURTH),
        ("ms novak friday", "ms novak", date(2026, 11, 20)),
        ("Ms May 4 dec", "Ms May", FOURTH),
        ("mara", "mara", None),
        ("4 dec", "", FOURTH),
        ("", "", None),
    ],
)
def test_a_line_says_who_borrows_and_until_when(typed: str, who: str, until: date | None) -> None:
    assert loan_line(typed, TUESDAY, SCHOOL) == LoanLine(who, until)


@pytest.mark.parametrize(
    ("typed", "until"),
    [
        ("a week", date(2026, 11, 24)),
        ("1 week", date(2026, 11, 24)),
        ("for one week", date(2026, 11, 24)),
        ("7 days", date(2026, 11, 24)),
        ("two weeks", date(2026, 12, 1)),
        ("2wks", date(2026, 12, 1)),
        ("for a fortnight", date(2026, 12, 1)),
        ("until 2 weeks", date(2026, 12, 1)),
        ("a month", date(2026, 12, 17)),
        ("a day", date(2026, 11, 18)),
        ("2 school days", date(2026, 11, 19)),
        ("2 schooldays", date(2026, 11, 19)),
        ("for 3 school days", date(2026, 11, 23)),  # Friday is a day off
        ("until tue", date(2026, 11, 24)),
        ("on friday", date(2026, 11, 20)),
        ("back on tomorrow", date(2026, 11, 18)),
    ],
)
def test_a_line_says_for_how_long(typed: str, until: date) -> None:
    assert loan_line(f"Ms Novak {typed}", TUESDAY, SCHOOL) == LoanLine("Ms Novak", until)


@pytest.mark.parametrize(
    ("today", "until"),
    [
        (date(2026, 11, 30), date(2026, 12, 30)),
        (date(2026, 12, 31), date(2027, 1, 31)),
        (date(2027, 1, 31), date(2027, 2, 28)),
    ],
)
def test_a_month_ends_on_the_same_day_or_the_last_one(today: date, until: date) -> None:
    assert loan_line("mara a month", today, SCHOOL) == LoanLine("mara", until)


@pytest.mark.parametrize("typed", ["“Ms Novak” a week", "'Ms Novak' for 7 days"])
def test_a_length_stands_behind_quotes_and_is_a_name_within_them(typed: str) -> None:
    assert loan_line(typed, TUESDAY, SCHOOL) == LoanLine("Ms Novak", date(2026, 11, 24), True)
    assert loan_line("“Book Week”", TUESDAY, SCHOOL) == LoanLine("Book Week", None, True)
    assert loan_line("“half a week”", TUESDAY, SCHOOL) == LoanLine("half a week", None, True)


@pytest.mark.parametrize("typed", ["novak next week", "novak this month", "novak 0 days"])
def test_a_week_that_begins_sometime_is_no_day(typed: str) -> None:
    with pytest.raises(Refused, match=": type"):
        loan_line(typed, TUESDAY, SCHOOL)


@pytest.mark.parametrize("typed", ['"Mara" friday', "“Mara” friday", "'Mara' friday"])
def test_a_name_in_quotes_is_a_guests(typed: str) -> None:
    assert loan_line(typed, TUESDAY, SCHOOL) == LoanLine("Mara", date(2026, 11, 20), quoted=True)


@pytest.mark.parametrize(
    "typed",
    [
        "novak yesterday",
        "novak 30 feb",
        "novak until soon",
        "novak 4/12",
        "novak 2026-11-16",
        "a 1 jan 2026",
    ],
)
def test_a_day_that_is_none_or_has_passed_is_refused(typed: str) -> None:
    with pytest.raises(Refused):
        loan_line(typed, TUESDAY, SCHOOL)


@pytest.mark.parametrize("typed", ["yesterday", "until yesterday", "2026-11-16", "by 2026-11-16"])
def test_a_day_before_the_lending_is_refused_with_the_first_that_can_be_said(typed: str) -> None:
    with pytest.raises(Refused, match="before the day of lending: give a day from Tue 17 Nov on"):
        loan_line(f"novak {typed}", TUESDAY, SCHOOL)


def test_a_week_that_begins_sometime_is_named_as_it_was_typed() -> None:
    with pytest.raises(Refused, match="“next wk” can be several days: type “a week” for Tue 24"):
        loan_line("novak next wk", TUESDAY, SCHOOL)
