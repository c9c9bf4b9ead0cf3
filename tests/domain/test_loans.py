"""Loans as a line says them, on Tuesday 17 November 2026."""

from __future__ import annotations

from datetime import date

import pytest

from filmrack.domain.loans import LoanLine, loan_line
from filmrack.domain.refusal import Refused

TUESDAY = date(2026, 11, 17)
FOURTH = date(2026, 12, 4)


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
    assert loan_line(typed, TUESDAY) == LoanLine(who, until)


@pytest.mark.parametrize("typed", ['"Mara" friday', "“Mara” friday", "'Mara' friday"])
def test_a_name_in_quotes_is_a_guests(typed: str) -> None:
    assert loan_line(typed, TUESDAY) == LoanLine("Mara", date(2026, 11, 20), quoted=True)


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
        loan_line(typed, TUESDAY)
