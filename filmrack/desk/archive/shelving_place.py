"""Where old sleeves are shelved: binder, term and film, as a line says them."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.domain.asking import code_in
from filmrack.domain.binder import binder_number
from filmrack.domain.film import film_named
from filmrack.domain.refusal import Refused
from filmrack.domain.termcode import is_term_code


class ShelvingPlace(NamedTuple):
    """A binder of a term, and the film that is on all the sleeves; None for the room's usual.

    `term_named` when the line said which term, and did not leave it to the one that is shown.
    """

    term: str
    binder: int
    film: str | None = None
    term_named: bool = True


def place_named(line: str, shown: str) -> ShelvingPlace | None:
    """Return where a line shelves: `3`, `26S-02`, `24F 2`, `3 of 24F 120-6x6`; None for no binder.

    Without a term it is the one that is shown. Raises Refused for what is no binder or no film.
    """
    words = [word for word in line.split() if word.casefold() not in ("binder", "term", "of", "in")]
    term = next((word.upper() for word in words[:2] if is_term_code(word.upper())), "")
    words = [word for word in words if word.upper() != term]
    if not words:
        return None
    number = binder_number(words[0])
    of_binder = words[0].upper().rpartition("-")[0] if "-" in words[0] else ""
    of_binder = of_binder or _of_code(words[0])
    if term and of_binder and term != of_binder:
        raise Refused(f"binder {words[0]} is of term {of_binder}, not {term}: name one of the two")
    film = film_named(" ".join(words[1:])).text if words[1:] else None
    named = of_binder or term
    return ShelvingPlace(named or shown, number, film, bool(named))


def _of_code(word: str) -> str:
    """Return the term of a scanned spine; empty for what is none."""
    code = code_in(word)
    return code.parts[0] if code is not None and code.kind == "A" else ""


def term_in(line: str) -> str:
    """Return the term that a line names without a binder; empty for none."""
    words = line.upper().split()
    return next((word for word in words if is_term_code(word)), "")
