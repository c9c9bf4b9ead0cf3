"""What stood before a change of the room, of people or of clip pairs, so that undo finds it again.

It stands in a note and not on the ledger, which is never changed: names must be able to go, and
with a name go the notes that say it.
"""

from __future__ import annotations

import sqlite3

from filmrack.domain.refusal import Refused
from filmrack.store import people


def keep_former(conn: sqlite3.Connection, text: str) -> int:
    """Keep what stood before a change; return the number that its entry on the ledger names."""
    return people.add_note(conn, text)


def former(conn: sqlite3.Connection, number: int, *, of: str) -> str:
    """Return what was kept under a number before a change of `of`, such as “the room”.

    Raises Refused where it went with a name that it said.
    """
    text = people.read_note(conn, number)
    if not text:
        raise Refused(
            f"that change of {of} stays because what was before it said a name that was wiped:"
            " change it back on the screen Room"
        )
    return text
