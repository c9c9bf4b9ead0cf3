"""An answer belongs to the screen on which it was given."""

from __future__ import annotations

from filmrack.acts import hanging
from tests.conftest import MARA, School
from tests.desk.at_desk import at_desk


async def test_an_answer_stays_behind_when_another_screen_is_turned_to(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        assert "flipped" in await desk.say("17 flip")
        await desk.press("tab")
        assert desk.open == "boxes"
        assert desk.answer == ""
        assert "nothing is called" in await desk.say("zzz")
        assert await desk.say("board") == ""


async def test_an_answer_that_leads_to_a_screen_is_read_there(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        assert "box" in await desk.say("17 box")
        await desk.say("archive")
        assert "Mara O." in await desk.say("17")
        assert desk.answer


async def test_a_sentence_half_said_and_a_question_go_along(school: School) -> None:
    async with at_desk(school.file.path) as desk:
        assert "nobody's yet" in await desk.say("17")
        await desk.press("tab")
        assert "nobody's yet" in desk.answer
        await desk.press("escape")
        await desk.say("shelve 3")
        await desk.press("tab")
        assert "Type whose the first sleeve is" in desk.answer
