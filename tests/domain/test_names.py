from __future__ import annotations

import unicodedata

import hypothesis.strategies as st
import pytest
from hypothesis import given

from filmrack.domain.names import Person, clean, tokens
from filmrack.domain.refusal import Refused


def test_a_person_is_shown_by_the_name_they_go_by():
    person = Person(1, "Margarethe", "Okafor", "Mara")
    assert (person.full, person.short, person.initials) == ("Mara Okafor", "Mara O.", "MO")


def test_a_person_with_one_name_has_no_stray_stop():
    assert (Person(1, "Sukarno", "").full, Person(1, "Sukarno", "").short) == ("Sukarno", "Sukarno")


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("  Mara \t Okafor\n", "Mara Okafor"),
        ("Zoe\u0308", "Zoë"),
        ("[/x] [red]Mara", "[/x] [red]Mara"),
        ("=SUM(A1)", "=SUM(A1)"),
        ("می\u200cخواهم", "می\u200cخواهم"),
        ("李小龙", "李小龙"),
    ],
)
def test_names_are_kept_as_they_were_typed_but_for_spaces(typed: str, kept: str):
    assert clean(typed, "the name") == kept


@pytest.mark.parametrize("sign", ["\x00", "\x1b", "\x7f", "\u202e", "\u2066", "\ufeff", "\ud800"])
def test_signs_that_would_steer_a_screen_are_refused(sign: str):
    with pytest.raises(Refused, match=r"^the name holds the character U\+"):
        clean(f"Ma{sign}ra", "the name")


def test_a_name_longer_than_any_label_is_refused():
    assert clean("m" * 120, "the name") == "m" * 120
    with pytest.raises(Refused, match="121 characters"):
        clean("m" * 121, "the name")


@pytest.mark.parametrize(
    ("text", "folded"),
    [
        ("Ólafur Þórðarson", ["olafur", "thordarson"]),
        ("O’Brien O'Brien", ["obrien", "obrien"]),
        ("Straße STRASSE", ["strasse", "strasse"]),
        ("Łucja Øre", ["lucja", "ore"]),
        ("Jean-Luc", ["jean", "luc"]),
        ("IŞIK ışık", ["isik", "isik"]),
        ("!?", []),
    ],
)
def test_words_are_folded_for_looking_up(text: str, folded: list[str]):
    assert tokens(text) == folded


@given(st.text(max_size=50))
def test_folding_is_done_once_and_for_all(text: str):
    folded = tokens(text)
    assert tokens(" ".join(folded)) == folded


@given(st.text(max_size=50))
def test_what_is_kept_is_kept_again_as_it_is(text: str):
    try:
        kept = clean(text, "the name")
    except Refused:
        return
    assert clean(kept, "the name") == kept
    assert not any(unicodedata.category(sign) in ("Cc", "Cs") for sign in kept)
