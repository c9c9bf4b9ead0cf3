"""A person at a desk in a test: keys, lines, scans and pastes, and what stands there then."""

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
from filmrack.desk.view import View
from filmrack.domain.roll import Roll
from filmrack.store import rolls
from tests.conftest import TUESDAY_9_00
from tests.desk.settled import wait_exactly

_NAMES = {" ": "space", ".": "full_stop", "/": "slash", "-": "minus", "?": "question_mark"}
"""What Textual calls keys that are not called by their sign."""


class AtDesk:
    """Somebody at a desk, with a keyboard, a scanner and a wall clock."""

    def __init__(self, path: Path, now: datetime, colours: str) -> None:
        self.now = now
        self.ticks = 1000.0
        self.keys = 0
        """Keys that a hand has pressed; scans are counted apart."""
        self.scans = 0
        self.app = Desk(path, machine=lambda: self.now, colours=colours)
        self.pilot: Pilot[None]

    async def wait(self, *, seconds: float = 0, minutes: float = 0) -> None:
        """Let time pass and the desk look at its clock."""
        passed = timedelta(seconds=seconds, minutes=minutes)
        self.now += passed
        self.ticks += passed / timedelta(seconds=1)
        self.app.draw()
        await self.pilot.pause()

    async def press(self, *keys: str) -> None:
        """Press keys, a good second apart."""
        for key in keys:
            self.keys += 1
            self.ticks += 1.5
            await self.pilot.press(key)
        await self.pilot.pause()

    async def type(self, text: str) -> None:
        """Type a text key by key, without ending it."""
        for one in text:
            self.keys += 1
            self.ticks += 0.1
            await self.pilot.press(_NAMES.get(one, one))
        await self.pilot.pause()

    async def paste(self, text: str) -> None:
        """Paste a text, without ending it."""
        self.ticks += 5
        self.line.post_message(events.Paste(text))
        await self.pilot.pause()

    async def say(self, text: str) -> str:
        """Paste a line and end it; return what the desk answers."""
        await self.paste(text)
        self.ticks += 5
        await self.press("enter")
        return self.answer

    async def enter(self, text: str = "", *, till_done: bool = True) -> None:
        """Type a line and press Enter, long enough behind the last one to be meant.

        Waits for what the desk does beside it, as a page that is read or a term that is closed,
        unless told not to.
        """
        self.ticks += 5
        await self.type(text)
        await self.press("enter")
        if till_done:
            await self.app.workers.wait_for_complete()
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

    @property
    def line(self) -> Line:
        return self.app.query_one(Line)

    @property
    def answer(self) -> str:
        answer = self.app.query_one(Answer)
        return f"{answer.headline}. {answer.words}" if answer.display else ""

    @property
    def open(self) -> str:
        """Return which screen is open."""
        return self.app.view.screen_id

    def rows(self) -> list[str]:
        """Return what the screen shows as plain rows."""
        strips = self.app.screen._compositor.render_strips()
        return ["".join(segment.text for segment in strip).rstrip() for strip in strips]

    @property
    def screen(self) -> str:
        return "\n".join(self.rows())

    @property
    def page(self) -> str:
        """Return the rows of the screen that is open, without what stands around it."""
        view = self.app.view
        return "\n".join(view.render_line(row).text.rstrip() for row in range(view.size.height))

    def part(self, kind: type[Lines]) -> str:
        """Return what a part of the desk shows, as one row of words."""
        lines = self.app.query_one(kind)
        rows = [lines.render_line(row).text.strip() for row in range(lines.size.height)]
        return " ".join(" ".join(rows).split())

    @property
    def shown(self) -> str:
        """Return the words of all that is displayed, also of what is scrolled out of sight."""
        shown = [each for each in self.app.query(Lines) if each.is_on_screen and each.display]
        rows = [line.plain for each in shown for line in each._lines]
        return "\n".join([*rows, self.line.render_line(0).text])

    def on(self, clip: int) -> Roll:
        roll = rolls.on_clip(self.app.session.file.conn, clip)
        assert roll is not None
        return roll

    @property
    def rolls(self) -> dict[int, str]:
        """Return the place of each clip that is on a roll."""
        found = rolls.read(self.app.session.file.conn, "clip IS NOT NULL")
        return {roll.clip: str(roll.place) for roll in found if roll.clip is not None}

    @property
    def acts(self) -> list[str]:
        """Return the acts on rolls that stand in the ledger, in their order."""
        sql = "SELECT act FROM ledger WHERE roll IS NOT NULL ORDER BY id"
        return [row[0] for row in self.app.session.file.conn.execute(sql).fetchall()]


@asynccontextmanager
async def at_desk(
    path: Path,
    now: datetime = TUESDAY_9_00,
    size: tuple[int, int] = (120, 34),
    colours: str = "dim",
) -> AsyncIterator[AtDesk]:
    """Sit down at a desk on a darkroom file."""
    wait_exactly()
    here = AtDesk(path, now, colours)
    async with here.app.run_test(size=size, notifications=True) as pilot:
        here.pilot = pilot
        while not here.app.query(View):
            await pilot.pause()
        here.line.ticks = lambda: here.ticks
        here.app.draw()
        await pilot.pause()
        yield here


@asynccontextmanager
async def opened_on(
    screen: str, path: Path, size: tuple[int, int] = (120, 34)
) -> AsyncIterator[AtDesk]:
    """Sit down at a desk and open one of its screens."""
    async with at_desk(path, size=size) as here:
        here.app.face.go(screen)
        await here.wait()
        yield here
