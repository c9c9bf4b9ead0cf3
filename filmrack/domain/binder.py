"""Binders as they are named when film is filed."""

from __future__ import annotations

import re
from collections.abc import Iterable

from filmrack.domain.asking import code_in
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll

HIGHEST_BINDER = 99

_IN_FRONT = re.compile(r"\A(?:in |into )?(?:the )?(?:binder)?\s*")


def binder_number(text: str, rolls: Iterable[Roll] = ()) -> int:
    """Return the number of a binder that rolls are filed in: `3`, `in binder 26F-03`, or its code.

    Raises Refused for what is no binder, and for one of another term than a roll's.
    """
    code = code_in(text)
    if code is not None and code.kind == "A":
        term, number = code.parts
    else:
        plain = _IN_FRONT.sub("", text.casefold().strip())
        term, _, number = plain.upper().rpartition("-")
    if not (number.isascii() and number.isdecimal() and 1 <= int(number[:9]) <= HIGHEST_BINDER):
        raise Refused(
            f"“{text.strip()[:40]}” is no binder: give its number, from 1 to {HIGHEST_BINDER}, or"
            " scan it"
        )
    other = next((roll for roll in rolls if term and roll.term != term), None)
    if other is not None:
        raise Refused(
            f"binder {term}-{int(number):02d} is of another term than {other.number}: file it in"
            f" one of {other.term}"
        )
    return int(number)


def binder_called(term: str, number: int, here: str) -> str:
    """Return a binder as people say it in the term `here`: `binder 3`, else `binder 26S-03`."""
    return f"binder {number}" if term == here else f"binder {term}-{number:02d}"


def refuse_other_binders(number: int) -> None:
    """Raise Refused for a number that no binder has."""
    if not 1 <= number <= HIGHEST_BINDER:
        raise Refused(
            f"there is no binder {number}: binders of a term are numbered from 1 to"
            f" {HIGHEST_BINDER}"
        )
