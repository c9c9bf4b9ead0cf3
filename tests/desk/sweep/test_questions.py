"""What the sweep asks before it boxes what may not be there, and what is no answer."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from filmrack.domain.codes import clip_code, rod_code
from tests.desk.sweep.at_sweep import places, sweep_begun


async def test_a_typed_number_that_no_record_explains_is_asked_about(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        before = places(here)
        await here.say("77")
        assert "clip 77: no record explains it" in here.screen
        await here.press("escape")
        assert places(here) == before
        await here.say("clip 77")
        await here.press("enter")
        assert str(here.on(77).place) == "box 1"


async def test_behind_a_stray_a_count_says_which_clips_it_boxes_and_which_it_leaves_out(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(38, "A"))
        assert re.search("“1 missing” +if that one is not here", here.screen)
        assert re.search("these 6 hang here: box all without 38, into box 1", here.screen)
        await here.say("count 6")
        assert "rod 1: do these 6 hang here still without 38?" in here.answer
        assert "Clips 1 2 3 4 5 6. Enter boxes them" in here.answer
        await here.press("escape")
        assert places(here)["box 1"] == 0
        await here.say("6")
        assert "6 counted without 38 (boxes clips 1 2 3 4 5 6)" in here.answer
        await here.say("count")
        assert places(here)["box 1"] == 6


async def test_as_many_as_should_hang_are_asked_once_at_a_rod_that_is_scanned(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.scan(clip_code(38, "A"))
        await here.say("6")
        assert "rod 2: do these 6 hang here still without 38?" in here.answer
        assert "enter box them" in here.screen
        await here.press("enter")
        assert places(here)["box 2"] == 6


@pytest.mark.parametrize("words", ["5", "count 5"])
async def test_while_it_is_asked_whether_just_those_hang_another_number_is_a_new_count(
    forty: Path, words: str
):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(2))
        await here.scan(clip_code(38, "A"))
        await here.say("6")
        assert "Not so? Type how many do, or press Esc and scan them" in here.answer
        assert "rod 2: 5 counted, 6 should hang" in await here.say(words)
        assert (places(here)["box 2"], str(here.on(5).place)) == (0, "rod 1, position 5")


async def test_at_that_question_a_clip_of_the_rod_is_asked_about_and_the_same_number_is_yes(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(2))
        await here.scan(clip_code(38, "A"))
        await here.say("6")
        assert "8: clip 8, or 8 counted?" in await here.say("8")
        await here.press("escape")
        assert places(here)["box 2"] == 0
        await here.say("6")
        assert "is no answer here: Enter to box them" in await here.say("six")
        assert "19 is too many for rod 2, which has 8 positions" in await here.say("19")
        assert places(here)["box 2"] == 0
        await here.say("6")
        assert places(here)["box 2"] == 6
