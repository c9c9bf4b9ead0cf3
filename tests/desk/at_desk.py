"""A person at a desk in a test: types lines, presses keys, reads what stands there."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from datetime import datetime, timedelta
from pathlib import Path

from textual import events
from textual.pilot import Pilot

from filmrack.desk.answer import Answer
from filmrack.desk.app import Desk
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from filmrack.store import rolls
from tests.conftest import TUESDAY_9_00


class AtDesk:
    """The desk, the wall's clock and the hands on the keyboard."""

    def __init__(self, path: Path, now: datetime = TUESDAY_9_00) -> None:
        self.now = now
        self.app = Desk(path, machine=lambda: self.now)
        self.pilot: Pilot[None]
        self._ticks = 0.0

    async def type(self, text: str) -> None:
        """Type a text without ending it."""
        self._ticks += 5
        self.line.post_message(events.Paste(text))
        await self.pilot.pause()

    async def say(self, text: str) -> str:
        """Type a line and end it; return what the desk answers."""
        await self.type(text)
        await self.press("enter")
        return self.answer

    async def press(self, *keys: str) -> None:
        for key in keys:
            self._ticks += 5
            await self.pilot.press(key)
            await self.pilot.pause()

    async def wait(self, *, seconds: float = 0, minutes: float = 0) -> None:
        """Let time pass and the desk look at its clock."""
        self.now += timedelta(seconds=seconds, minutes=minutes)
        self.app.draw()
        await self.pilot.pause()

    @property
    def line(self) -> Line:
        return self.app.query_one(Line)

    @property
    def answer(self) -> str:
        answer = self.app.query_one(Answer)
        return f"{answer.headline}. {answer.words}" if answer.display else ""

    @property
    def screen(self) -> str:
        return self.app.view.screen_id

    @property
    def shown(self) -> str:
        """Return the words of all that is displayed."""
        shown = [each for each in self.app.query(Lines) if each.is_on_screen and each.display]
        rows = [line.plain for each in shown for line in each._lines]
        strip = self.line.render_line(0)
        return "\n".join([*rows, strip.text])

    @property
    def rolls(self) -> dict[int, str]:
        """Return the place of each clip that is on a roll."""
        found = rolls.read(self.app.session.file.conn, "clip IS NOT NULL")
        return {roll.clip: str(roll.place) for roll in found if roll.clip is not None}


@asynccontextmanager
async def at_desk(
    path: Path, now: datetime = TUESDAY_9_00, size: tuple[int, int] = (120, 34)
) -> AsyncIterator[AtDesk]:
    """Sit down at a desk on a file."""
    desk = AtDesk(path, now)
    async with desk.app.run_test(size=size, notifications=True) as pilot:
        desk.pilot = pilot
        desk.line.ticks = lambda: desk._ticks
        await pilot.pause()
        yield desk
