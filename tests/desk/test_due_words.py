"""What is due and what was left behind, typed on any screen: an answer, and nothing is done."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import drying, hanging
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import at_desk


@pytest.mark.parametrize("screen", ["dryer", "archive"])
async def test_due_names_what_wants_a_hand_the_most_urgent_first(
    db: Path, school: School, screen: str
) -> None:
    first = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll
    touched = hanging.hang(school.file, school.hand(), person=OLU, clip=18).roll
    school.wait(10)
    drying.touch(school.file, school.hand(), touched.id, dry=True)
    async with at_desk(db, now=school.now) as desk:
        await desk.say(screen)
        assert "Touch: clip 17. Dry: clip 18" in await desk.say("due")
        assert desk.open == "dryer"
        assert desk.app.view.selected == first.id
        assert desk.acts == ["load", "hang", "load", "hang", "touch"]


async def test_an_empty_dryer_wants_nothing(db: Path) -> None:
    async with at_desk(db) as desk:
        assert "Nothing in the dryer wants a hand." in (await desk.say("due") and desk.screen)


@pytest.mark.parametrize("line", ["left behind", "who left what?", "late"])
async def test_who_left_film_behind_is_named_and_once_it_is_boxed_the_boxes_are_shown(
    db: Path, school: School, line: str
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(db, now=school.now + timedelta(days=1)) as desk:
        assert "17 Mara O." in await desk.say(line)
        assert desk.open == "dryer"
        await desk.say("17 box")
        assert "Boxed today, box 1: 17 Mara O." in await desk.say(line)
        assert desk.open == "dryer"
        desk.now += timedelta(days=1)
        await desk.say(line)
        assert desk.open == "boxes"
        assert "Mara O." in desk.page
