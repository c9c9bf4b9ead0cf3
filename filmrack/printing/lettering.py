"""Lettering: the embedded font, what it can write, and how wide it comes out.

Fira Sans (SIL Open Font License 1.1) has static weights with Latin, Greek, Cyrillic and
Vietnamese.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from functools import cache, lru_cache
from importlib.resources import files

from filmrack.domain.refusal import Refused

ELLIPSIS = "…"
POINTS_A_MM = 72 / 25.4
CAP_HEIGHT = 0.69
"""Height of a capital as a share of the font's size."""
DESCENT = 0.21
"""Depth of a p or a g below the line as a share of the font's size."""

_FACES = {False: "FiraSans-Regular", True: "FiraSans-Bold"}


@cache
def face(bold: bool) -> str:
    """Return the name under which reportlab knows a weight, registering it the first time."""
    from reportlab.pdfbase import pdfmetrics, ttfonts

    name = _FACES[bold]
    font = files("fontpkg_fira_sans").joinpath("files", f"{name}.ttf")
    pdfmetrics.registerFont(ttfonts.TTFont(name, str(font)))
    return name


@cache
def _glyphs() -> frozenset[str]:
    from reportlab.pdfbase import pdfmetrics

    weights = [pdfmetrics.getFont(face(bold)).face.charToGlyph for bold in _FACES]
    return frozenset(map(chr, set.intersection(*map(set, weights))))


def clean(text: str) -> str:
    """Return a text as it is printed: NFC, each stretch of white space one space."""
    return " ".join(unicodedata.normalize("NFC", text).split())


def check_glyphs(texts: Iterable[str]) -> None:
    """Refuse texts with a character that the font cannot write, naming it and where it stands."""
    glyphs = _glyphs()
    for text in texts:
        for character in clean(text):
            if character not in glyphs:
                name = unicodedata.name(character, f"U+{ord(character):04X}")
                raise Refused(
                    f"the character {character} ({name.lower()}) in “{clean(text)}” cannot be "
                    f"printed because the font has no glyph for it: write it in Latin, Greek or "
                    f"Cyrillic letters"
                )


def can_write(text: str) -> bool:
    """Tell whether the font has a glyph for each character of a text."""
    return _glyphs().issuperset(clean(text))


@lru_cache(maxsize=4096)
def width_mm(text: str, points: float, bold: bool) -> float:
    """Return how wide a text comes out at a size in points, in millimetres."""
    from reportlab.pdfbase import pdfmetrics

    return float(pdfmetrics.stringWidth(text, face(bold), points)) / POINTS_A_MM


def cap_height_mm(points: float) -> float:
    """Return the height of a capital at a size in points, in millimetres."""
    return points * CAP_HEIGHT / POINTS_A_MM


def shorten(text: str, points: float, bold: bool, room_mm: float) -> str:
    """Return a text that fits the room; what does not fit is cut and ends in an ellipsis."""
    if width_mm(text, points, bold) <= room_mm:
        return text
    keep = len(text)
    while keep > 1:
        keep -= 1
        # An accent without a letter of its own must not be parted from the letter before it.
        if unicodedata.combining(text[keep]):
            continue
        cut = text[:keep].rstrip() + ELLIPSIS
        if width_mm(cut, points, bold) <= room_mm:
            return cut
    return ELLIPSIS
