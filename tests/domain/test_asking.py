from __future__ import annotations

from contextlib import suppress

import hypothesis.strategies as st
import pytest
from hypothesis import given

from filmrack.domain import codes
from filmrack.domain.asking import Part, parse
from filmrack.domain.refusal import Refused


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("okafor 26f", [Part("name", "okafor"), Part("term", "26F")]),
        ("0142", [Part("number", "0142")]),
        ("17", [Part("number", "17")]),
        ("clip 17", [Part("clip", "17")]),
        ("Clip 17 A", [Part("clip", "17")]),
        ("C017A70", [Part("clip", "17")]),
        ("c o17 a7o", [Part("clip", "17")]),
        ("rod 3 flores", [Part("rod", "3"), Part("name", "flores")]),
        ("box 3 mara", [Part("box", "3"), Part("name", "mara")]),
        ("person 231", [Part("person", "231")]),
        ("26f-142", [Part("name", "26f"), Part("name", "142")]),
        ("26f-0142", [Part("roll", "26F-0142")]),
        ("26F-0142-09", [Part("roll", "26F-0142")]),
        ("S26F0142270", [Part("roll", "26F-0142")]),
        ("A26F0391", [Part("binder", "26F-03")]),
        ("O'Brien-Núñez", [Part("name", "obrien"), Part("name", "nunez")]),
        ("clip", [Part("name", "clip")]),
        ("clip seventeen", [Part("name", "clip"), Part("name", "seventeen")]),
        ("[/bold] %_*\"'", [Part("name", "bold")]),
        ("", []),
        ("   ", []),
    ],
)
def test_a_line_is_taken_apart(line: str, parts: list[Part]):
    assert parse(line) == parts


@pytest.mark.parametrize(
    "line", ["https://example.org/x", "WIFI:S:school;T:WPA;;", "www.example.org", "mailto:a@b"]
)
def test_a_foreign_symbol_is_refused_in_one_sentence(line: str):
    with pytest.raises(Refused, match=r"^that is not one of our codes"):
        parse(line)


@pytest.mark.parametrize("line", ["R26F014208", "26F-0142-08", "C017A71", "p 0231 89", "D0370"])
def test_wrong_check_digits_are_refused(line: str):
    if line[0].isdigit():
        # Without its letter it may be a number that was typed with something else behind it.
        assert Part("roll", "26F-0142") not in parse(line)
        return
    with pytest.raises(Refused, match="its check digits do not fit"):
        parse(line)


def test_an_action_is_nothing_to_look_for():
    with pytest.raises(Refused, match="FLIP is an action"):
        parse("XFLIP51")


def test_a_line_as_long_as_a_page_is_refused():
    with pytest.raises(Refused, match="501 characters"):
        parse("m" * 501)


@given(st.text(max_size=60))
def test_whatever_is_typed_is_parts_or_refused(line: str):
    with suppress(Refused):
        assert all(part.value for part in parse(line))


@pytest.mark.parametrize("page", [1, 2, 9])
def test_whatever_stands_on_a_label_of_a_sleeve_or_a_binder_can_be_typed(page: int):
    sleeve = codes.read(codes.page_code("26F", 297, page))
    assert sleeve is not None
    for typed in (codes.spoken(sleeve), sleeve.text, f"26F-0297/{page}", f"26f-0297/{page}"):
        assert parse(typed) == [Part("roll", "26F-0297")]
    assert parse(f"lend 0297/{page}")[-1] == Part("number", "0297")
    for typed in ("26F-03", "binder 26F-03", codes.binder_code("26F", 3)):
        assert parse(typed) == [Part("binder", "26F-03")]
