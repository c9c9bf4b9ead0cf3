"""Names as they may have been meant by a word with typing errors.

A typing error is one of Damerau and Levenshtein's: a letter too many, missing, another, or two that
changed places.
"""

from __future__ import annotations

import sqlite3

from filmrack.store.rows import beginning_with

MOST = 20
_LEAST_LETTERS, _TWO_ERRORS = 3, 6
"""Shorter words have no similar ones; from the second length on a word may have two errors."""
_BEGINNING, _ENDING = (
    f"SELECT DISTINCT {column} FROM name_tokens WHERE {column} >= ? AND {column} < ?"
    f" AND length({column}) BETWEEN ? AND ?"
    for column in ("token", "backward")
)


def meant_by(conn: sqlite3.Connection, word: str) -> list[str]:
    """Return the names that a folded word is nearest to, best first.

    Those with one error, or where there are none and the word is long, with two: of these, names
    that begin with the same letter or end in the same third. Comparing the word with all names
    there ever were takes ten times as long.
    """
    if len(word) < _LEAST_LETTERS:
        return []
    near = _nearest(word, _sharing_a_half(conn, word), 1)
    if near or len(word) < _TWO_ERRORS:
        return near
    return _nearest(word, _named(conn, word, word[:1], word[-(len(word) // 3) :], 2), 2)


def _sharing_a_half(conn: sqlite3.Connection, word: str) -> set[str]:
    """Return all names that one error can have turned into a word, and others.

    One error leaves its first half as it was, or its second, unless the letters on both sides of
    the middle changed places: so however many names there are, few are looked at.
    """
    # The beginning gets the odd letter, but not at the cost of an end of one letter: too many names
    # share that.
    half = len(word) // 2 if len(word) < 5 else (len(word) + 1) // 2
    swapped = word[: half - 1] + word[half] + word[half - 1] + word[half + 1 :]
    found = _named(conn, word, word[:half], word[half:], 1)
    if conn.execute("SELECT 1 FROM name_tokens WHERE token = ?", (swapped,)).fetchone():
        found.add(swapped)
    return found


def _named(conn: sqlite3.Connection, word: str, beginning: str, end: str, errors: int) -> set[str]:
    """Return the names with a beginning or an end that so many errors can make as long as a word.

    Each by its own index in order, so that SQLite passes over a frequent name's many people.
    """
    lengths = len(word) - errors, len(word) + errors
    begun = conn.execute(_BEGINNING, (*beginning_with(beginning), *lengths)).fetchall()
    ended = conn.execute(_ENDING, (*beginning_with(end[::-1]), *lengths)).fetchall()
    return {name for (name,) in begun} | {backward[::-1] for (backward,) in ended}


def _nearest(word: str, names: set[str], errors: int) -> list[str]:
    from rapidfuzz import process
    from rapidfuzz.distance import DamerauLevenshtein

    near = process.extract(
        word, sorted(names), scorer=DamerauLevenshtein.distance, score_cutoff=errors, limit=MOST
    )
    return [name for name, _, _ in near]
