from __future__ import annotations

from datetime import date

import pytest

from filmrack.domain.refusal import Refused
from filmrack.domain.termcode import half_year, term_code, usual_term


@pytest.mark.parametrize(
    ("day", "code"),
    [
        (date(2026, 1, 1), "26S"),
        (date(2026, 6, 30), "26S"),
        (date(2026, 7, 1), "26F"),
        (date(2026, 12, 31), "26F"),
        (date(2109, 3, 1), "09S"),
    ],
)
def test_the_term_is_the_half_year(day: date, code: str):
    term = half_year(day)
    assert term.code == code
    assert term.starts <= day <= term.ends


@pytest.mark.parametrize(
    ("code", "today", "starts"),
    [
        ("27S", date(2026, 11, 17), date(2027, 1, 1)),
        ("26F", date(2026, 11, 17), date(2026, 7, 1)),
        ("98F", date(2026, 11, 17), date(1998, 7, 1)),
        ("01S", date(2099, 11, 17), date(2101, 1, 1)),
    ],
)
def test_a_code_means_the_nearest_such_half_year(code: str, today: date, starts: date):
    term = usual_term(code, today)
    assert term is not None
    assert (term.code, term.starts) == (code, starts)


def test_other_letters_mean_no_half_year():
    assert usual_term("26W", date(2026, 11, 17)) is None


def test_a_code_is_read_in_any_case():
    assert term_code(" 26 f ") == "26F"


@pytest.mark.parametrize("text", ["", "26", "26O", "26l", "26FF", "2026F", "F26", "٢٦F"])
def test_what_is_no_code_is_refused(text: str):
    with pytest.raises(Refused, match="26F"):
        term_code(text)
