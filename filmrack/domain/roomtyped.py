"""Values of a room as people type and read them, and as the room file writes them."""

from __future__ import annotations

import re
from datetime import date

from filmrack.domain.clock import whole_day
from filmrack.domain.days import read_whole_day
from filmrack.domain.refusal import Refused
from filmrack.domain.roomfields import Field
from filmrack.domain.roomplans import plan_shown
from filmrack.domain.termcode import term_code
from filmrack.domain.yes_or_no import yes_or_no

_UNITS = {
    "min": ("min", "minutes", "minute"),
    "h": ("h", "hours", "hour"),
    "mm": ("mm",),
    "school days": ("school days", "school day", "days", "day"),
    "years": ("years", "year"),
}
NOTHING = ("none", "nothing", "-")


def typed(field: Field, text: str) -> object:
    """Return what the room file writes for a typed value; None where it leaves it out.

    Plans are read by `roomplans.plan_typed`, which wants to know the others. Raises Refused for
    what is no value of this kind; whether it fits the room is for the room file's check.

    >>> typed(Field("dial_hours", "dial", "number", "h"), "1.5 h")
    1.5
    """
    said = " ".join(text.split())
    folded = said.casefold()
    if field.missing and folded in (field.missing, *NOTHING):
        return [] if field.kind == "texts" and field.key == "more_pages" else None
    match field.kind:
        case "whole":
            number = _without_unit(folded, field.unit)
            if re.fullmatch(r"[0-9]{1,6}", number):
                return int(number)
            raise Refused(f"“{said[:30]}” is no whole number: type {_wanted(field)}")
        case "number":
            figure = _without_unit(folded, field.unit)
            if re.fullmatch(r"[0-9]{1,6}([.,][0-9]{1,20})?", figure):
                exact = float(figure.replace(",", "."))
                return int(exact) if exact.is_integer() else exact
            raise Refused(f"“{said[:30]}” is no number: type {_wanted(field)}")
        case "day":
            day = read_whole_day(said)
            if day is None:
                raise Refused(f"“{said[:30]}” is no day: write it as 2026-11-26")
            return day
        case "flag":
            return yes_or_no(said)
        case "choice":
            for words, written in field.choices:
                if folded in (words, written):
                    return written
            these = " or ".join(words for words, _ in field.choices)
            raise Refused(f"“{said[:30]}” is none of the two: type {these}")
        case "term":
            return term_code(said)
        case "texts":
            return [part for part in re.split(r"[,\s]+", said) if part]
        case _:
            return said


def shown(field: Field, value: object) -> str:
    """Return a value of the room file as people read it: `35 min`, `yes`, `anyone`."""
    if value is None or (value == [] and field.kind == "texts"):
        return field.missing or "none"
    match value:
        case bool():
            return "yes" if value else "no"
        case list() if field.kind == "plan":
            return plan_shown(value)
        case list():
            return " ".join(map(str, value))
        case date():
            return whole_day(value)
    if field.kind == "choice":
        return next((words for words, one in field.choices if one == value), str(value))
    return f"{value} {field.unit}" if field.unit else str(value)


def to_edit(field: Field, value: object) -> str:
    """Return a value to begin from where it is easier to change than to type anew, else nothing."""
    if field.kind in ("text", "texts", "plan") and value not in (None, []):
        return (
            ", ".join(map(str, value))
            if field.kind == "plan" and isinstance(value, list)
            else (shown(field, value))
        )
    return ""


def _without_unit(text: str, unit: str) -> str:
    for word in _UNITS.get(unit, ()):
        if text.endswith(word) and text[: -len(word)].strip()[-1:].isdigit():
            return text[: -len(word)].strip()
    return text


def _wanted(field: Field) -> str:
    return f"a number of {field.unit}" if field.unit else "figures alone"
