"""A choice of labels as it is typed, what can be typed for it, and what is answered to that."""

from __future__ import annotations

import re
from pathlib import Path

from filmrack.acts.labelling import KINDS
from filmrack.desk.labels.choice import ABOUT, Choice, stocks_for
from filmrack.domain.refusal import Refused

_RANGE = re.compile(r"[\d\s,–-]*\d\s*[,–-]\s*\d[\d\s,–-]*", re.ASCII)
_FROM = re.compile(r"from (\d{1,4})", re.ASCII)
_DPI = re.compile(r"(\d{2,5}) ?dpi", re.ASCII)

_WHICH = {
    "clips": "which ones, such as 1-60",
    "sleeves": "sleeves 0142 for one again",
    **dict.fromkeys(("rods", "boxes", "binders", "index"), "which ones, such as 1-3"),
    **dict.fromkeys(("people", "hangsheet"), "{kind} and a {period}: it alone"),
    "sweepslip": "of which boxes, such as 1-3",
    "hand-back": "hand-back and another term",
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
            raise Refused("labels of a sheet are counted from 1: say “from 1”")
        return choice._replace(start=int(started[1]))
    dots = _DPI.fullmatch(folded)
    return choice._replace(dpi=int(dots[1])) if dots else None
