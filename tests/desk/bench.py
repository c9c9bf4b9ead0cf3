"""A desk under test: its clocks are turned by hand, its screen is read as plain rows."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime, timedelta
from pathlib import Path

from textual.pilot import Pilot

from filmrack.desk.app import Desk
from filmrack.desk.line import Line
from filmrack.desk.view import View
from filmrack.domain.roll import Roll
from filmrack.store import rolls
from tests.conftest import TUESDAY_9_00

_NAMES = {" ": "space", ".": "full_stop", "/": "slash", "-": "minus", "?": "question_mark"}


class AtTheDesk:
    """Somebody at a desk, with a keyboard, a scanner and a wall clock."""

    def __init__(self, path: Path, now: datetime, colours: str) -> None:
        self.now = now
        self.ticks = 1000.0
        self.keys = 0
        """Keys that a hand has pressed; scans are counted apart."""
        self.scans = 0
        self.desk = Desk(path, machine=lambda: self.now, colours=colours)
        self.pilot: Pilot[None]

    async def wait(self, seconds: float) -> None:
        self.now += timedelta(seconds=seconds)
        self.ticks += seconds
        self.desk.draw()
        await self.pilot.pause()

    async def press(self, *keys: str) -> None:
        """Press keys, a good second apart."""
        for key in keys:
            self.keys += 1
            self.ticks += 1.5
            await self.pilot.press(key)
        await self.pilot.pause()

    async def type(self, text: str) -> None:
        for one in text:
            self.keys += 1
            self.ticks += 0.1
            await self.pilot.press(_NAMES.get(one, one))
        await self.pilot.pause()

    async def scan(self, code: str, *ending: str) -> None:
        """Scan a code with a scanner that ends in Enter unless told otherwise."""
        self.scans += 1
        self.ticks += 1.5
        for one in code:
            await self.pilot.press(one)
        for key in ending or ("enter",):
            await self.pilot.press(key)
        await self.pilot.pause()

    def rows(self) -> list[str]:
        """Return the screen as plain rows."""
        strips = self.desk.screen._compositor.render_strips()
        return ["".join(segment.text for segment in strip).rstrip() for strip in strips]

    @property
    def screen(self) -> str:
        return "\n".join(self.rows())

    def on(self, clip: int) -> Roll:
        roll = rolls.on_clip(self.desk.session.file.conn, clip)
        assert roll is not None
        return roll

    @property
    def acts(self) -> list[str]:
        """Return the acts on rolls that stand in the ledger, in their order."""
        sql = "SELECT act FROM ledger WHERE roll IS NOT NULL ORDER BY id"
        return [row[0] for row in self.desk.session.file.conn.execute(sql).fetchall()]


@asynccontextmanager
async def at_the_desk(
    path: Path,
    size: tuple[int, int] = (120, 34),
    now: datetime = TUESDAY_9_00,
    colours: str = "dim",
) -> AsyncIterator[AtTheDesk]:
    """Sit down at a desk on a darkroom file."""
    here = AtTheDesk(path, now, colours)
    async with here.desk.run_test(size=size, notifications=True) as pilot:
        here.pilot = pilot
        while not here.desk.query(View):
            await pilot.pause()
        here.desk.query_one(Line).ticks = lambda: here.ticks
        here.desk.draw()
        await pilot.pause()
        yield here
