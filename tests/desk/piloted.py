"""A desk opened on one of its screens, driven key by key."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from textual.pilot import Pilot

from filmrack.desk.answer import Answer
from filmrack.desk.app import Desk
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from tests.conftest import TUESDAY_9_00


@asynccontextmanager
async def opened_on(
    screen: str, path: Path, size: tuple[int, int] = (120, 34)
) -> AsyncIterator[Pilot[None]]:
    """Open the desk on a screen."""
    desk = Desk(path, machine=lambda: TUESDAY_9_00)
    # However slow the machine is: no pause between two keys is long, none ends a code.
    desk.face.line.ticks = lambda: 0.0
    async with desk.run_test(size=size) as pilot:
        desk.face.go(screen)
        await pilot.pause()
        await pilot.pause()
        yield pilot


def answer(pilot: Pilot[None]) -> str:
    told = pilot.app.query_one(Answer)
    return f"{told.headline} {told.words}"


def shown(pilot: Pilot[None]) -> str:
    """Return the rows of the screen that is open."""
    assert isinstance(pilot.app, Desk)
    view = pilot.app.view
    return "\n".join(view.render_line(row).text.rstrip() for row in range(view.size.height))


def of(pilot: Pilot[None], kind: type[Lines]) -> str:
    """Return what a part of the desk shows, as one row of words."""
    lines = pilot.app.query_one(kind)
    rows = [lines.render_line(row).text.strip() for row in range(lines.size.height)]
    return " ".join(" ".join(rows).split())


async def enter(pilot: Pilot[None], text: str = "", *, till_done: bool = True) -> None:
    """Type a line and press Enter; what the last one ended does not swallow this one.

    Waits for a page that is read or a term that is closed beside the desk, unless told not to.
    """
    line = pilot.app.query_one(Line)
    for character in text:
        await pilot.press("space" if character == " " else character)
    line._typed = line._typed._replace(ended=-10.0)
    await pilot.press("enter")
    await pilot.pause()
    if till_done:
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()
