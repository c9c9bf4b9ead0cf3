"""What Enter and words do at a rod, and that page and footer say the same of it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from filmrack.domain.codes import box_code, clip_code, person_code
from filmrack.store import checking, sweeps
from tests.conftest import School
from tests.desk.at_desk import at_desk
from tests.desk.sweep.at_sweep import EVENING, partly_dry_rod, places, sweep_begun


async def test_a_number_typed_at_the_end_goes_to_that_rod_and_boxes_no_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "end")
        before = places(here)
        await here.type("2")
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        assert places(here) == before


async def test_a_sweep_that_goes_on_is_not_begun_again(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.type("sweep again")
        await here.press("enter")
        assert "goes on still" in here.screen
        assert "Rod 2, Period 2" in here.screen


async def test_a_sentence_that_waits_for_enter_is_shown_where_enter_does_it(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("17 student17")
        await here.press("enter")
        assert here.app.view.screen_id == "dryer"
        assert "enter it is in its box" in here.screen


async def test_a_clip_behind_a_person_is_theirs_and_no_find(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(person_code(9))
        assert "Scan or type its clip" in here.screen
        await here.scan(clip_code(77, "A"))
        assert str(here.on(77).place) == "in the tank"
        assert here.on(77).person == 9


async def test_screen_and_footer_say_the_same_of_enter_at_every_step(forty: Path, documents: Path):
    async with sweep_begun(forty) as here:

        async def agrees(*keys: str) -> None:
            await here.press(*keys)
            does = here.app.view.enter_does()
            assert does
            assert f"enter {does}" in here.screen
            assert re.search(rf"Enter +{re.escape(does)}", here.screen)

        await agrees()
        await agrees("enter")
        await here.type("4")
        await agrees("enter")
        await here.scan(clip_code(7, "A"))
        await agrees()
        await here.scan(box_code(2))
        await agrees()
        await agrees("enter")
        await agrees("home")
        await agrees("end")
        await agrees("enter")
        await agrees("up")


async def test_turned_to_with_a_roll_in_hand_answer_and_footer_say_the_same_of_enter(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await here.say("7")
        await here.press("tab", "tab")
        assert here.open == "sweep"
        assert "On this screen Enter is not about it: these 6 hang here" in here.answer
        assert "enter these 6 hang here" in here.screen


@pytest.mark.parametrize("words", ["finish", "end", "Finish the sweep"])
async def test_finish_goes_to_the_end_first_and_finishes_there(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.say(words)
        assert "Finish the sweep" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is not None
        await here.say(words)
        assert "swept: 6 to the boxes" in here.answer
        await here.say(words)
        assert "this sweep is finished already: type “sweep again”" in here.answer


@pytest.mark.parametrize("words", ["stop", "pause"])
async def test_a_sweep_needs_no_word_to_be_left(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.say(words)
        assert "stays as it is, at every desk: Tab leaves it, “sweep” comes back" in here.answer
        assert "Rod 2, Period 2" in here.screen


async def test_done_alone_asks_whether_the_rod_or_the_sweep_is_meant(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("done")
        assert "done with this, or with the sweep? Press Enter (these 6 hang here)" in here.answer
        assert places(here)["rod 1"] == 6
        await here.press("enter", "end")
        await here.say("done")
        assert "swept: 6 to the boxes" in here.answer


async def test_behind_a_stray_that_was_scanned_first_enter_claims_what_the_rod_lists(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(38, "A"))
        assert re.search("scan +what else is not listed", here.page)
        assert re.search("Enter +these 6 hang here: box all without 38, into box 1", here.page)
        assert "rod 1: another clip than these? Scan it first. Not 6? Type how many" in here.screen
        assert "enter these 6 hang here" in here.screen
        await here.wait(seconds=3)
        await here.press("enter")
        assert "rod 1: 6 to box 1" in here.answer
        assert "Rod 2, Period 2" in here.page
        assert (places(here)["box 1"], places(here)["box 7"]) == (6, 1)


async def test_where_one_of_the_rods_own_was_scanned_too_enter_claims_no_other(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (38, 1):
            await here.scan(clip_code(clip, "A"))
        await here.wait(seconds=3)
        assert "enter that is all: 5 not seen" in here.screen
        await here.press("enter")
        assert (places(here)["box 1"], places(here)["rod 1"]) == (1, 5)


async def test_behind_a_stray_enter_leaves_out_what_is_said_to_be_missing_and_what_is_wet(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("clip 77")
        await here.press("enter")
        await here.say("1 missing")
        await here.wait(seconds=3)
        assert "these 9 hang here: box the 2 dry, 7 hang on" in here.page
        await here.press("enter")
        assert places(here) == {"box 2": 3, "rod 2": 7, "missing": 1}
        assert checking.problems(here.app.session.file) == []
