"""Film against published figures. Where nobody had the text at hand it says "from memory"."""

from __future__ import annotations

import pytest

from filmrack.domain.film import (
    FORMATS,
    PERFORATION_PITCH_MM,
    PERFORATIONS_PER_FRAME,
    film_named,
)

THE_135 = FORMATS["135"]


def test_135_film_is_as_wide_as_the_standard_says():
    # ISO 1007 / SMPTE 139, summary: 34.975 ± 0.025 mm; other summaries say 34.98 ± 0.03.
    assert THE_135.width_mm == pytest.approx(34.975, abs=0.025)
    assert THE_135.width_mm == pytest.approx(34.98, abs=0.03)


def test_perforations_are_0_187_inch_apart():
    # SMPTE 139, summary: 4.750 mm (0.1870 in), the same to 0.001 mm.
    assert pytest.approx(4.750) == PERFORATION_PITCH_MM
    assert pytest.approx(0.1870 * 25.4, abs=0.001) == PERFORATION_PITCH_MM


def test_a_frame_takes_eight_perforations_or_38_mm():
    # ISO 1007, summary: 8 perforations a frame.
    assert PERFORATIONS_PER_FRAME == 8
    assert THE_135.pitch_mm == 38.0
    # Sixteen perforations are two frames, computed: 16 × 4.75 mm. One published page says 72 mm.
    assert 2 * THE_135.pitch_mm == 16 * 4.75 == 76.0


def test_the_135_image_is_24_by_36():
    # ISO 1007, summary.
    assert (THE_135.image_across_mm, THE_135.image_along_mm) == (24.0, 36.0)


@pytest.mark.parametrize(("film", "nominal", "most"), [("135-36", 36, 39), ("135-24", 24, 27)])
def test_a_135_roll_holds_up_to_three_frames_more_than_it_says(film, nominal, most):
    # Common practice.
    assert (film_named(film).frames, film_named(film).most_frames) == (nominal, most)


def test_a_roll_of_36_hangs_about_1_60_to_1_65_m():
    # Frames computed: 36 × 38 mm = 1368 mm. The whole strip: from memory.
    assert 36 * THE_135.pitch_mm == 1368
    assert 1600 <= film_named("135-36").length_mm <= 1650


def test_120_film_is_61_5_mm_wide():
    # ISO 732, from memory: nominal.
    assert {f.width_mm for f in FORMATS.values() if f.gauge == "120"} == {61.5}


@pytest.mark.parametrize(
    ("film", "frames", "pitch"),
    [("120-6x4.5", 16, 46), ("120-6x6", 12, 62), ("120-6x7", 10, 74), ("120-6x9", 8, 92)],
)
def test_120_holds_as_many_frames_as_the_trade_counts_on(film, frames, pitch):
    # Frames: common practice (6x4.5: 15 or 16). Pitch, and less than 820 mm in all: from memory.
    assert film_named(film).frames == film_named(film).most_frames == frames
    assert film_named(film).format.pitch_mm == pitch
    assert frames * pitch < 820


@pytest.mark.parametrize("format_", FORMATS.values(), ids=lambda format_: format_.name)
def test_an_image_is_smaller_than_the_film_that_it_is_on(format_):
    # From geometry alone.
    assert format_.image_along_mm <= format_.pitch_mm
    assert format_.image_across_mm <= format_.width_mm
