"""Film: formats, the frames on a roll, how long and how wide it hangs.

Lengths are in mm. A film is written as people say it: `135-36`, `120-6x6`, `sheet-4x5`.

>>> film_named("135 36").text
'135-36'
>>> film_named("120-6x4.5").most_frames
16
"""

from functools import lru_cache
from math import ceil
from typing import Literal, NamedTuple

from filmrack.domain.refusal import Refused

PERFORATION_PITCH_MM = 4.750
"""From one perforation of 135 film to the next: 0.1870 in (SMPTE 139, summary)."""

PERFORATIONS_PER_FRAME = 8
"""Perforations that one frame of 135 film takes (ISO 1007, summary)."""

LEADER_AND_TAIL_MM = 265.0
"""Film of a 135 roll beyond its frames (from memory: 135-36 is 1.60 to 1.65 m in all)."""

ROLL_120_MM = 820.0
"""Length of a 120 roll (from memory)."""

EXTRA_FRAMES_135 = 3
"""Frames that a careful loader gets beyond the nominal ones (common practice: 39 of 36)."""

LONGEST_135 = 36
"""The most nominal frames of a 135 roll; rolls wound in the room may have any fewer."""

SHEETS_IN_A_SET = 4
"""Sheets of a set when none are counted: those that fill one page of 4x5 (common practice)."""

MOST_SHEETS = 12
MM_PER_INCH = 25.4


class Format(NamedTuple):
    """A film format: `gauge` is what it is wound or cut as, `pitch_mm` runs along the film.

    The image is given along and across the film. `frames` is the usual number on a roll, 0 for a
    gauge whose rolls differ.
    """

    name: str
    gauge: Literal["135", "120", "sheet"]
    width_mm: float
    pitch_mm: float
    image_along_mm: float
    image_across_mm: float
    frames: int = 0


def _sheet(short_in: int, long_in: int) -> Format:
    # An inch size names the holder; the sheet itself is a little smaller, so this errs safely.
    short, long_ = short_in * MM_PER_INCH, long_in * MM_PER_INCH
    name = f"sheet-{short_in}x{long_in}"
    return Format(name, "sheet", short, long_, long_, short, SHEETS_IN_A_SET)


FORMATS = {
    format_.name: format_
    for format_ in (
        # Width and image: ISO 1007, summary. Pitch: eight perforations.
        Format("135", "135", 34.975, PERFORATIONS_PER_FRAME * PERFORATION_PITCH_MM, 36.0, 24.0),
        # Width: ISO 732, from memory. Frames: common practice. Pitch and image: from memory, and
        # they depend on the camera.
        Format("120-6x4.5", "120", 61.5, 46.0, 41.5, 56.0, 16),
        Format("120-6x6", "120", 61.5, 62.0, 56.0, 56.0, 12),
        Format("120-6x7", "120", 61.5, 74.0, 69.5, 56.0, 10),
        Format("120-6x9", "120", 61.5, 92.0, 84.0, 56.0, 8),
        _sheet(4, 5),
        _sheet(5, 7),
        _sheet(8, 10),
    )
}


class Film(NamedTuple):
    """One roll as it is sold or wound: a format and its nominal frames, or a set of sheets."""

    format: Format
    frames: int

    @property
    def text(self) -> str:
        """The film as people write it: `135-36`, `120-6x6`, `sheet-4x5`, `sheet-4x5-6`."""
        if self.frames == self.format.frames:
            return self.format.name
        return f"{self.format.name}-{self.frames}"

    @property
    def most_frames(self) -> int:
        """The most frames that such a roll may hold when it comes to cutting."""
        match self.format.gauge:
            case "135":
                return self.frames + EXTRA_FRAMES_135
            case "120":
                return self.format.frames
            case "sheet":
                return self.frames

    @property
    def length_mm(self) -> float:
        """How far it hangs down, uncut; for sheets, one sheet."""
        match self.format.gauge:
            case "135":
                return self.frames * self.format.pitch_mm + LEADER_AND_TAIL_MM
            case "120":
                return ROLL_120_MM
            case "sheet":
                return self.format.pitch_mm

    @property
    def rod_width_mm(self) -> float:
        """The width that it takes on a rod; the sheets of a set hang side by side."""
        return self.format.width_mm * (self.frames if self.format.gauge == "sheet" else 1)

    def places_on_rod(self, spacing_mm: float) -> int:
        """Return the positions that it takes on a rod so that no neighbour touches it.

        `spacing_mm` is the distance from one position to the next, above 0.
        """
        return ceil(self.rod_width_mm / spacing_mm)


def refuse_frames(film: Film, frames: int) -> None:
    """Raise Refused for more frames than a film can have, or none."""
    if not 1 <= frames <= film.most_frames:
        raise Refused(
            f"{film.text} has 1 to {film.most_frames} frames, not {frames}: count them again"
        )


def too_long(film: Film, clear_mm: float, where: str) -> str | None:
    """Return what to do with a strip that is longer than the clear height below its rod, or None.

    `where` names what it hangs in. Looping and cutting are common practice.
    """
    if film.length_mm <= clear_mm:
        return None
    what = "loop it over the rod, or cut it between two frames"
    if film.length_mm > 2 * clear_mm:
        what = "cut it between frames into strips that hang free"
    return (
        f"{what}: {film.text} is about {film.length_mm / 1000:.2f} m long and {where} has"
        f" {clear_mm / 1000:.2f} m below the rod"
    )


_WRITTEN = str.maketrans({"×": "x", ",": ".", "/": " ", "_": " ", "-": " "})
"""How people write the parts of a film's name, and what stands between them."""


@lru_cache(maxsize=64)
def film_named(text: str) -> Film:
    """Return the film that was written; case, spaces and × for x do not matter.

    Raises Refused, naming what would be right.
    """
    plain = "-".join(text.lower().translate(_WRITTEN).split())
    if whole := FORMATS.get(plain):
        if whole.frames:
            return Film(whole, whole.frames)
        raise Refused(
            f"“{text}” does not say how many frames the roll has, and 135 rolls differ: "
            "write 135-36 or 135-24"
        )
    name, _, number = plain.rpartition("-")
    format_ = FORMATS.get(name)
    if format_ is None:
        raise Refused(
            f"“{text}” is no film because its format is not known: write one of 135-36, 135-24, "
            f"{', '.join(known for known in FORMATS if known != '135')}"
        )
    most = {"135": LONGEST_135, "120": format_.frames, "sheet": MOST_SHEETS}[format_.gauge]
    if number not in map(str, range(1, most + 1)):
        raise Refused(
            f"“{text}” is no film because {name} comes with 1 to {most}: "
            f"write {'135-36 or 135-24' if name == '135' else f'{name} or {name}-{most}'}"
        )
    return Film(format_, int(number))
