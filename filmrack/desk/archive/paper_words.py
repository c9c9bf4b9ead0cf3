"""Papers, pages, frames and picks as they are typed in the archive."""

from __future__ import annotations

from filmrack.domain.contact import paper_named, papers_of
from filmrack.domain.picks import picks_in, without_pick_words
from filmrack.domain.refusal import Refused
from filmrack.domain.roomrules import Materials


def paper_called(text: str, materials: Materials) -> str:
    """Return the name of the paper that a text is, `8x10` for `8x10in` too; empty for none."""
    for written in (text, f"{text}in", f"{text}cm"):
        try:
            return paper_named(written, materials.more_papers).name
        except Refused:
            continue
    return ""


def paper_and_picks(more: str, materials: Materials) -> tuple[str, list[int]]:
    """Cut what stands behind “contact”: `a4 4, 11`. Raises Refused for what is no frame."""
    words = without_pick_words(more.replace(",", " ").replace("&", " ").split())
    paper = paper_called(words[0], materials) if words else ""
    picks = words[bool(paper) :]
    if picks and not picks[0].isdecimal():
        raise Refused(
            f"“{picks[0][:20]}” is no paper here and no frame: the papers are"
            f" {', '.join(papers_of(materials.more_papers))}"
        )
    return paper, picks_in(" ".join(picks))


def page_and_frames(more: str) -> tuple[str | None, int | None]:
    """Cut what stands behind “sleeve”: `6x6 35`. Raises Refused for what is no number."""
    words = more.split()
    if len(words) == 1 and words[0].isdecimal():
        return None, _whole(words[0], "frames")
    page, _, frames = more.partition(" ")
    return page or None, _whole(frames.strip(), "frames") if frames.strip() else None


def _whole(text: str, what: str) -> int:
    """Return a number that was typed. Raises Refused for anything else."""
    if not (text.isascii() and text.isdecimal()):
        raise Refused(f"“{text[:20]}” is no number of {what}: write it in figures")
    return int(text[:4])
