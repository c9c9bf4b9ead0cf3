from __future__ import annotations

from datetime import date

import hypothesis.strategies as st
import pytest
from hypothesis import given

from filmrack.domain.names import Person, tokens
from filmrack.domain.wiping import holds_a_name, kept_until

MARA = Person(1, "Mara", "Okafor", "Mo")


@pytest.mark.parametrize(
    "text",
    [
        "Mara",
        "borrowed by MARA",
        "Mara's second roll",
        "Maras roll",
        "okafor’s",
        "ask Mo, or her sister",
        "(Okafor)",
        "Ma\u0301ra",  # accents fold: the note may be written with or without them
    ],
)
def test_a_note_that_mentions_a_person_holds_their_name(text: str) -> None:
    assert holds_a_name(text, MARA)


@pytest.mark.parametrize("text", ["", "marathon", "fogged at frame 4", "Moss green cap", "Oka for"])
def test_a_word_that_only_begins_like_a_name_holds_none(text: str) -> None:
    assert not holds_a_name(text, MARA)


@pytest.mark.parametrize(
    ("family", "text", "held"),
    [
        ("de la Cruz", "for cruz", True),
        ("de la Cruz", "de la cruz", True),
        ("de la Cruz", "a la carte", False),
        ("O'Brien", "O’Brien left", True),
        ("Smith-Jones", "jones has it", True),
        ("李", "李明的胶卷", True),
        ("Li", "Li has it", True),
        ("Li", "a line across it", False),
        ("", "anything", False),
    ],
)
def test_names_are_told_in_other_languages_too(family: str, text: str, held: bool) -> None:
    assert holds_a_name(text, Person(1, "", family)) is held


@given(st.text(min_size=1, max_size=20), st.text(max_size=20), st.text(max_size=20))
def test_a_name_between_spaces_is_always_found(name: str, before: str, after: str) -> None:
    if tokens(name):
        assert holds_a_name(f"{before} {name} {after}", Person(1, name, ""))


def test_a_leap_day_is_kept_to_the_end_of_a_february() -> None:
    assert kept_until(date(2028, 2, 29), 2) == date(2030, 2, 28)
    assert kept_until(date(2026, 6, 30), 2) == date(2028, 6, 30)
