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
from tests.desk.at_desk import at_desk


@asynccontextmanager
async def opened_on(
    screen: str, path: Path, size: tuple[int, int] = (120, 34)
) -> AsyncIterator[Pilot[None]]:
    """Sit down at the desk and open a screen."""
    async with at_desk(path, size=size) as here:
        here.app.face.go(screen)
        await here.wait()
        yield here.pilot


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
    line._typed = line._typed._replace(ended=-10.0, said=-10.0)
    await pilot.press("enter")
    await pilot.pause()
    if till_done:
        await pilot.app.workers.wait_for_complete()
        await pilot.pause()
