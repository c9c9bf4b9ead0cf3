"""Contact sheets: whether the strips of a sleeve fit on a sheet of paper, all at once.

Lengths are in mm. A block is rows of whole strips laid edge to edge.

>>> from filmrack.domain.film import FORMATS
>>> fits(Block(FORMATS["135"], 6, 6), paper_named("8x10in"))
'pictures_only'
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from filmrack.domain.film import MM_PER_INCH, Format
from filmrack.domain.refusal import Refused
from filmrack.domain.sleeving import SleevePage

SPARE_MM = 1.0
"""What must be left of a sheet, in each direction, for a block to count as fitting on it."""

Fit = Literal["fits", "pictures_only", "no"]


class Paper(NamedTuple):
    """A sheet of paper, lying either way."""

    name: str
    short_mm: float
    long_mm: float


PAPERS = {
    paper.name: paper
    for paper in (
        # ISO 1008 series and ISO 216; inches at exactly 25.4 mm.
        Paper("8x10in", 8 * MM_PER_INCH, 10 * MM_PER_INCH),
        Paper("8.5x11in", 8.5 * MM_PER_INCH, 11 * MM_PER_INCH),
        Paper("9.5x12in", 9.5 * MM_PER_INCH, 12 * MM_PER_INCH),
        Paper("11x14in", 11 * MM_PER_INCH, 14 * MM_PER_INCH),
        Paper("a4", 210.0, 297.0),
        Paper("24x30cm", 240.0, 305.0),
    )
}


class Block(NamedTuple):
    """Rows of strips as they lie on the paper.

    `row_pitch_mm` is the distance from row to row: the width of the film when cut strips lie edge
    to edge, more when they stay in the pockets of their page.
    """

    format: Format
    rows: int
    per_strip: int
    row_pitch_mm: float | None = None

    @property
    def along_mm(self) -> float:
        """The length of a whole strip."""
        return self.per_strip * self.format.pitch_mm

    @property
    def across_mm(self) -> float:
        """The height of all rows, from film edge to film edge."""
        return self._to_last_row_mm + self.format.width_mm

    @property
    def images_along_mm(self) -> float:
        """The length of a strip from the first image's edge to the last one's."""
        return (self.per_strip - 1) * self.format.pitch_mm + self.format.image_along_mm

    @property
    def images_across_mm(self) -> float:
        """The height of all rows from the first image's edge to the last one's."""
        return self._to_last_row_mm + self.format.image_across_mm

    @property
    def _to_last_row_mm(self) -> float:
        pitch = self.format.width_mm if self.row_pitch_mm is None else self.row_pitch_mm
        return (self.rows - 1) * pitch


def block_of(page: SleevePage, format_: Format) -> Block:
    """Return the block of a full page of a format's strips, taken out of their pockets."""
    if format_.gauge == "sheet":
        return Block(format_, page.strips, page.per_strip)
    return Block(format_, page.strips, page.frames_in_pocket(format_))


def papers_of(own: Iterable[Paper]) -> dict[str, Paper]:
    """Return the papers of a room by their names: those that every room has, then its own."""
    return {**PAPERS, **{paper.name: paper for paper in own}}


def paper_name(text: str) -> str:
    """Return the name of a paper as it is kept, whatever its case, its spaces and its ×."""
    return "".join(text.lower().replace("×", "x").split())


def paper_named(name: str, own: Iterable[Paper] = ()) -> Paper:
    """Return a paper, perhaps one of a room's own, by its name, whatever its case and spaces.

    Raises Refused for a name that is none.
    """
    known = papers_of(own)
    paper = known.get(paper_name(name))
    if paper is None:
        raise Refused(
            f"“{name[:40]}” is no paper because its size is not known: write one of"
            f" {', '.join(known)}"
        )
    return paper


def spare_mm(block: Block, paper: Paper) -> float:
    """Return what the paper leaves in the tighter direction, lying the better way.

    Below 0 it is what the block has too much.
    """
    return _spare(block.along_mm, block.across_mm, paper)


def fits(block: Block, paper: Paper) -> Fit:
    """Tell whether a block fits with 1 mm to spare, or its pictures do, or neither.

    `pictures_only`: outer perforations and edge numbers are lost, no picture is.
    """
    if spare_mm(block, paper) >= SPARE_MM:
        return "fits"
    if _spare(block.images_along_mm, block.images_across_mm, paper) >= SPARE_MM:
        return "pictures_only"
    return "no"


def _spare(one_mm: float, other_mm: float, paper: Paper) -> float:
    short, long_ = sorted((one_mm, other_mm))
    # Short side on short side is never the worse way; rounding to a nanometre takes away what
    # binary fractions add.
    return round(min(paper.short_mm - short, paper.long_mm - long_), 6)
