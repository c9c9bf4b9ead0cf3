"""What stands above the rolls of the archive: the term, the others, and how many rolls owe what."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from rich.text import Text

from filmrack.desk.archive.which_rolls import BESIDE, PARTS, WHICH_ROLLS
from filmrack.desk.ink import fitted, ground, style
from filmrack.desk.lines import Spot
from filmrack.desk.themes import Palette
from filmrack.domain.counted import counted
from filmrack.domain.room import Room
from filmrack.domain.schooldays import Term
from filmrack.store.archive import Pile, WhichRolls

_NOTHING_OWED = ("all", "binder", "gone")

TERMS = -100
"""Spots from here down are terms, those between it and 0 are WHICH_ROLLS."""

_TERMS_SHOWN = 4
_LEAD = 10
"""Cells of the word before counts: further rows of them stand below the first."""


class Head(NamedTuple):
    """Rows above the list, with what a click in them means."""

    lines: list[Text]
    spots: list[Spot]


def counts_of(piles: Sequence[Pile]) -> dict[WhichRolls, int]:
    """Return how many rolls a term has, how far how many are, and how many owe what."""
    return {which: sum(pile.counts.get(which, 0) for pile in piles) for which, _ in WHICH_ROLLS}


def head(
    room: Room,
    term: Term,
    counts: Mapping[WhichRolls, int],
    which: WhichRolls,
    at: str,
    *,
    width: int,
    palette: Palette,
) -> Head:
    """Return the term and how many rolls owe what; `which` are shown, and `at` says which
    of how many rolls is selected.
    """
    title, spots = _title(room, term, counts, palette)
    if title.cell_len + len(at) + 2 <= width:
        title.append(at.rjust(width - title.cell_len), style=style(palette.quiet))
    rows, more = _counts(counts, which, width, palette)
    return Head([title, *rows], [*spots, *more])


def _title(
    room: Room, term: Term, counts: Mapping[WhichRolls, int], palette: Palette
) -> tuple[Text, list[Spot]]:
    """Return the term, how many rolls it has, and the other terms."""
    quiet, strong = style(palette.quiet), style(palette.text, bold=True)
    owes = any(counts[each] for each, _ in WHICH_ROLLS if each not in _NOTHING_OWED)
    title = Text.assemble(
        (f"Term {term.code}", strong),
        (f"   {counted(counts['all'], 'roll')}", quiet),
        ("" if owes else ", nothing is owed", strong),
    )
    spots: list[Spot] = []
    others = [(nth, each) for nth, each in enumerate(room.terms) if each.code != term.code]
    if others:
        title.append("     other terms  ", style=quiet)
    for nth, other in others[: -_TERMS_SHOWN - 1 : -1]:
        spots.append(Spot(0, title.cell_len, 1, title.cell_len + 4, TERMS - nth))
        title.append(f"{other.code}   ", style=style(palette.text))
    return title, spots


def _counts(
    counts: Mapping[WhichRolls, int], which: WhichRolls, width: int, palette: Palette
) -> tuple[list[Text], list[Spot]]:
    """Return how far rolls are, which adds up to all; and below it what some of these owe beside,
    which counts them once more. The rows stand below a title.
    """
    rows: list[Text] = []
    spots: list[Spot] = []

    def add(each: WhichRolls, label: str, cells: int = 0) -> None:
        start = rows[-1].cell_len
        rows[-1].append(label, style=style(palette.text if counts[each] else palette.quiet))
        if each == which:
            rows[-1].stylize(ground(palette), start, start + len(label))
            rows[-1].stylize("bold", start, start + len(label))
        nth = [part for part, _ in WHICH_ROLLS].index(each)
        spots.append(Spot(len(rows), start, len(rows) + 1, start + len(label), -nth - 1))
        rows[-1].append(" " * (cells - len(label)))

    rows.append(Text())
    add("all", " all ", _LEAD)
    for part, words in (*PARTS, *BESIDE):
        label = f" {counts[part]} {words} "
        if part == BESIDE[0][0]:
            rows.append(fitted(" of these", _LEAD, style(palette.quiet)))
        elif rows[-1].cell_len + len(label) > width:
            rows.append(Text(" " * _LEAD))
        add(part, label)
    return rows, spots
