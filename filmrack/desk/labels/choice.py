"""What is to be printed, as a teacher chooses it on the Labels screen."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from filmrack.acts import labelling
from filmrack.acts.labelling import KINDS
from filmrack.acts.wanted_labels import LABEL_KINDS
from filmrack.printing import PAPERS, stock_names

ABOUT = {
    "clips": "two tags for each clip pair",
    "sleeves": "labels of the sleeves",
    "rods": "a label for each rod",
    "boxes": "a label for each box",
    "binders": "the binders' spines",
    "people": "each class, with codes",
    "bench": "the card for the bench",
    "hangsheet": "to write on without power",
    "substitute": "the day, for a substitute",
    "sweepslip": "a slip to lie in each box",
    "index": "what stands in each binder",
    "contactlog": "frames, to mark picks on",
    "hand-back": "what to hand back, to whom",
    "guide-student": "a page for a student",
    "guide-cabinet": "a page for the day's end",
    "guide-binders": "a page for the term's end",
    "test": "a ruler, to measure a printer",
}
"""Each kind in a few words."""


class Choice(NamedTuple):
    """A kind, which of it, on what, from which label on; None where the usual is meant."""

    kind: str = "sleeves"
    asked: str = ""
    stock: str | None = None
    start: int | None = None
    dpi: int = labelling.USUAL_DPI

    @property
    def on_labels(self) -> bool:
        """Tell whether it goes on a stock of labels rather than on plain pages."""
        return self.kind in LABEL_KINDS

    @property
    def is_the_queue(self) -> bool:
        """Tell whether it is the labels of the sleeves that wait, whichever those are by then."""
        return self.kind == "sleeves" and not self.asked

    @property
    def asks_which(self) -> bool:
        """Tell whether Enter asks which ones before it prints."""
        return self.kind == "clips" and not self.asked

    def of(self, kind: str, asked: str = "") -> Choice:
        """Return the choice of another kind, or of others of the same."""
        same = kind == self.kind
        return self._replace(
            kind=kind,
            asked=asked,
            stock=self.stock if same else None,
            start=self.start if same else None,
        )

    def turned_to(self, kind: str) -> Choice:
        """Return the choice of a kind; which of it stays where that is the kind already."""
        return self if kind == self.kind else self.of(kind)

    def step_kind(self, step: int) -> Choice:
        """Return the choice of the kind so many below."""
        at = max(0, min(len(KINDS) - 1, KINDS.index(self.kind) + step))
        return self.turned_to(KINDS[at])

    def step_stock(self, now: str, names: Sequence[str], step: int) -> Choice:
        """Return the same on the stock, or the paper, so many of `names` behind the one of now."""
        at = names.index(now) if now in names else 0
        return self._replace(stock=names[(at + step) % len(names)], start=None)


def stocks_for(choice: Choice, own: Path | None) -> tuple[str, ...]:
    """Return what a choice can be printed on: label stock, or paper for whole pages."""
    return stock_names(own) if choice.on_labels else tuple(PAPERS)
