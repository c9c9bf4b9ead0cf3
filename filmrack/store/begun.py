"""Whether a sweep goes on: each screen asks, and what a sweep holds is read only where one does."""

from __future__ import annotations

import sqlite3


def a_sweep_goes_on(conn: sqlite3.Connection) -> bool:
    """Tell whether a sweep was begun and not finished, at whichever desk."""
    return conn.execute("SELECT 1 FROM sweeps WHERE finished IS NULL").fetchone() is not None
