"""The clock that a file goes by: the machine's, or its own in a demo.

A demo stands still at its moment (`clock_stands`); a desk's scratch copy of it goes on from there
(`clock_behind`, in seconds).
"""

from __future__ import annotations

import sqlite3
from datetime import datetime, timedelta

from filmrack.store import settings
from filmrack.store.times import from_text, to_text


def now_in(conn: sqlite3.Connection, machine: datetime) -> datetime:
    """Return what time it is for this file, given the machine's."""
    stands = settings.read(conn, "clock_stands")
    if isinstance(stands, str):
        return from_text(stands)
    behind = settings.read(conn, "clock_behind")
    if isinstance(behind, int):
        machine -= timedelta(seconds=behind)
    return machine.replace(microsecond=0)


def stand_at(conn: sqlite3.Connection, moment: datetime) -> None:
    """Let the file's clock stand still."""
    settings.write(conn, "clock_stands", to_text(moment))


def set_going(conn: sqlite3.Connection, machine: datetime) -> None:
    """Let a standing clock go on from where it stands."""
    stands = settings.read(conn, "clock_stands")
    if isinstance(stands, str):
        settings.write(conn, "clock_behind", round((machine - from_text(stands)).total_seconds()))
        settings.forget(conn, "clock_stands")


def is_demo(conn: sqlite3.Connection) -> bool:
    """Tell whether the file has a clock of its own."""
    return any(settings.read(conn, name) is not None for name in ("clock_stands", "clock_behind"))
