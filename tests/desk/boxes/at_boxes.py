"""Somebody at the screen Boxes in a test."""

from __future__ import annotations

from datetime import timedelta

from tests.conftest import TUESDAY_9_00
from tests.desk.at_desk import AtDesk

LATER = TUESDAY_9_00 + timedelta(hours=1)


async def go(here: AtDesk) -> None:
    here.app.face.go("boxes")
    await here.pilot.pause()


def marked(here: AtDesk) -> str:
    """Return the row of the selected roll."""
    return next((row for row in here.rows() if row.strip().startswith("▸")), "")
