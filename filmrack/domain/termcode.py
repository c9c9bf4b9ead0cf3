"""Codes of terms, and when a term of that code usually is."""

from __future__ import annotations

import re
from datetime import date

from filmrack.domain.codes import TERM
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import Term


def is_term_code(text: str) -> bool:
    """Tell whether a text is the code of a term: `26F`."""
    return re.fullmatch(TERM, text) is not None


def term_code(text: str) -> str:
    """Return the code of a term as typed, in capitals. Raises Refused for what is none."""
    code = "".join(text.split()).upper()
    if not is_term_code(code):
        raise Refused(
            f"“{text.strip()[:20]}” is no term: write two digits of the year and a letter but I, L"
            " and O, as in 26F"
        )
    return code


def half_year(today: date) -> Term:
    """Return the term of a date: 26S from January to June of 2026, 26F from July to December.

    >>> half_year(date(2026, 11, 17)).code
    '26F'
    """
    year = today.year
    if today.month <= 6:
        return Term(f"{year % 100:02d}S", date(year, 1, 1), date(year, 6, 30))
    return Term(f"{year % 100:02d}F", date(year, 7, 1), date(year, 12, 31))


def usual_term(code: str, today: date) -> Term | None:
    """Return the half-year that a code means, in the year of its digits nearest to today.

    None for another letter than S and F: only the school knows when such a term is.
    """
    month = {"S": 1, "F": 7}.get(code[2:])
    if month is None:
        return None
    century = today.year // 100 * 100
    years = (century + step + int(code[:2]) for step in (-100, 0, 100))
    year = min(years, key=lambda year: abs(year - today.year))
    return half_year(date(year, month, 1))
