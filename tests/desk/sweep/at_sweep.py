"""The sweep as tests of it begin: what hangs, where the hand is, and what is where then."""

from __future__ import annotations

from collections import Counter
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime, timedelta
from pathlib import Path

from filmrack.domain.codes import clip_code, rod_code
from filmrack.store import rolls, sweeps
from tests.conftest import TUESDAY_9_00, School
from tests.desk.at_desk import AtDesk, at_desk

FORTY = (6, 6, 6, 6, 6, 5, 5)
"""Rolls on each of seven rods."""
EVENING = TUESDAY_9_00 + timedelta(hours=8)


def places(here: AtDesk) -> Counter[str]:
    """Return how many rolls are where, without their position on a rod."""
    found = rolls.read(here.app.session.file.conn, "place <> 'void'")
    return Counter(str(roll.place).partition(",")[0] for roll in found)


async def begin(here: AtDesk) -> None:
    here.app.face.go("sweep")
    await here.wait()
    here.keys = here.scans = 0


@asynccontextmanager
async def sweep_begun(
    path: Path, now: datetime = EVENING, size: tuple[int, int] = (120, 34), colours: str = "dim"
) -> AsyncIterator[AtDesk]:
    """Sit down at a desk, in the evening mostly, and open the sweep; no key is counted yet."""
    async with at_desk(path, now=now, size=size, colours=colours) as here:
        await begin(here)
        yield here


async def finished(here: AtDesk) -> None:
    """Rod 1 is counted and boxed, the others are not looked at, and the sweep is finished."""
    await begin(here)
    await here.press("enter", "end", "enter")
    assert "Swept" in here.screen


def sweeps_told(here: AtDesk) -> int:
    conn = here.app.session.file.conn
    return len(sweeps.finished(conn, 9)) + (sweeps.going_on(conn) is not None)


@asynccontextmanager
async def partly_dry_rod(partly_dry: Path, school: School) -> AsyncIterator[AtDesk]:
    """Rod 2: three dry strips, clips 1 to 3, and seven wet ones, clips 4 to 10."""
    async with sweep_begun(partly_dry, now=school.now + timedelta(minutes=5)) as here:
        await here.scan(rod_code(2))
        assert "10 should hang" in here.screen
        yield here


async def scan_the_dry(here: AtDesk) -> None:
    for clip in (1, 2, 3):
        await here.scan(clip_code(clip, "A"))
