"""How a hanging strip is drawn: wet film is a solid block, dry film a thin line, from the top."""

from __future__ import annotations

from rich.color import Color
from rich.style import Style

from filmrack.desk.ink import style
from filmrack.desk.themes import Palette
from filmrack.domain.outlook import Outlook

_DRY = 0.98
"""The share of its time from which a part of the strip is drawn as dry."""
_NEARLY_DRY = _DRY - 0.01


def strip(drying: Outlook, rows: int, palette: Palette) -> list[tuple[str, Style]]:
    """Return one cell for each row of a strip, two steps a row.

    Between its ends film dries evenly along its length, as the drying model has it.
    """
    steps = 2 * rows
    if drying.state == "dry":
        parts = [1.0] * steps
    else:
        top, bottom = drying.top_fraction, drying.bottom_fraction
        parts = [top + (bottom - top) * (step + 0.5) / steps for step in range(steps)]
        if drying.state == "wet" and min(parts) >= _DRY:  # a finger knows better than its minutes
            parts = [_NEARLY_DRY] * steps
    return [_cell(parts[2 * row], parts[2 * row + 1], palette) for row in range(rows)]


def _cell(upper: float, lower: float, palette: Palette) -> tuple[str, Style]:
    if upper >= _DRY and lower >= _DRY:
        return "┃", style(palette.dry)
    shape = "▄" if upper >= _DRY else "▀" if lower >= _DRY else "█"
    wet = [part for part in (upper, lower) if part < _DRY]
    return shape, style(drying_colour(sum(wet) / len(wet), palette))


def drying_colour(fraction: float, palette: Palette) -> str:
    """Return the colour of film that has had a share of its time: from wet towards dry."""
    if palette.wet.startswith("ansi_"):
        return palette.wet
    share = max(0.0, min(1.0, fraction)) ** 2 * 0.7
    wet, dry = (Color.parse(name).get_truecolor() for name in (palette.wet, palette.dry))
    mixed = (round(a + (b - a) * share) for a, b in zip(wet, dry, strict=True))
    red, green, blue = mixed
    return f"#{red:02x}{green:02x}{blue:02x}"
