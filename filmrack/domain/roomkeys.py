"""Values of a room file by their keys, with every mistake kept instead of the first one raised."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from math import isfinite

from filmrack.domain.names import clean
from filmrack.domain.refusal import Refused
from filmrack.domain.roomproblems import Problem, expected

LONGEST_LIST = 2000
FIRST_YEAR, LAST_YEAR = 1990, 2199


class Section:
    """One table of a room file: its values are asked for by key, and what is wrong is kept.

    A value that is wrong or missing without a default is told to `problems`, and something
    harmless returned, so that the reading goes on to the next mistake.
    """

    def __init__(self, values: dict[str, object], path: str, problems: list[Problem]) -> None:
        self._values = values
        self.path = path
        self.problems = problems
        self._asked: set[str] = set()

    def key(self, name: str) -> str:
        """Return the dotted key of a value in this table."""
        return f"{self.path}.{name}" if self.path else name

    def wrong(self, name: str, what: str) -> None:
        """Keep that something else was expected under a key: `a whole number`."""
        self.problems.append(expected(self.key(name), what))

    def advise(self, name: str, advice: str) -> None:
        """Keep what to do about a key where more is wrong than what is given there."""
        self.problems.append(Problem(self.key(name), advice))

    def wrong_key(self, name: str, advice: str) -> None:
        """Keep that a key itself is wrong, whatever a person wrote there, and what to do."""
        self.advise(_shown(name), advice)

    def keys(self) -> list[str]:
        """Return the keys that stand in the table, as given; all count as asked for."""
        self._asked.update(self._values)
        return list(self._values)

    def raw(self, name: str) -> object:
        """Return what stands under a key, or None."""
        self._asked.add(name)
        return self._values.get(name)

    def whole(self, name: str, least: int, most: int, default: int | None = None) -> int:
        """Return a whole number within bounds."""
        value = self.raw(name)
        if value is None and default is not None:
            return default
        if isinstance(value, int) and not isinstance(value, bool) and least <= value <= most:
            return value
        self.wrong(name, f"a whole number from {least} to {most}")
        return least

    def number(self, name: str, least: float, most: float, default: float | None = None) -> float:
        """Return a number within bounds."""
        value = self.raw(name)
        if value is None and default is not None:
            return default
        if (
            isinstance(value, int | float)
            and not isinstance(value, bool)
            and isfinite(value)
            and least <= value <= most
        ):
            return float(value)
        self.wrong(name, f"a number from {least:g} to {most:g}")
        return least

    def text(self, name: str, longest: int, default: str | None = None) -> str:
        """Return a text in quotation marks that can be shown, tidied."""
        value = self.raw(name)
        if value is None and default is not None:
            return default
        if isinstance(value, str):
            try:
                tidy = clean(value, "it")
            except Refused:
                tidy = ""
            if 1 <= len(tidy) <= longest:
                return tidy
        self.wrong(name, f'a text in quotation marks, "…", of 1 to {longest} characters')
        return ""

    def choice(self, name: str, choices: Sequence[str], default: str) -> str:
        """Return one of some words."""
        value = self.raw(name)
        if value is None:
            return default
        if isinstance(value, str) and value in choices:
            return value
        self.wrong(name, "one of " + ", ".join(f'"{choice}"' for choice in choices))
        return default

    def flag(self, name: str, *, default: bool) -> bool:
        """Return true or false."""
        value = self.raw(name)
        if value is None:
            return default
        if isinstance(value, bool):
            return value
        self.wrong(name, "true or false")
        return default

    def day(self, name: str, default: date | None = None) -> date | None:
        """Return a date, written as 2026-11-26; None when it is wrong or missing."""
        value = self.raw(name)
        if value is None and default is not None:
            return default
        if isinstance(value, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", value):
            try:
                value = date.fromisoformat(value)
            except ValueError:
                value = None
        # A time of day makes it another kind of value, which is a date too in Python.
        if type(value) is date and FIRST_YEAR <= value.year <= LAST_YEAR:
            return value
        self.wrong(name, f"a date from {FIRST_YEAR} to {LAST_YEAR}, as in 2026-11-26")
        return None

    def texts(self, name: str) -> list[str] | None:
        """Return a list of texts, or None when there is none."""
        value = self.raw(name)
        if value is None:
            return None
        if (
            isinstance(value, list)
            and len(value) <= LONGEST_LIST
            and all(isinstance(one, str) for one in value)
        ):
            return list(value)
        self.wrong(name, 'a list of texts, as in ["…", "…"]')
        return None

    def section(self, name: str) -> Section:
        """Return a table within this one, empty when it is missing."""
        value = self.raw(name)
        if value is not None and not isinstance(value, dict):
            self.wrong(name, f"a table: write [{self.key(name)}] and its keys below")
        return Section(value if isinstance(value, dict) else {}, self.key(name), self.problems)

    def sections(self, name: str, most: int = LONGEST_LIST) -> list[Section]:
        """Return a list of tables, empty when it is missing; they are counted from 1."""
        value = self.raw(name)
        if value is None:
            return []
        if not isinstance(value, list) or len(value) > most:
            self.wrong(name, f"a list of up to {most} entries in braces, as in [{{ … }}, {{ … }}]")
            return []
        found = []
        for nth, one in enumerate(value, 1):
            if isinstance(one, dict):
                found.append(Section(one, f"{self.key(name)}[{nth}]", self.problems))
            else:
                self.wrong(f"{name}[{nth}]", "an entry in braces, as in { … }")
        return found

    def close(self, elsewhere: Sequence[str] = ()) -> None:
        """Keep every key that nobody asked for, with the nearest one that is known."""
        for name in self._values:
            if name in self._asked:
                continue
            if name in elsewhere:
                advice = "write this key further up, above the first line in square brackets"
            else:
                advice = _nearest(name, sorted(self._asked))
            self.wrong_key(name, advice)


def _nearest(name: str, known: list[str]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(name[:100], known, 1)
    if close:
        return f"there is no such key, write {close[0]} instead"
    return f"there is no such key, write one of {', '.join(known)} instead"


def _shown(name: str) -> str:
    """Return a key as it can be shown: what a person wrote may hold anything."""
    if len(name) <= 60 and re.fullmatch(r"[A-Za-z0-9_-]+", name):
        return name
    try:
        return f'"{clean(name, "it")[:60]}"'
    except Refused:
        return ascii(name[:60])
