"""Lettering: the scripts of a school's names, what cannot be written, what is shortened."""

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.domain.refusal import Refused
from filmrack.printing import lettering

NAMES = [
    "Zoë Ångström",
    "Łukasz Ćwikła",
    "Nguyễn Đặng Thuỳ",
    "Χριστίνα Ώρα",
    "Щербаков Ёж",
    "Ґалаґан",
]


@pytest.mark.parametrize("name", NAMES)
def test_names_in_latin_greek_cyrillic_and_vietnamese_can_be_written(name: str) -> None:
    lettering.check_glyphs([name])
    lettering.check_glyphs([unicodedata.normalize("NFD", name)])


@pytest.mark.parametrize(
    ("text", "character"), [("写真 Li", "写"), ("Mara 🎞", "🎞"), ("שלום", "ש"), ("a\x07b", "\x07")]
)
def test_a_character_without_a_glyph_is_named(text: str, character: str) -> None:
    with pytest.raises(Refused) as refusal:
        lettering.check_glyphs(["Mara K.", text])
    assert character in str(refusal.value)


def test_names_are_put_together_from_their_accents() -> None:
    assert lettering.clean("Zoe\u0308  \n K.") == "Zo\u00eb K."


@settings(deadline=None)
@given(st.text(st.sampled_from("ABcdefgijlmWé 123"), max_size=60), st.floats(5, 80), st.booleans())
def test_what_is_shortened_fits_and_says_so(text: str, room: float, bold: bool) -> None:
    shown = lettering.shorten(text, 9, bold, room)
    assert lettering.width_mm(shown, 9, bold) <= room
    if shown != text:
        assert shown.endswith("…")
        assert text.startswith(shown[:-1])


def test_an_accent_is_not_parted_from_its_letter() -> None:
    text = "x\u0302" * 12
    for room in range(6, 20):
        shown = lettering.shorten(text, 9, False, room)
        assert shown == text or shown[-2:-1] in ("\u0302", "")
