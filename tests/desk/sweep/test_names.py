"""Names at the open cabinet: whose strip is meant, and where a roll is that is asked for."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.domain.codes import clip_code
from tests.conftest import School
from tests.desk.sweep.at_sweep import partly_dry_rod, places, sweep_begun


async def test_a_name_and_a_word_mean_that_strip_on_the_rod_in_hand(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        await here.say("student6 h is missing")
        assert "6 → Student6 H.. Missing, last seen rod 1" in here.answer
        assert str(here.on(6).place) == "missing"
        assert places(here)["box 1"] == 5
        await here.say("student7 still wet")
        assert here.open == "sweep"
        assert here.acts[-1] == "touch"
        assert here.on(7).checks[-1].dry is False


async def test_a_name_that_fits_no_strip_of_the_rod_or_several_is_asked_about(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        before = here.acts
        assert "“ivo” can be clip 4 (Ivo" in await here.say("ivo missing")
        assert "type which, as “4 missing”" in here.answer
        asked = "no strip of “mara” should hang on rod 2: go to the rod where it should"
        assert asked in await here.say("mara wet")
        assert (here.acts, here.open) == (before, "sweep")


async def test_a_name_alone_says_where_its_roll_is_and_enter_stays_the_sweeps(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 6")
        await here.say("rod 1")
        await here.enter("student38")
        assert here.open == "sweep"
        assert "38 → Student38 H.. rod 7, position 3" in here.answer
        assert "Rod 1, Period 1" in here.screen
        assert "enter these 6 hang here" in here.screen
        await here.enter("student6")
        assert "Not there? Type “6 missing”. Still wet? “6 wet”" in here.answer
        assert set(places(here)) == {"rod 1", "box 2", *(f"rod {n}" for n in range(3, 8))}
        await here.press("enter")
        assert places(here)["box 1"] == 6


async def test_a_verb_alone_behind_a_name_is_about_that_roll_for_a_minute(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 6")
        await here.enter("student38")
        await here.enter("take")
        assert "38 → Student38 H.. with its owner" in here.answer
        assert (here.open, str(here.on(38).place)) == ("sweep", "with its owner")
        await here.say("undo")
        await here.enter("student38")
        await here.wait(seconds=61)
        assert "take what? Scan the clip first" in await here.say("take")


@pytest.mark.parametrize("does", ["a count", "Enter", "a scan"])
async def test_what_is_told_of_a_rod_behind_a_name_ends_what_a_verb_alone_is_about(
    forty: Path, does: str
):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 6")
        await here.enter("student38")
        match does:
            case "a count":
                await here.say("rod 3 6")
            case "Enter":
                await here.press("enter")
            case _:
                await here.scan(clip_code(13, "A"))
        assert "take what? Scan the clip first" in await here.say("take")
        assert str(here.on(38).place) == "rod 7, position 3"


@pytest.mark.parametrize("words", ["find student38", "where is student38"])
async def test_find_and_a_name_shows_the_roll_while_a_sweep_goes_on(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 6")
        await here.enter(words)
        assert (here.open, here.app.view.selected) == ("dryer", here.on(38).id)


async def test_before_a_sweep_is_under_way_a_name_alone_shows_its_roll(forty: Path):
    async with sweep_begun(forty) as here:
        await here.enter("student38")
        assert (here.open, here.app.view.selected) == ("dryer", here.on(38).id)


async def test_unknown_and_a_word_mean_the_one_unknown_strip_of_the_rod(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("unknown missing")
        assert "no strip of “unknown” should hang on rod 1" in here.answer
        await here.say("77 wet")
        await here.say("unknown is missing")
        assert "77 → unknown roll. Missing, last seen rod 1" in here.answer
        await here.say("undo")
        await here.say("78 wet")
        await here.say("unknown wet")
        assert "can be clip 77 (unknown roll), clip 78 (unknown roll)" in here.answer
        assert "type which, as “77 wet”" in here.answer
