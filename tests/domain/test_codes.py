from __future__ import annotations

import hypothesis.strategies as st
import pytest
from hypothesis import given

from filmrack.domain.codes import (
    ACTIONS,
    action_code,
    binder_code,
    box_code,
    clip_code,
    looks_like_code,
    page_code,
    person_code,
    read,
    rod_code,
    roll_code,
    seal,
    spoken,
)

TERMS = st.from_regex(r"[0-9]{2}[A-HJ-KM-NP-Z]", fullmatch=True)

ALL_CODES = st.one_of(
    st.builds(roll_code, TERMS, st.integers(1, 99_999)),
    st.builds(page_code, TERMS, st.integers(1, 99_999), st.integers(1, 9)),
    st.builds(clip_code, st.integers(1, 999), st.sampled_from("AB")),
    st.builds(rod_code, st.integers(1, 99)),
    st.builds(box_code, st.integers(1, 99)),
    st.builds(binder_code, TERMS, st.integers(1, 99)),
    st.builds(person_code, st.integers(1, 9999)),
    st.builds(action_code, st.sampled_from(ACTIONS)),
)


@pytest.mark.parametrize(
    ("code", "people_read"),
    [
        ("R26F014209", "26F-0142-09"),
        ("S26F0142270", "26F-0142/2-70"),
        ("C017A70", "clip 17 A"),
        ("D0369", "rod 3"),
        ("B0387", "box 3"),
        ("A26F0391", "binder 26F-03"),
        ("P023188", "person 231"),
        ("XFLIP51", "FLIP"),
        ("XDRY27", "DRY"),
        ("XTACKY73", "TACKY"),
        ("XTAKE05", "TAKE"),
        ("XBOX14", "BOX"),
        ("XUNDO91", "UNDO"),
        ("XFAN62", "FAN"),
        ("XFANOFF44", "FAN OFF"),
    ],
)
def test_each_kind_of_code_is_read_as_people_say_it(code: str, people_read: str):
    known = read(code)
    assert known is not None
    assert (known.text, spoken(known)) == (code, people_read)


@given(ALL_CODES)
def test_every_code_reads_back_in_any_case_and_with_any_separators(code: str):
    known = read(code)
    assert known is not None
    assert known.text == code
    for typed in (
        code.lower(),
        f"  {code[:3]}-{code[3:]} ",
        " ".join(code),
        code[:4] + "/" + code[4:],
    ):
        assert read(typed) == known
        assert looks_like_code(typed)


@given(ALL_CODES.filter(lambda code: code[0] != "X"))
def test_o_i_and_l_are_always_the_digits_that_they_look_like(code: str):
    for letter, digit in (("O", "0"), ("I", "1"), ("l", "1")):
        assert read(code[0] + code[1:].replace(digit, letter)) == read(code)


@given(ALL_CODES)
def test_a_symbol_needs_only_the_alphanumeric_set(code: str):
    # ISO/IEC 18004: capitals and digits are alphanumeric.
    assert code.isascii()
    assert code.isalnum()
    assert code == code.upper()


@given(TERMS, st.integers(1, 9999))
def test_a_roll_of_a_term_with_up_to_9999_fits_version_1_at_level_h(term: str, serial: int):
    # ISO/IEC 18004: version 1 holds 10 alphanumeric characters at level H.
    assert len(roll_code(term, serial)) == 10


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "R",
        "R26F014208",
        "R26O014209",
        "Z26F014209",
        "D369",
        "R26F٠١٤٢09",  # digits, and none of ours
        "R26F\uff10\uff11\uff14\uff1209",  # full-width digits
        "https://example.org/R26F014209",
    ],
)
def test_what_is_no_code_of_ours_is_none(text: str):
    assert read(text) is None


@given(st.text(max_size=40))
def test_whatever_is_scanned_is_a_code_or_none(text: str):
    known = read(text)
    assert known is None or read(known.text) == known


def test_a_scan_of_thousands_of_digits_is_no_code():
    assert read("R26F" + "1" * 10_000) is None
    assert not looks_like_code("R26F" + "1" * 10_000)


def test_a_body_of_another_shape_cannot_be_sealed():
    with pytest.raises(ValueError, match="no body"):
        seal("C", "17A")
