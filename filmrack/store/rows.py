"""Rows as they are understood: what cannot be is damage, not a fault of whoever asked."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def understood(what: str) -> Iterator[None]:
    """Turn rows that make no sense into the error that SQLite raises for damage it finds itself."""
    try:
        yield
    except (ValueError, KeyError, TypeError, IndexError) as error:
        raise sqlite3.DatabaseError(f"malformed {what}: {error}") from error
