"""Where rolls are that keep a term from closing, and how many are borrowed, in few words."""

from __future__ import annotations

from collections.abc import Mapping

from filmrack.domain.roll import BEFORE_SLEEVING
from filmrack.domain.termreport import ACCOUNTED_FOR, KINDS_OF_PLACE

_OPEN_IN_WORDS = {
    "tank": "in tanks",
    "rod": "on rods",
    "box": "in boxes",
    "owner": "with owners",
    "sleeve": "not filed",
    "missing": "missing",
}
"""Short, for they stand in one line; a test holds them to all that is not accounted for."""


def what_is_open(places: Mapping[str, int]) -> str:
    """Return where rolls are that keep a term from closing: `3 in boxes, 1 missing`."""
    return ", ".join(
        f"{places[kind]} {_OPEN_IN_WORDS[kind]}"
        for kind in KINDS_OF_PLACE
        if places.get(kind) and kind not in ACCOUNTED_FOR
    )


def where_unsleeved(places: Mapping[str, int]) -> str:
    """Return where rolls are that are not sleeved yet: `4 in tanks, 3 in boxes`; empty for none."""
    kinds = BEFORE_SLEEVING - {"missing"}  # which may be a sleeve
    return what_is_open({kind: many for kind, many in places.items() if kind in kinds})


def whether_it_closes(places: Mapping[str, int]) -> str:
    """Return what keeps a term from closing, or that nothing does, as a sentence without its end.

    `places` is how many rolls it has in each kind of place.
    """
    left = what_is_open(places)
    if left:
        lent = lent_beside(places)
        return f"Keeps it from closing: {left}" + (f"; {lent}" if lent else "")
    return f"Every roll is accounted for{still_lent(places)}: “close term” closes it"


def lent_beside(places: Mapping[str, int]) -> str:
    """Return how many rolls are borrowed, beside those that keep a term from closing; empty for
    none.
    """
    many = places.get("out", 0)
    keep = "keeps" if many == 1 else "keep"
    return f"{many} still borrowed {keep} no term from closing" if many else ""


def still_lent(places: Mapping[str, int]) -> str:
    """Return how many rolls are borrowed, as the end of a sentence; empty for none. They keep no
    term from closing, but none comes back while it is closed.
    """
    many = places.get("out", 0)
    return f"; {many} still borrowed" if many else ""
