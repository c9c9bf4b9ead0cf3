"""What can be set in a room, in the trade's words: every key of the room file with its name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

from filmrack.domain.roomtext import RULES

Kind = Literal[
    "text", "whole", "number", "day", "flag", "choice", "period", "term", "texts", "plan"
]
"""How a value is typed: see `roomtyped.typed`."""

LEFT_BEHIND = (("day end", "day_end"), ("next class", "next_class"))
SIDES = (("left", "left"), ("right", "right"))


class Field(NamedTuple):
    """One value of a room: its key in the room file, and what people call it."""

    key: str
    name: str
    kind: Kind
    unit: str = ""
    ask: str = ""
    """What it is, in a few words, where its name does not say it."""
    choices: tuple[tuple[str, str], ...] = ()
    """What can be typed, and what the room file writes for it."""
    missing: str = ""
    """What is said and typed where the room file leaves the value out."""


class Table(NamedTuple):
    """A list of the room: what one of its entries is called, what it says, what tells it apart."""

    key: str
    one: str
    fields: tuple[Field, ...]
    named_by: tuple[str, ...]

    def field(self, key: str) -> Field:
        """Return the field of a key."""
        return next(field for field in self.fields if field.key == key)

    def name_of(self, entry: Mapping[str, object]) -> tuple[str, ...]:
        """Return what tells an entry apart from the others of its list."""
        # A last day may be left out, and a date may be written as a text.
        last = entry.get("first") if self.key == "days_off" else None
        return tuple(str(entry.get(key, last)) for key in self.named_by)

    def called(self, entry: Mapping[str, object]) -> str:
        """Return an entry as people call it: `rod 3`, `Block C`, `binder 26F-03`."""
        match self.key:
            case "periods" | "days_off" | "one_offs":
                return str(entry.get("name", entry.get("number", "")))
            case "dryers":
                return f"dryer {entry.get('number')}"
            case "binders":
                number = entry.get("number")
                return f"binder {entry.get('term')}-{number if number is None else f'{number:0>2}'}"
            case _:
                return f"{self.one} {entry.get(self.named_by[0])}"


_PERIOD = Field("period", "period", "period", ask="whose it is")
_PERIOD_OR_NONE = _PERIOD._replace(missing="anyone", ask="whose film hangs there, or anyone")

TABLES = {
    table.key: table
    for table in (
        Table(
            "periods",
            "period",
            (Field("number", "number", "whole"), Field("name", "name", "text")),
            ("number",),
        ),
        Table(
            "boxes",
            "box",
            (Field("number", "number", "whole"), _PERIOD._replace(ask="whose dry rolls it holds")),
            ("number",),
        ),
        Table(
            "dryers",
            "dryer",
            (
                Field("number", "number", "whole"),
                Field("name", "name", "text"),
                Field("clear_height_mm", "clear height", "whole", "mm", "from the rod down"),
                Field("dial_hours", "dial", "number", "h", "what its fan timer is turned to"),
            ),
            ("number",),
        ),
        Table(
            "rods",
            "rod",
            (
                Field("number", "number", "whole"),
                Field("dryer", "dryer", "whole", ask="the number of the dryer it is in"),
                Field("positions", "positions", "whole", ask="strips side by side"),
                _PERIOD_OR_NONE,
                Field("spacing_mm", "spacing", "whole", "mm", "from one position to the next"),
                Field("counted_from", "counted from", "choice", "", "left or right", SIDES),
            ),
            ("number",),
        ),
        Table(
            "terms",
            "term",
            (
                Field("code", "code", "term", ask="two digits of the year and a letter: 26F"),
                Field("starts", "first day", "day"),
                Field("ends", "last day", "day"),
            ),
            ("code",),
        ),
        Table(
            "days_off",
            "day off",
            (
                Field("name", "name", "text", ask="what the day or the holidays are called"),
                Field("first", "first day", "day"),
                Field("last", "last day", "day"),
            ),
            ("first", "last"),
        ),
        Table(
            "one_offs",
            "one-off day",
            (
                Field("day", "day", "day"),
                Field("name", "name", "text", ask="such as early release, or snow day"),
                Field("plan", "plan", "plan", ask="a plan's name, classes with times, or none"),
                Field("keeps_letter", "keeps its letter", "flag", "", "yes: it waits a day"),
            ),
            ("day",),
        ),
        Table(
            "binders",
            "binder",
            (
                Field("term", "term", "term"),
                Field("number", "number", "whole"),
                _PERIOD_OR_NONE._replace(ask="whose sleeves stand in it, or anyone"),
            ),
            ("term", "number"),
        ),
        Table(
            "papers",
            "paper",
            (
                Field("name", "name", "text"),
                Field("short_mm", "short side", "number", "mm"),
                Field("long_mm", "long side", "number", "mm"),
            ),
            ("name",),
        ),
    )
}

NAME = Field("name", "name", "text")
ZONE = Field("zone", "time zone", "text", ask="as in America/Chicago or Europe/Berlin")
PERIOD_WORD = Field("period_word", "a class is a", "text", ask="period, block, lesson, bell")
INITIALS = Field("initials_on_sleeves", "initials", "flag", ask="whether sleeves' labels show them")
WEEKDAYS_TAUGHT = Field("weekdays", "school on", "texts", ask="as in mon tue wed thu fri")
LETTERS = Field("letters", "day letters", "texts", ask="all in turn: A B C D E F", missing="none")
WEEKS = Field("weeks", "week letters", "texts", ask="all in turn: A B", missing="none")
FIRST_WEEK = Field("first_week_on", "first week", "day", ask="a day in a week of the first one")
FIRST_LETTER = Field("first_letter_on", "first one on", "day", ask="a day on which it falls")
MATERIALS = (
    Field("film", "film", "text", ask="what is meant when nobody says otherwise: 135-36"),
    Field("page", "page for 135", "text", ask="strips x frames a strip: 7x5"),
    Field("page_120", "page for 120", "text", ask="strips x frames a strip: 4x3"),
    Field("page_sheet", "page for sheets", "text", ask="one sheet in each pocket: 2x2"),
    Field("paper", "contact paper", "text", ask="8x10in, or one of the room's own"),
    Field("more_pages", "other pages", "texts", ask="all beyond the usual: 8x5", missing="none"),
)
_RULES: dict[str, tuple[str, Kind, str]] = {
    "left_behind": ("left behind at", "choice", ""),
    "process_minutes": ("developing", "number", "min"),
    "drying_lag_minutes": ("time to fetch", "number", "min"),
    "overnight_hours": ("overnight", "number", "h"),
    "box_school_days": ("in a box", "whole", "school days"),
    "contact_school_days": ("contact sheet", "whole", "school days"),
    "loan_school_days": ("a loan", "whole", "school days"),
    "keep_names_years": ("names are kept", "whole", "years"),
    "desk_idle_minutes": ("idle desk", "number", "min"),
    "helpers_sweep": ("helpers sweep", "flag", ""),
}
_OTHERWISE = {
    "left_behind": "or its owner's next class",
    "drying_lag_minutes": "from the bell to the last roll",
    "box_school_days": "then a roll is named",
    "contact_school_days": "a sleeve may go without",
    "loan_school_days": "until it is due back",
    "desk_idle_minutes": "then a teacher's desk locks",
    "keep_names_years": "then names may be wiped",
    "helpers_sweep": "yes: student desks may sweep too",
}
"""Shorter than in the room file, so that each stands beside its value in 80 columns."""

RULE_FIELDS = tuple(
    Field(key, name, kind, unit, _OTHERWISE.get(key, RULES[key]))
    if key != "left_behind"
    else Field(key, name, kind, unit, _OTHERWISE[key], LEFT_BEHIND)
    for key, (name, kind, unit) in _RULES.items()
)
