"""Moments as the file keeps them: UTC, ISO 8601, whole seconds, so that text sorts as time."""

from __future__ import annotations

import sqlite3
from datetime import UTC, datetime


def to_text(moment: datetime) -> str:
    """Return an aware moment as `2026-11-17T10:31:00Z`; fractions of a second are cut."""
    return moment.astimezone(UTC).isoformat(timespec="seconds")[:19] + "Z"


def from_text(text: str) -> datetime:
    """Return the aware UTC moment that `to_text` wrote.

    Raises the error that SQLite raises for damage where it is none.
    """
    try:
        return datetime.fromisoformat(text)
    except (TypeError, ValueError) as error:
        raise sqlite3.DatabaseError(f"malformed time {text!r}") from error


def maybe(text: str | None) -> datetime | None:
    """Return the moment, or None where none is kept."""
    return None if text is None else from_text(text)


def maybe_text(moment: datetime | None) -> str | None:
    """Return the text of a moment, or None."""
    return None if moment is None else to_text(moment)
