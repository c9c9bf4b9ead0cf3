"""A bare number at a rod is a count, a clip, or asked about."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.domain.codes import clip_code, rod_code
from filmrack.store import sweeps
from tests.conftest import School
from tests.desk.sweep.at_sweep import partly_dry_rod, places, scan_the_dry, sweep_begun


async def test_a_clips_number_is_not_taken_for_a_count(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("count 38")
        await here.press("enter")
        assert "38 rolls cannot hang on rod 1" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None
        await here.type("38")  # no rod holds so many
        await here.press("enter")
        assert str(here.on(38).place) == "box 7"
        await here.type("clip 6")
        await here.press("enter")
        assert str(here.on(6).place) == "box 1"
        await here.type("4")  # a rod that is being scanned is asked for clips
        await here.press("enter")
        assert str(here.on(4).place) == "box 1"
        await here.type("count 4")
        await here.press("enter", "enter")  # 38 strayed there, so its clips are named first
        assert places(here)["box 1"] == 6


async def test_a_number_at_a_boxed_rod_invents_no_roll(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "up")
        await here.type("5")
        await here.press("enter")
        assert "rod 1 is boxed by its count" in here.screen.casefold()
        assert places(here)["box 1"] == 6


@pytest.mark.parametrize("number", ["9", "13", "38"])
async def test_a_number_above_the_rods_positions_is_the_clip(forty: Path, number: str):
    async with sweep_begun(forty) as here:
        await here.press("down")
        await here.say(number)
        assert here.on(int(number)).place.kind == "box"
        assert sweeps.counts(here.app.session.file.conn, 1)[2].counted is None


@pytest.mark.parametrize("number", ["4", "7", "8"])
async def test_before_a_rod_is_counted_a_number_up_to_its_positions_is_how_many_hang_there(
    forty: Path, number: str
):
    async with sweep_begun(forty) as here:
        await here.say(number)
        assert f"rod 1: {number} counted, 6 should hang" in here.answer
        assert (f"the clip? “undo”, then “clip {number}”" in here.answer) == (int(number) > 6)
        assert sweeps.counts(here.app.session.file.conn, 1)[1].counted == int(number)


async def test_what_is_left_and_what_should_hang_can_be_a_clip_or_a_count(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        for number in (5, 6):
            await here.say(str(number))
            assert f"{number}: clip {number}, or {number} counted?" in here.answer
            assert f"Enter: clip {number}. For {number} counted" in here.answer
            await here.press("escape")
        assert places(here)["box 1"] == 1
        await here.say("5")
        await here.say("count")
        assert places(here)["box 1"] == 6


async def test_a_number_that_hangs_elsewhere_is_a_count_unless_a_hand_says_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(2))
        await here.scan(clip_code(7, "A"))
        await here.say("5")
        assert "enter box them" in here.screen
        assert "Clips 8 9 10 11 12. Enter boxes them" in here.answer
        assert "For clip 5 type “clip 5”" in here.answer
        await here.say("five")
        assert "is no answer here: Enter to box them" in here.answer
        await here.say("clip")
        assert str(here.on(5).place) == "box 1"
        assert places(here)["rod 2"] == 5


async def test_where_strips_are_scanned_a_number_above_the_positions_is_a_clip_to_be_explained(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await scan_the_dry(here)
        await here.say("11")
        assert "clip 11: no record explains it" in here.answer
        await here.press("enter")
        assert str(here.on(11).place) == "box 2"


async def test_behind_such_a_count_a_clip_of_the_rod_a_scan_or_the_word_is_the_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 5")
        await here.say("8")
        assert str(here.on(8).place) == "box 2"
        assert "was found before" in await here.say("8")
        await here.say("clip 6")
        assert str(here.on(6).place) == "box 1"
        await here.scan(clip_code(13, "A"))
        assert str(here.on(13).place) == "box 3"


async def test_behind_a_count_a_number_above_the_rods_positions_is_the_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 7")
        await here.say("38")
        assert "38 → Student38 H., box 7" in here.answer
        await here.say("77")
        assert "clip 77: no record explains it" in here.answer


async def test_a_number_that_no_rod_holds_is_the_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(7))
        await here.say("38")
        assert str(here.on(38).place) == "box 7"
        assert "1 of 5 scanned" in here.screen


async def test_where_one_too_many_was_counted_a_small_number_can_be_that_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 7")
        await here.say("3")
        assert "3: clip 3, or 3 counted?" in here.answer
        assert "Enter: clip 3. For 3 counted type “count 3”" in here.answer
        await here.press("enter")
        assert str(here.on(3).place) == "box 1"
        assert "The count of 7 is right now" in here.answer


async def test_where_one_too_many_was_counted_what_should_hang_and_none_are_counts(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 7")
        await here.say("6")
        assert "rod 2: do these 6 hang here still?" in here.answer
        await here.press("escape")
        await here.say("0")
        assert sweeps.counts(here.app.session.file.conn, 1)[2].counted == 0
