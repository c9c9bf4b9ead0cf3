"""What is dry on a rod is boxed by one word, and what is not by another that asks."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from tests.conftest import TUESDAY_9_00, School
from tests.desk.sweep.at_sweep import partly_dry_rod, places, scan_the_dry, sweep_begun


async def test_film_that_is_not_dry_is_boxed_by_box_all_which_asks_once_and_by_nothing_else(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        assert re.search("“box all” +box what is not dry too", here.screen)
        assert "film that is not dry sticks in its box: Esc leaves them hanging" in await here.say(
            "box all"
        )
        await here.say("5")
        assert "is no answer here" in here.screen
        await here.press("escape")
        assert places(here) == {"rod 2": 10}
        await here.say("box all")
        await here.press("enter")
        assert "rod 2: 10 to box 2" in here.answer
        assert "Boxed though not dry, so it sticks there" in here.answer
        assert places(here) == {"box 2": 10}


async def test_a_rod_with_dry_strips_says_how_one_is_kept_hanging_that_a_finger_finds_wet(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        assert re.search("“NN wet” +you find it wet: it hangs on", here.screen)
        await here.say("3 wet")
        assert "box the 2 dry, 8 hang on" in here.screen
        await here.enter()
        assert places(here) == {"box 2": 2, "rod 2": 8}


@pytest.mark.parametrize("words", ["box dry", "all dry", "all but the wet"])
async def test_all_that_is_dry_is_boxed_by_one_word_and_the_wet_hangs_on(
    partly_dry: Path, school: School, words: str
):
    async with partly_dry_rod(partly_dry, school) as here:
        assert re.search("Enter +these 10 hang here: box the 3 dry, 7 hang on", here.screen)
        await here.say(words)
        assert (
            "rod 2: 3 to box 2. Clips 1 2 3. 7 hang on (7 wet). Wrong? Type “undo”" in here.answer
        )
        assert places(here) == {"box 2": 3, "rod 2": 7}
        await here.press("end", "enter")
        assert "Nothing is missing. Wrong?" in here.answer
        await here.say("undo")
        await here.say("undo")
        assert places(here) == {"rod 2": 10}


async def test_the_word_for_what_is_dry_is_said_only_where_wet_film_hangs_beside(forty: Path):
    async with sweep_begun(forty) as here:
        assert "box dry" not in here.screen
        await here.say("box dry")
        assert "all of rod 1 is dry: press Enter" in here.answer
        assert places(here)["rod 1"] == 6


async def test_where_nothing_is_dry_there_is_no_word_for_it(forty: Path):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=1)) as here:
        assert "box dry" not in here.screen
        await here.say("box dry")
        assert "nothing on rod 1 is sure to be dry (6 wet)" in here.answer


async def test_all_dry_is_not_said_of_a_rod_that_was_counted_short(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("9")
        await here.say("box dry")
        assert "not clear which are there: scan them one by one, or type which is" in here.answer
        assert places(here) == {"rod 2": 10}


async def test_a_count_of_what_hangs_still_boxes_nothing_wet_and_box_all_asks_before_it_does(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await scan_the_dry(here)
        assert re.search("“box all” +box these 7 all the same", here.screen)
        await here.say("box all")
        assert "rod 2: 7 hang here, 7 wet" in here.screen
        assert places(here)["rod 2"] == 7
        await here.press("enter")
        assert places(here) == {"box 2": 10}
        assert "Boxed though not dry" in here.answer
        await here.say("undo")
        await here.say("count 7")
        assert "rod 2: 7 hang, as they should. None boxed, 7 hang on (7 wet)" in here.answer
        assert places(here) == {"box 2": 3, "rod 2": 7}
        await here.press("end", "enter")
        assert "Nothing is missing" in here.screen
