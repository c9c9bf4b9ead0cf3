"""What waits to be cut and sleeved: in the period boxes, and with its owners."""

from __future__ import annotations

from datetime import datetime

from filmrack.store import rolls
from filmrack.store.file import DarkroomFile
from filmrack.store.standings import Seen, see


def to_be_sleeved(file: DarkroomFile, now: datetime) -> Seen:
    """Return the uncut rolls in boxes and with their owners, longest there first."""
    there = rolls.read(
        file.conn, "place IN ('box', 'owner') AND sleeved_at IS NULL ORDER BY since, id"
    )
    return see(file, there, now)
