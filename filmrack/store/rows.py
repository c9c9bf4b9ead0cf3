"""How rows are asked for, and understood: what cannot be is damage, not a fault of who asked."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import TypeVar

_T = TypeVar("_T")
_AT_ONCE = 500


def marks(values: Sequence[object]) -> str:
    """Return a placeholder for each value of an SQL list."""
    return ", ".join("?" * len(values))


def in_parts(values: Sequence[_T]) -> Iterator[Sequence[_T]]:
    """Yield values in lists that are short enough for SQL and for memory."""
    for first in range(0, len(values), _AT_ONCE):
        yield values[first : first + _AT_ONCE]


def beginning_with(text: str) -> tuple[str, str]:
    """Return from which text on, and below which, all are that begin with one."""
    return text, text + "\U0010ffff"


@contextmanager
def understood(what: str) -> Iterator[None]:
    """Turn rows that make no sense into the error that SQLite raises for damage it finds itself."""
    try:
        yield
    except (ValueError, KeyError, TypeError, IndexError) as error:
        raise sqlite3.DatabaseError(f"malformed {what}: {error}") from error
