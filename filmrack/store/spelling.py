"""Names as they may have been meant by a word with typing errors.

A typing error is one of Damerau and Levenshtein's: a letter too many, missing, another, or two that
changed places.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence

from filmrack.store.rows import beginning_with

MOST = 20
_LEAST_LETTERS, _TWO_ERRORS = 3, 6
"""Shorter words have no similar ones; from the second length on a word may have two errors."""


def meant_by(conn: sqlite3.Connection, word: str) -> list[str]:
    """Return the names that a folded word is nearest to, best first.

    Those with one error, or where there are none and the word is long, with two.
    """
    if len(word) < _LEAST_LETTERS:
        return []
    near = _nearest(word, _sharing_a_half(conn, word), 1)
    if near or len(word) < _TWO_ERRORS:
        return near
    everything = conn.execute("SELECT DISTINCT token FROM name_tokens").fetchall()
    return _nearest(word, [row[0] for row in everything], 2)


def _sharing_a_half(conn: sqlite3.Connection, word: str) -> list[str]:
    """Return all names that one error can have turned into a word, and others.

    One error leaves its first half as it was, or its second, unless the letters on both sides of
    the middle changed places: so however many names there are, few are looked at.
    """
    # The beginning gets the odd letter, but not at the cost of an end of one letter: too many names
    # share that.
    half = len(word) // 2 if len(word) < 5 else (len(word) + 1) // 2
    swapped = word[: half - 1] + word[half] + word[half - 1] + word[half + 1 :]
    # Each by its own index in order, so that SQLite passes over a frequent name's many people.
    by_first = "SELECT DISTINCT token FROM name_tokens WHERE token >= ? AND token < ?"
    by_second = "SELECT DISTINCT backward FROM name_tokens WHERE backward >= ? AND backward < ?"
    found = {name for (name,) in conn.execute(by_first, beginning_with(word[:half])).fetchall()}
    ends = conn.execute(by_second, beginning_with(word[half:][::-1])).fetchall()
    found.update(backward[::-1] for (backward,) in ends)
    if conn.execute("SELECT 1 FROM name_tokens WHERE token = ?", (swapped,)).fetchone():
        found.add(swapped)
    return sorted(found)


def _nearest(word: str, names: Sequence[str], errors: int) -> list[str]:
    from rapidfuzz import process
    from rapidfuzz.distance import DamerauLevenshtein

    near = process.extract(
        word, names, scorer=DamerauLevenshtein.distance, score_cutoff=errors, limit=MOST
    )
    return [name for name, _, _ in near]
