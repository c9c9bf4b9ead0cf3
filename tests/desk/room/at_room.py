"""A teacher at the screen Room in a test: goes to rows, answers what they ask, reads the file."""

from __future__ import annotations

from pathlib import Path

from filmrack.acts.refitting import export_room
from filmrack.desk.room.view import RoomView
from filmrack.store.file import open_file
from tests.desk.at_desk import AtDesk


async def to_row(desk: AtDesk, section: str, name: str) -> None:
    """Go to a section of Room and select the row of a name."""
    if desk.open != "room":
        await desk.say("room")
    await desk.say(section)
    await select(desk, name)


async def select(desk: AtDesk, name: str) -> None:
    """Select the row of a name in the section that is open."""
    view = desk.app.view
    assert isinstance(view, RoomView)
    await desk.press("home")
    for _ in range(80):
        if view.row is not None and view.row.name == name:
            return
        before = view.row
        await desk.press("down")
        if view.row is before:
            break
    raise AssertionError(f"no row {name!r} among {[row.name for row in view.looking.rows]}")


async def sure(desk: AtDesk, typed: str) -> str:
    """Type a value at the selected row, and Enter once more, for it is meant."""
    await desk.say(typed)
    await desk.press("enter")
    return desk.answer


async def form(desk: AtDesk, *answers: str) -> str:
    """Begin what the selected row says and answer its questions; an empty one is Enter alone."""
    await desk.press("enter")
    for answer in answers:
        assert desk.app.question is not None, desk.answer
        if answer:
            await desk.press("ctrl+u")
            await desk.say(answer)
        else:
            await desk.press("enter")
    assert desk.app.question is None, desk.answer
    return desk.answer


def exported(path: Path) -> str:
    """Return the room file; the library that keeps comments drops a space behind a date."""
    with open_file(path, write=False) as file:
        return export_room(file).replace(" },", "},")
