"""Whatever is typed into any row of Room is taken, or refused in a sentence."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import pytest

from filmrack.acts.refitting import export_room
from filmrack.desk.question import Question
from filmrack.desk.room.sections import SECTIONS
from filmrack.desk.room.view import RoomView
from filmrack.domain.refusal import Refused
from filmrack.domain.roomfile import examine
from filmrack.store.checking import problems
from filmrack.store.file import open_file
from tests.desk.at_desk import at_desk

TYPED = (
    "[/x]",
    "🎞️ لون",
    "9" * 400,
    "٣",
    "-1",
    "1e9",
    "2026-13-45",
    "9999-12-31",
    "~nobody/at all.csv",
    "a/" * 240,
    "1 25:00-26:00",
    "1 8:00-8:50, 1 8:10-9:00",
    "A A",
    "\\",
    "'\"",
)


@pytest.mark.parametrize("section", [section.id for section in SECTIONS])
async def test_nothing_typed_into_a_row_breaks_the_desk_or_the_room(db: Path, section: str) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await desk.say("room")
        view = desk.app.view
        assert isinstance(view, RoomView)
        await desk.say(section)
        for nth in range(len(view.looking.choices)):
            for typed in TYPED:
                view.move("first")
                for _ in range(nth):
                    view.move("down")
                with suppress(Refused):
                    reply = view.enter()
                    if isinstance(reply, Question):
                        reply.answer(typed)
                if view.takes(typed):
                    with suppress(Refused):
                        view.take(typed)
                if view.place.entry:
                    desk.app.draw()
                    for row in view.looking.rows:
                        if row.take is not None:
                            with suppress(Refused):
                                row.take(typed)
                while view.place.entry:
                    view.back()
            desk.app.session.acted()
            desk.app.draw()
        assert desk.open == "room"
    with open_file(db, write=False) as file:
        assert examine(export_room(file).encode()).room is not None
        assert problems(file) == []
