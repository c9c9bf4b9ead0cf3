from __future__ import annotations

import pytest

from filmrack.domain.film import FORMATS, Film, film_named
from filmrack.domain.refusal import Refused


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("135-36", "135-36"),
        (" 135 24 ", "135-24"),
        ("135/20", "135-20"),
        ("120-6X6", "120-6x6"),
        ("120 6×4,5", "120-6x4.5"),
        ("120-6x4.5-15", "120-6x4.5-15"),
        ("sheet 4x5", "sheet-4x5"),
        ("sheet-4x5-6", "sheet-4x5-6"),
        ("sheet-4x5-4", "sheet-4x5"),
    ],
)
def test_a_film_is_read_as_people_write_it(typed, text):
    assert film_named(typed).text == text


@pytest.mark.parametrize("format_", FORMATS.values(), ids=lambda format_: format_.name)
def test_what_a_film_is_called_names_it_again(format_):
    film = Film(format_, format_.frames or 36)
    assert film_named(film.text) == film


@pytest.mark.parametrize(
    ("typed", "right"),
    [
        ("135", "write 135-36 or 135-24"),
        ("135-99", "comes with 1 to 36: write 135-36 or 135-24"),
        ("135-0", "comes with 1 to 36"),
        ("135-²", "comes with 1 to 36"),
        ("120", "120-6x4.5, 120-6x6, 120-6x7, 120-6x9"),
        ("120-6x6-13", "comes with 1 to 12: write 120-6x6 or"),
        ("sheet-4x5-99", "comes with 1 to 12"),
        ("", "write one of 135-36"),
        ("[/x]", "write one of 135-36"),
    ],
)
def test_what_is_no_film_is_refused_with_what_would_be_right(typed, right):
    with pytest.raises(Refused) as refused:
        film_named(typed)
    assert right in str(refused.value)


def test_a_set_of_sheets_takes_as_many_widths_of_the_rod_as_it_has_sheets():
    assert film_named("sheet-4x5").rod_width_mm == pytest.approx(4 * 101.6)
    assert film_named("sheet-4x5").length_mm == pytest.approx(127.0)


def test_120_takes_a_wider_place_where_135_positions_are_close():
    assert film_named("135-36").places_on_rod(40) == 1
    assert film_named("120-6x6").places_on_rod(40) == 2
    assert film_named("120-6x6").places_on_rod(70) == 1
