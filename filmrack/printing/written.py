"""Reading what a teacher may write: TOML files with lengths that name their unit."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeVar

from filmrack.domain.refusal import Refused
from filmrack.shipped import shipped

T = TypeVar("T")

_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72}
_LENGTH = re.compile(r"\s*(\d+(?:\.\d+)?|\.\d+)\s*(mm|cm|in|pt)\s*")
_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def millimetres(text: object, where: str) -> float:
    """Return a length written with its unit (`2.625 in`, `63.5 mm`, `1 cm`, `6 pt`) in mm.

    Raises Refused, naming `where`, for anything else: a bare number could mean either unit.
    """
    match = _LENGTH.fullmatch(text) if isinstance(text, str) else None
    if match is None:
        raise Refused(
            f"{where} is {text!r}, which is no length: "
            'write it with its unit, such as "25.4 mm" or "1 in"'
        )
    return float(match[1]) * _MM[match[2]]


def whole(value: object, where: str) -> int:
    """Return a whole number above zero, or raise Refused naming `where`."""
    if type(value) is not int or value < 1:
        raise Refused(f"{where} is {value!r}: write a whole number above zero")
    return value


def yes_or_no(value: object, where: str) -> bool:
    """Return a truth value, or raise Refused naming `where`."""
    if type(value) is not bool:
        raise Refused(f"{where} is {value!r}: write true or false")
    return value


def words(value: object, where: str) -> str:
    """Return a text that is not empty, or raise Refused naming `where`."""
    if not isinstance(value, str) or not value.strip():
        raise Refused(f"{where} is {value!r}: write a text in quotes")
    return value


def several(
    value: object, where: str, one: Callable[[object, str], T], least: int = 1
) -> tuple[T, ...]:
    """Return a list of `least` or more things, each read by `one`, or raise Refused."""
    if not isinstance(value, list) or len(value) < least:
        raise Refused(f"{where} is {value!r}: write a list in square brackets")
    return tuple(one(each, where) for each in value)


def table(value: object, where: str, needs: set[str], may: set[str]) -> Mapping[str, object]:
    """Return a TOML table that has all the keys it needs and none that are unknown.

    Raises Refused naming the unknown or missing keys.
    """
    if not isinstance(value, dict):
        raise Refused(f"{where} is no table: write it as [{where.rsplit(' ', 1)[-1]}]")
    if unknown := sorted(set(value) - needs - may):
        raise Refused(
            f"{where} has the unknown key {', '.join(unknown)}: "
            f"remove it, the keys here are {', '.join(sorted(needs | may))}"
        )
    if absent := sorted(needs - set(value)):
        raise Refused(f"{where} lacks the key {', '.join(absent)}: add it")
    return value


def read_toml(path: Path) -> dict[str, object]:
    """Return what a TOML file says; raises Refused when it cannot be read."""
    try:
        with path.open("rb") as file:
            return tomllib.load(file)
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as trouble:
        raise Refused(f"{path} cannot be read ({trouble}): correct the file") from trouble


def find(folder: str, name: str, own: Path | None) -> Path:
    """Return the file of a name in `stock` or `design`; one in the user's own folder wins.

    Raises Refused, listing the names that there are, when neither has it.
    """
    if _NAME.fullmatch(name):
        for root in _roots(own):
            if (path := root / folder / f"{name}.toml").is_file():
                return path
    there = ", ".join(names(folder, own))
    raise Refused(f"there is no {folder} named “{name}”: choose one of {there}")


def names(folder: str, own: Path | None) -> tuple[str, ...]:
    """Return the names in `stock` or `design`, the user's own among them, in order."""
    return tuple(sorted({p.stem for root in _roots(own) for p in (root / folder).glob("*.toml")}))


def _roots(own: Path | None) -> tuple[Path, ...]:
    return (shipped("labels"),) if own is None else (own, shipped("labels"))
