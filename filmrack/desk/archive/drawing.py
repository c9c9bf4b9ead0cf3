"""What the Archive screen shows: the term, what it owes, and its rolls in rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import NamedTuple

from rich.style import Style
from rich.text import Text

from filmrack.desk.archive.marks import WITH_PLACE, WORD, mark
from filmrack.desk.archive.place import BESIDE, CHIPS
from filmrack.desk.archive.shelf import ShelfRow
from filmrack.desk.archive.term_words import still_lent, what_is_open
from filmrack.desk.ink import fit, fitted, ground, style, wrapped
from filmrack.desk.lines import Spot
from filmrack.desk.now import Now
from filmrack.desk.themes import Palette
from filmrack.domain.clock import day_words
from filmrack.domain.counted import counted
from filmrack.domain.names import called
from filmrack.domain.room import Room
from filmrack.domain.schooldays import Term
from filmrack.store.archive import Owed, Pile

_OWES_NOTHING = ("all", "binder", "gone")

TERMS = -100
"""Spots from here down are terms, those between it and 0 are CHIPS."""

_NUMBER, _FILM, _CHOSEN = 14, 10, 2
_WIDE = 70
"""Cells from which it stands beside what a roll owes where it is."""
_NAME = 24
"""Cells of a name at most."""
_WITH_FILM = 96
_TERMS_SHOWN = 4


class Head(NamedTuple):
    """Rows above the list, with what a click in them means."""

    lines: list[Text]
    spots: list[Spot]


class Notes(NamedTuple):
    """By roll, what is written on film without an owner, and who has borrowed it."""

    said: Mapping[int, str]
    borrowers: Mapping[int, str]


def counts_of(piles: Sequence[Pile]) -> dict[Owed, int]:
    """Return how many rolls a term has, how far how many are, and how many owe what."""
    return {owed: sum(pile.counts.get(owed, 0) for pile in piles) for owed, _ in CHIPS}


def head(
    room: Room,
    term: Term,
    counts: Mapping[Owed, int],
    owed: Owed,
    at: str,
    *,
    width: int,
    palette: Palette,
) -> Head:
    """Return the term and what it owes; `at` says which of how many rolls is selected."""
    quiet, strong = style(palette.quiet), style(palette.text, bold=True)
    owes = any(counts[each] for each, _ in CHIPS if each not in _OWES_NOTHING)
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
    space = width - title.cell_len - len(at)
    if space >= 2:
        title.append(" " * space + at, style=quiet)
    rows = [title, Text()]
    for nth, (each, words) in enumerate(CHIPS):
        label = f" {words} " if each == "all" else f" {counts[each]} {words} "
        above = " also:" if each == BESIDE[0][0] else ""
        if rows[-1].cell_len + len(above + label) > width:
            rows.append(Text())
        rows[-1].append(above, style=quiet)
        top, start = len(rows) - 1, rows[-1].cell_len
        rows[top].append(label, style=style(palette.text if counts[each] else palette.quiet))
        if each == owed:
            rows[top].stylize(ground(palette), start, start + len(label))
            rows[top].stylize("bold", start, start + len(label))
        spots.append(Spot(top, start, top + 1, start + len(label), -nth - 1))
    return Head(rows, spots)


class Shown(NamedTuple):
    """A term, how many rolls it has in each kind of place, and since when it is closed."""

    term: Term
    places: Mapping[str, int]
    closed: datetime | None
    chosen: bool = False
    """Whether somebody asked for that term, not just for its rolls."""
    why: str = ""
    """Why it was closed with rolls left; empty where it was not."""


def status(now: Now, shown: Shown, foreseen: str, *, width: int, palette: Palette) -> list[Text]:
    """Return what the line that is typed would do; else whether the term can be closed."""

    def rows(words: str, how: Style) -> list[Text]:
        return [Text(row.plain, style=how) for row in wrapped(words, width)] or [Text("")]

    if foreseen:
        return rows(f"→ {foreseen}", style(palette.text, bold=True))
    term, places, closed, chosen, why = shown
    quiet = style(palette.quiet)
    if closed is not None:
        since = day_words(*(now.room.timetable.local_date(moment) for moment in (closed, now.at)))
        words = (
            f"Closed since {since}{f' (“{why}”)' if why else ''}, so nothing of it changes:"
            f" “reopen term {term.code}” first."
        )
        return rows(words, style(palette.text))
    left = what_is_open(places)
    if left and not chosen:
        return rows("", quiet)
    if left:
        return rows(f"Keeps it from closing: {left}{still_lent(places)}.", quiet)
    if now.room.in_last_week(term.code, now.at):
        return rows("Last week: “hand-back list” says which film its owners get for good.", quiet)
    words = f"Every roll is accounted for{still_lent(places)}: “close term” closes it."
    return rows(words if any(places.values()) else "", quiet)


def heading(row: ShelfRow, room: Room, rolls: int, *, width: int, palette: Palette) -> Text:
    """Return the name of a period, with how many rolls stand below it."""
    period = room.period(row.pile.period)
    name = period.name if period else f"Without a {room.period_word}"
    return Text.assemble(
        (fit(name, max(8, width - 14)).rstrip(), style(palette.text, bold=True)),
        (f"  {counted(rolls, 'roll')}", style(palette.quiet)),
    )


def roll_row(
    row: ShelfRow,
    now: Now,
    notes: Notes,
    *,
    named: bool,
    chosen: bool,
    width: int,
    palette: Palette,
) -> Text:
    """Return a roll: whose, its number, its film where there is room, what it owes."""
    person, roll = row.pile.person, row.roll
    assert roll is not None
    name = called(person, notes.said.get(roll.id))
    film = _FILM if width >= _WITH_FILM else 0
    least = WITH_PLACE if width >= _WIDE else WORD
    space = max(8, min(_NAME, width - _CHOSEN - _NUMBER - film - least))
    left = max(least, width - _CHOSEN - _NUMBER - film - space)
    owes = mark(
        roll,
        now.room,
        now.at,
        palette,
        width=left if width >= _WIDE else WORD,
        borrower=notes.borrowers.get(roll.id, ""),
    )
    line = Text.assemble(
        ("▸ " if chosen else "  ", style(palette.text, bold=True)),
        fitted(name if named or chosen or person is None else "", space - 1, style(palette.text)),
        " ",
        fitted(roll.number, _NUMBER, style(palette.quiet)),
        fitted(roll.film, film, style(palette.quiet)),
        owes,
    )
    if chosen:
        line.stylize(ground(palette))
    return line


def empty(term: str, owed: Owed, palette: Palette) -> list[Text]:
    """Return what stands in place of rolls where there are none."""
    if owed == "owner":
        words = ("Every roll has its owner.", "Esc shows all.")
    elif owed == "all":
        words = (f"Nothing of {term} yet.", "A roll stands here from the moment it is loaded.")
    elif owed == "contact":
        words = ("Every sleeve has its contact sheet.", "Esc shows all.")
    else:
        words = (f"Nothing is {dict(CHIPS)[owed]}.", "Esc shows all.")
    return in_words(*words, palette)


def in_words(title: str, words: str, palette: Palette) -> list[Text]:
    """Return a sentence, and what to do below it."""
    return [
        Text(title, style=style(palette.text, bold=True)),
        Text(words, style=style(palette.quiet)),
    ]
