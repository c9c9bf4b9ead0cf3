"""What is to be printed, as a teacher chooses it on the Labels screen."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import ceil
from pathlib import Path
from typing import NamedTuple

from filmrack.acts import labelling
from filmrack.acts.labelling import KINDS
from filmrack.acts.wanted_labels import LABEL_KINDS
from filmrack.domain.refusal import Refused
from filmrack.printing import PAPERS, stock, stock_names
from filmrack.printing.modules import check_dpi
from filmrack.store.file import DarkroomFile

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
    "contactlog": "contact sheets, to write on",
    "handback": "what to hand back, to whom",
    "guide-student": "a page for a student",
    "guide-cabinet": "a page for the day's end",
    "guide-binders": "a page for the term's end",
    "test": "a ruler, to measure a printer",
}
"""Each kind in a few words."""

_RANGE = re.compile(r"[\d\s,–-]*\d\s*[,–-]\s*\d[\d\s,–-]*", re.ASCII)
_FROM = re.compile(r"from (\d{1,4})", re.ASCII)
_DPI = re.compile(r"(\d{2,5}) ?dpi", re.ASCII)


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

    def step_kind(self, step: int) -> Choice:
        """Return the choice of the kind so many below."""
        at = max(0, min(len(KINDS) - 1, KINDS.index(self.kind) + step))
        return self.of(KINDS[at], self.asked_of(KINDS[at]))

    def asked_of(self, kind: str) -> str:
        """Return which ones were asked for, where the kind stays the same."""
        return self.asked if kind == self.kind else ""

    def step_stock(self, usual: str, names: Sequence[str], step: int) -> Choice:
        """Return the same on the stock, or the paper, so many further on."""
        now = self.stock or usual
        at = names.index(now) if now in names else 0
        return self._replace(stock=names[(at + step) % len(names)], start=None)


class Sheets(NamedTuple):
    """How a number of labels falls on sheets of a stock."""

    across: int
    down: int
    start: int
    labels: int

    @property
    def sheets(self) -> int:
        """Return how many sheets are needed."""
        return ceil((self.start - 1 + self.labels) / (self.across * self.down))

    def place(self, number: int) -> str:
        """Tell whether a place of the first sheet (from 1) is used, printed on now, or free."""
        if number < self.start:
            return "used"
        return "now" if number < self.start + self.labels else "free"


def stocks_for(choice: Choice, own: Path | None) -> tuple[str, ...]:
    """Return what a choice can be printed on: label stock, or paper for whole pages."""
    return stock_names(own) if choice.on_labels else tuple(PAPERS)


def sheets_for(file: DarkroomFile, choice: Choice, labels: int, own: Path | None) -> Sheets:
    """Return how the labels of a choice fall.

    Raises Refused for a stock that is wrong, and for a printer that it does not serve.
    """
    name = choice.stock or labelling.usual_stock(file.room(), choice.kind)
    sheet = stock(name, own)
    check_dpi(sheet, choice.dpi)
    start = choice.start or labelling.usual_start(file, name, own)
    return Sheets(sheet.across, sheet.down, start, labels)


_WHICH = {
    "clips": "which ones, such as 1-60",
    "sleeves": "sleeves 0142 for one again",
    **dict.fromkeys(("rods", "boxes", "binders", "index"), "which ones, such as 1-3"),
    **dict.fromkeys(("people", "hangsheet"), "{kind} and a {period}: it alone"),
    "sweepslip": "of which boxes, such as 1-3",
    "handback": "handback and another term",
    "contactlog": "contactlog and rolls",
}


def typing_hint(choice: Choice, period_word: str) -> str:
    """Return what can be typed for a choice; it fits the line of a screen of 80 columns."""
    if choice.kind == "test":
        return "print it, measure it, then: measured 20.4,19.8,150.3,200.2 (mm)"
    which = _WHICH.get(choice.kind, "").format(kind=choice.kind, period=period_word)
    return "; ".join(
        part
        for part in (
            "← → the stock" if choice.on_labels else "← → the paper",
            which,
            "from 5, 600 dpi, view, print" if choice.on_labels else "600 dpi, view, print",
        )
        if part
    )


def labels_line(text: str) -> str | None:
    """Return what is to be printed of a line that says so on any screen; None for any other.

    >>> labels_line("labels clips 1-60"), labels_line("print sleeves"), labels_line("labels")
    ('clips 1-60', 'sleeves', None)
    """
    first, _, rest = " ".join(text.split()).partition(" ")
    if first.casefold() not in ("labels", "print"):
        return None
    return rest if rest.partition(" ")[0].casefold() in KINDS else None


def chosen_words(choice: Choice, opens: str, why: str = "") -> tuple[str, str]:
    """Return what was chosen by its name, and what Enter does, or `why` there is nothing to print.

    `opens` is the screen that the name opens when it is typed once more, empty for none.
    """
    kind, asked = choice.kind, choice.asked
    more = f". “{kind}” once more opens {opens}" if opens else ""
    asks = "asks which, then saves them" if choice.asks_which else "saves that"
    does = why if why and not choice.asks_which else f"Enter {asks} as a PDF"
    return f"To print: {kind} {asked}".rstrip(), f"{ABOUT[kind]}; {does}{more}"


def chosen_by(choice: Choice, text: str, own: Path | None) -> Choice | None:
    """Return the choice that a typed line makes, or None when it says nothing of the kind.

    `clips 1-60`, `1-60`, `all`, `from 5`, `letter-30`, `600 dpi`. Raises Refused for a label that
    a sheet cannot have.
    """
    line = " ".join(text.split())
    folded = line.casefold()
    first, _, rest = line.partition(" ")
    if first.casefold() in KINDS:
        return choice.of(first.casefold(), rest)
    if folded == "all":
        return choice._replace(asked="")
    if _RANGE.fullmatch(folded):
        return choice._replace(asked=line)
    if folded.removeprefix("stock ") in stocks_for(choice, own):
        return choice._replace(stock=folded.removeprefix("stock "), start=None)
    started = _FROM.fullmatch(folded)
    if started:
        if int(started[1]) == 0:
            raise Refused("labels of a sheet are counted from 1: say from 1")
        return choice._replace(start=int(started[1]))
    dots = _DPI.fullmatch(folded)
    return choice._replace(dpi=int(dots[1])) if dots else None
