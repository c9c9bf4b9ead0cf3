"""Film that the record has in the tank is found on a rod: hung and not told, so it is wet."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import hanging
from filmrack.acts.group import Hand
from filmrack.domain.codes import box_code, clip_code
from filmrack.store import checking
from filmrack.store.file import open_file
from tests.conftest import OLU, School
from tests.desk.sweep.at_sweep import EVENING, partly_dry_rod, places, sweep_begun


@pytest.fixture
def in_tank(forty: Path) -> Path:
    """Clips 1 to 6 hang on rod 1; clip 77 is in the tank by the record, a roll of period 2."""
    with open_file(forty, write=True) as file:
        loaded = EVENING - timedelta(minutes=30)
        hanging.load(file, Hand(loaded, loaded, "desk 1"), 7, [77])
    return forty


@pytest.mark.parametrize("how", ["scanned", "typed"])
@pytest.mark.parametrize("count", ["count 7", ""])
async def test_it_hangs_on_its_rod_from_now_and_is_boxed_by_no_count(
    in_tank: Path, how: str, count: str
):
    async with sweep_begun(in_tank) as here:
        if count:
            await here.say(count)
            await here.wait(seconds=5)
        await (here.scan(clip_code(77, "A")) if how == "scanned" else here.say("clip 77"))
        assert "77 → Student7 H., rod 1, position 7" in here.answer
        assert "Noted in the tank, so it may be wet: it hangs on from now" in here.answer
        assert "from now. Turn the dial to" in here.answer
        assert "Dry? “77 dry”, or “77 box 2” boxes it" in here.answer
        await here.wait(seconds=5)
        await here.press("enter")
        assert (places(here)["box 1"], places(here)["rod 1"]) == (6, 1)
        await here.press("end", "enter")
        assert "Nothing is missing" in here.answer
        assert checking.problems(here.app.session.file) == []


async def test_one_undo_has_it_in_the_tank_again(in_tank: Path):
    async with sweep_begun(in_tank) as here:
        await here.say("clip 77")
        await here.say("undo")
        assert str(here.on(77).place) == "in the tank"


async def test_a_finger_that_finds_it_wet_hangs_it_there_too(in_tank: Path):
    async with sweep_begun(in_tank) as here:
        await here.say("77 wet")
        assert "Noted in the tank, wet: it hangs on from now" in here.answer
        assert str(here.on(77).place) == "rod 1, position 7"
        assert here.on(77).checks[-1].dry is False


async def test_among_several_clips_of_a_line_it_hangs_on_and_is_counted_once(in_tank: Path):
    async with sweep_begun(in_tank) as here:
        await here.say("1 2 77")
        assert "rod 1: 2 to box 1, 1 hangs on" in here.answer
        assert "Clip 77 (Student7 H.) found on rod 1, though noted in the tank" in here.answer
        assert "scanned. 7 should hang" in here.page
        await here.say("count 5")
        assert "rod 1: 5 hang, as they should" in here.answer
        assert places(here)["rod 1"] == 1


async def test_it_goes_to_a_box_that_is_named_behind_it_and_where_it_lies_in_one(in_tank: Path):
    async with sweep_begun(in_tank) as here:
        await here.say("clip 77")
        await here.say("77 box 2")
        assert str(here.on(77).place) == "box 2"
        await here.say("undo")
        await here.say("undo")
        await here.scan(box_code(2))
        await here.scan(clip_code(77, "A"))
        assert "Found in box 2, though noted in the tank: it goes to box 2" in here.answer
        await here.press("end")
        assert "77  Student7 H.   in the tank" in here.page


async def test_where_no_rod_is_in_hand_it_is_asked_where_it_hangs(in_tank: Path):
    async with sweep_begun(in_tank) as here:
        await here.press("end")
        assert "77 is noted in the tank and may be wet: go to the rod" in await here.say("clip 77")
        assert str(here.on(77).place) == "in the tank"


async def test_a_rod_that_is_full_by_the_record_refuses_it(in_tank: Path):
    async with sweep_begun(in_tank) as here:
        for clip in (90, 91):
            await here.say(f"{clip} wet")
        assert "77 is noted in the tank, and rod 1 is noted as full" in await here.say("clip 77")
        assert str(here.on(77).place) == "in the tank"


@pytest.mark.parametrize("words", ["77 on rod 6", "hang 77 on rod 6", "clip 77 rod 6"])
async def test_whatever_is_said_to_hang_on_a_rod_is_one_of_those_counted(in_tank: Path, words: str):
    async with sweep_begun(in_tank) as here:
        await here.say("rod 6 6")
        await here.wait(seconds=5)
        await here.say(words)
        assert "The count of 6 is right now: Enter if these 6 hang there" in here.answer
        assert "6 Period 6   counted right" in here.screen
        assert "counted, 5 should hang, 1 more from elsewhere: that is right" in here.shown
        await here.say("count 6")
        assert "rod 6: 6 hang, as they should" in here.answer
        assert (places(here)["box 6"], places(here)["rod 6"]) == (5, 1)


async def test_a_rod_that_should_be_empty_tells_one_story_of_the_strip_that_hangs_there(
    partly_dry: Path, school: School
):
    hanging.load(school.file, school.hand(), OLU, [77])
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("rod 1 1")
        await here.wait(seconds=5)
        await here.say("77 on rod 1")
        assert "Rod 2, Period 2" in here.page
        await here.say("rod 1")
        assert "1 Period 1   1 left hanging" in here.screen
        assert "counted, 0 should hang, 1 more from elsewhere: that is right" in here.shown
        assert "rod 1 is through, 1 hangs on" in here.screen


async def test_a_dry_strip_and_one_that_no_record_explains_hang_where_a_hand_says_so(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.say("8")
        await here.wait(seconds=5)
        assert "38 → Student38 H.: seen. Found on rod 1, though noted" in await here.say(
            "38 on rod 1"
        )
        assert "no record explains it. It hangs on" in await here.say("99 on rod 1")
        await here.press("enter")
        assert (places(here)["box 1"], places(here)["box 7"], places(here)["rod 1"]) == (6, 1, 1)
        assert checking.problems(here.app.session.file) == []
