"""Check digits beside python-stdnum, and how surely a misread or mistyped code is caught."""

from __future__ import annotations

import string

import pytest
from hypothesis import given
from stdnum.iso7064 import mod_97_10

from filmrack.domain.codes import check_digits, read
from tests.domain.test_codes import ALL_CODES

CAPITALS_AND_DIGITS = string.ascii_uppercase + string.digits


@pytest.mark.parametrize(
    ("text", "check"),
    [
        ("99991234567890121414", "90"),
        ("4354111611551114", "31"),
    ],
)
def test_check_digits_are_those_published_for_the_standard(text: str, check: str):
    # Two values published for ISO/IEC 7064 MOD 97-10, as python-stdnum has them.
    assert check_digits(text) == check == mod_97_10.calc_check_digits(text)


@given(ALL_CODES)
def test_check_digits_are_those_of_the_reference_library(code: str):
    assert check_digits(code[:-2]) == mod_97_10.calc_check_digits(code[:-2])
    assert mod_97_10.is_valid(code)


@given(ALL_CODES)
def test_one_wrong_character_is_always_caught(code: str):
    for at, right in enumerate(code):
        for wrong in CAPITALS_AND_DIGITS:
            known = read(code[:at] + wrong + code[at + 1 :])
            # O, I and L typed for the digits they look like are no errors.
            assert known is None or known.text == code, (code, at, right, wrong)


@given(ALL_CODES)
def test_two_neighbours_swapped_are_always_caught(code: str):
    for at in range(len(code) - 1):
        swapped = code[:at] + code[at + 1] + code[at] + code[at + 2 :]
        assert swapped == code or read(swapped) is None, (code, swapped)
