"""What cutting a roll and printing its contact sheet will come to, before a hand does it.

>>> cut = cut_of("135-36", Materials())
>>> cut_words(cut), pocket_words(cut)
('cut 5 5 5 5 5 5 3 | 3', '8 strips in 2 sleeves (a sleeve takes 7 of 5 frames)')
"""

from __future__ import annotations

from typing import NamedTuple

from filmrack.domain.contact import Fit, block_of, fits, paper_named, papers_of
from filmrack.domain.counted import counted
from filmrack.domain.film import Film, film_named, refuse_frames
from filmrack.domain.roll import Roll
from filmrack.domain.roomrules import Materials
from filmrack.domain.sleeving import SHORTEST_STRIP, Sleeve, SleevePage, page_named, sleeves

FIT_WORDS: dict[Fit, str] = {
    "fits": "fits",
    "pictures_only": "pictures only, edge numbers are lost",
    "no": "does not fit",
}


class Cut(NamedTuple):
    """A cut plan: so many frames, on pages of one kind, and which papers take such a page."""

    film: Film
    page: SleevePage
    frames: int
    sleeves: tuple[Sleeve, ...]
    fits: dict[str, Fit]

    @property
    def strips(self) -> list[list[int]]:
        """Return the frames of each strip, for each sleeve."""
        return [[s.last - s.first + 1 for s in sleeve.strips] for sleeve in self.sleeves]

    @property
    def shortened(self) -> bool:
        """Tell whether earlier strips gave frames to the last one, so that it is long enough."""
        rest = self.frames % self.page.frames_in_pocket(self.film.format)
        several = sum(map(len, self.strips)) > 1
        return several and 0 < rest < SHORTEST_STRIP


def cut_of(
    film_text: str, materials: Materials, page_name: str | None = None, frames: int | None = None
) -> Cut:
    """Return how a roll of a film is cut, without a page for the one that the room uses.

    `frames` counts the pictures on it, where they are not what the film says. Raises Refused for
    a page that is none, and for more frames than the film can have.
    """
    film = film_named(film_text)
    page = page_named(page_name or materials.page_for(film.format.gauge), materials.more_pages)
    count = film.frames if frames is None else frames
    refuse_frames(film, count)
    block = block_of(page, film.format)
    papers = papers_of(materials.more_papers)
    fitting = {name: fits(block, paper) for name, paper in papers.items()}
    return Cut(film, page, count, sleeves(count, page, film.format), fitting)


def cut_words(cut: Cut) -> str:
    """Return where to cut: frames a strip, with a bar where the next sleeve begins."""
    if cut.film.format.gauge == "sheet":
        return counted(cut.frames, "sheet")
    return "cut " + " | ".join(" ".join(map(str, each)) for each in cut.strips)


def pocket_words(cut: Cut) -> str:
    """Return how many strips there are in how many sleeves, and what a sleeve takes."""
    strips, format_ = sum(len(each) for each in cut.strips), cut.film.format
    what = "sheet" if format_.gauge == "sheet" else "strip"
    takes = counted(cut.page.pockets(format_), what)
    if what == "strip":
        frames = counted(cut.page.frames_in_pocket(format_), "frame")
        takes = f"{cut.page.pockets(format_)} of {frames}"
    number = counted(len(cut.sleeves), "sleeve")
    return f"{counted(strips, what)} in {number} (a sleeve takes {takes})"


def rule_words(cut: Cut) -> str:
    """Return why the last strips are shorter than the page takes; empty where they are not."""
    return f"each strip has {SHORTEST_STRIP} frames or more" if cut.shortened else ""


def fit_on(roll: Roll, paper: str, materials: Materials) -> Fit | None:
    """Return how a full page of a roll fits a paper; None where its page is not known.

    Raises Refused for a paper that is none.
    """
    sheet = paper_named(paper, materials.more_papers)
    if roll.page_name is None:
        return None
    page = page_named(roll.page_name, materials.more_pages)
    return fits(block_of(page, film_named(roll.film).format), sheet)


def paper_words(roll: Roll, paper: str, materials: Materials) -> str:
    """Return a paper, and how it takes a roll's contact sheet: `8x10in: fits`."""
    name = paper_named(paper, materials.more_papers).name
    fit = fit_on(roll, name, materials)
    return f"on {name}" if fit is None else f"on {name}: {FIT_WORDS[fit]}"
