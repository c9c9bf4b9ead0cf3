"""Contrast as WCAG 2.2 has it (success criteria 1.4.3 and 1.4.11): text 4.5:1, marks 3:1."""

from __future__ import annotations

import itertools
import re
from pathlib import Path

import pytest
from rich.color import Color, ColorType
from textual.widget import Widget

from filmrack.desk.dryer.strip import drying_colour
from filmrack.desk.themes import PALETTES, Palette
from tests.desk.at_desk import at_desk
from tests.desk.full_room import NOW

TEXT, MARKS = 4.5, 3.0

_NAMES = ("black", "red", "green", "yellow", "blue", "magenta", "cyan", "white")
_PLAIN = "#000000 #cd0000 #00cd00 #cdcd00 #0000ee #cd00cd #00cdcd #e5e5e5"
_BRIGHT = "#7f7f7f #ff0000 #00ff00 #ffff00 #5c5cff #ff00ff #00ffff #ffffff"
XTERM = {
    **dict(zip(_NAMES, _PLAIN.split(), strict=True)),
    **dict(zip((f"bright_{name}" for name in _NAMES), _BRIGHT.split(), strict=True)),
}
"""The usual sixteen colours of xterm (its charproc defaults; from memory)."""

OWN = [PALETTES["dim"], PALETTES["daylight"]]
STATES = ("wet", "flip", "touch", "dry", "left")


def luminance(colour: str) -> float:
    """WCAG 2.2, definition of relative luminance, for sRGB."""
    shares = [channel / 255 for channel in Color.parse(colour).get_truecolor()]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, definition of contrast ratio."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_known_values() -> None:
    """#767676 on white is the lightest grey that passes AA, 4.54:1; black on white is 21:1."""
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast("#777777", "#ffffff") < TEXT
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("palette", OWN, ids=lambda palette: palette.name)
@pytest.mark.parametrize("ink", ["text", "quiet", *STATES])
@pytest.mark.parametrize("ground", ["ground", "panel", "chosen"])
def test_every_text_can_be_read_on_every_ground(palette: Palette, ink: str, ground: str) -> None:
    assert contrast(getattr(palette, ink), getattr(palette, ground)) >= TEXT


@pytest.mark.parametrize("palette", OWN, ids=lambda palette: palette.name)
@pytest.mark.parametrize("ground", ["ground", "chosen"])
def test_film_is_seen_all_the_way_from_wet_to_dry(palette: Palette, ground: str) -> None:
    for step in range(101):
        assert contrast(drying_colour(step / 100, palette), getattr(palette, ground)) >= MARKS


@pytest.mark.parametrize("ink", ["quiet", *STATES])
def test_the_terminals_own_colours_can_be_read_on_its_usual_black(ink: str) -> None:
    colour = getattr(PALETTES["terminal"], ink).removeprefix("ansi_")
    assert contrast(XTERM[colour], XTERM["black"]) >= TEXT


@pytest.mark.parametrize("palette", PALETTES.values(), ids=lambda palette: palette.name)
def test_no_two_states_share_a_colour(palette: Palette) -> None:
    colours = [getattr(palette, state) for state in STATES]
    assert all(one != other for one, other in itertools.combinations(colours, 2))


@pytest.mark.parametrize("colours", ["dim", "daylight"])
@pytest.mark.parametrize("keys", [[], ["shift+tab"], ["question_mark"]])
async def test_all_that_stands_on_a_screen_can_be_read(
    full: Path, colours: str, keys: list[str]
) -> None:
    palette = PALETTES[colours]
    async with at_desk(full, NOW, (120, 34), colours) as here:
        await here.press(*keys)
        for strip in here.app.screen._compositor.render_strips():
            for segment in strip:
                style = segment.style
                if not segment.text.strip() or style is None or not style.color:
                    continue
                assert style.bgcolor is not None
                inks = [each.get_truecolor().hex for each in (style.color, style.bgcolor)]
                letters = re.search(r"\w", segment.text)
                guide = inks[0] == palette.rule  # lines that only guide the eye carry nothing
                assert guide or contrast(*inks) >= (TEXT if letters else MARKS), segment


async def test_without_colours_every_state_is_still_a_word(
    full: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """NO_COLOR by no-color.org: present and not empty, whatever its value."""
    monkeypatch.setenv("NO_COLOR", "1")
    async with at_desk(full, NOW, (120, 34)) as here:
        for strip in here.app.screen._compositor.render_strips():
            styles = [segment.style for segment in strip if segment.style]
            for colour in [c for style in styles for c in (style.color, style.bgcolor) if c]:
                channels = colour.get_truecolor()
                assert max(channels) - min(channels) <= 1
        for word in ("wet", "flip", "touch", "dry"):
            assert word in here.screen


async def test_the_terminals_own_colours_reach_it_as_its_own(full: Path) -> None:
    """Those sixteen and the default one, by number: ECMA-48, select graphic rendition."""
    async with at_desk(full, NOW, (120, 34), "terminal") as here:
        for strip in here.app.screen._compositor.render_strips():
            styles = [segment.style for segment in strip if segment.style]
            for colour in [c for style in styles for c in (style.color, style.bgcolor) if c]:
                assert colour.type in (ColorType.DEFAULT, ColorType.STANDARD), colour


async def test_colours_change_at_once_and_everywhere(full: Path) -> None:
    async with at_desk(full, NOW, (120, 34)) as here:
        await here.press("f8")
        assert here.app.theme == "daylight"
        grounds = {str(widget.background_colors[1].hex) for widget in here.app.query(Widget)}
        assert not any(ground.casefold() == PALETTES["dim"].ground for ground in grounds)


@pytest.mark.parametrize("colours", ["dim", "daylight", "terminal"])
@pytest.mark.parametrize("bare", [False, True])
async def test_the_selected_row_of_the_room_has_a_mark_of_its_own(
    full: Path, colours: str, bare: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A ground alone is too faint for some eyes, and is gone where there are no colours."""
    if bare:
        monkeypatch.setenv("NO_COLOR", "1")
    async with at_desk(full, NOW, (80, 24), colours) as here:
        await here.type("room")
        await here.press("enter", "down", "right", "down")
        (marked,) = (row for row in here.rows() if "▸" in row)
        assert "▸" in marked[18:24]
        view = here.app.view
        (strip,) = (
            line for line in map(view.render_line, range(view.size.height)) if "▸" in line.text
        )
        (mark,) = (piece for piece in strip if "▸" in piece.text)
        assert mark.style is not None
        assert mark.style.bold
