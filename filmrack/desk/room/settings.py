"""The sections of Room that are mostly lists and single values: days, what stands there, rules."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from filmrack.desk.room.calendar import take_days_off
from filmrack.desk.room.changing import Changing
from filmrack.desk.room.lists import list_rows
from filmrack.desk.room.row import RoomRow
from filmrack.desk.room.value_row import kept_row
from filmrack.desk.room.words import NOT_SET
from filmrack.domain.roomfields import (
    INITIALS,
    MATERIALS,
    NAME,
    PERIOD_WORD,
    RULE_FIELDS,
    ZONE,
)


def naming(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of what the room is called, and where it is."""
    yield kept_row(changing, NAME, ("name",))
    yield kept_row(changing, ZONE, ("zone",))
    yield kept_row(changing, PERIOD_WORD, ("period_word",))
    yield kept_row(changing, INITIALS, ("labels", INITIALS.key))


def days(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of days off, one-off days and terms: what is changed most comes first."""
    from_a_file = RoomRow(
        "from a calendar …",
        "an iCalendar file, by its path",
        "take days off from a file",
        partial(take_days_off, changing),
    )
    yield from list_rows(changing, "days", "days_off", adds_first=True, also=[from_a_file])
    yield from list_rows(changing, "days", "one_offs", adds_first=True)
    yield from list_rows(changing, "days", "terms", adds_first=True)


def periods(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of periods and their boxes."""
    yield from list_rows(changing, "periods", "periods")
    yield from list_rows(changing, "periods", "boxes")


def dryers(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of dryers and their rods."""
    yield from list_rows(changing, "dryers", "dryers")
    yield from list_rows(changing, "dryers", "rods")


def binders(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of binders."""
    words = "Binders are made as they fill; here one is given to a period."
    yield RoomRow("", changing.room.in_its_words(words))
    yield from list_rows(changing, "binders", "binders", titled=False)


def materials(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of film, pages and papers."""
    for field in MATERIALS:
        yield kept_row(changing, field, ("materials", field.key))
    yield from list_rows(changing, "materials", "papers")


def rules(changing: Changing) -> Iterator[RoomRow]:
    """Return the rows of the room's own numbers."""
    for field in RULE_FIELDS:
        yield kept_row(changing, field, ("rules", field.key))
    yield RoomRow("", " ")
    yield RoomRow("", f"{NOT_SET} Section Drying record shows what they taught.")
