"""What is told of a rod and the end of a sweep are taken back."""

from __future__ import annotations

from pathlib import Path

from filmrack.domain.codes import action_code, clip_code
from tests.desk.sweep.at_sweep import places, sweep_begun


async def test_undo_brings_a_boxed_rod_back_and_goes_to_it(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.type("undo")
        await here.press("enter")
        assert places(here)["rod 1"] == 6
        assert "Rod 1, Period 1" in here.screen
        await here.press("enter")
        await here.scan(action_code("UNDO"))
        assert places(here)["rod 1"] == 6


async def test_a_finished_sweep_that_is_undone_goes_on(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("0")
        await here.press("enter")
        assert "rod 1: 0 counted, 6 should hang. these 6 are missing when you finish" in here.answer
        await here.press("end", "enter")
        assert places(here)["missing"] == 6
        await here.type("undo")
        await here.press("enter")
        assert places(here)["missing"] == 0
        assert "Finish the sweep" in here.screen


async def test_a_finished_sweep_that_is_taken_back_says_that_it_goes_on(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "end", "enter")
        await here.type("undo")
        await here.press("enter")
        assert "The sweep goes on again" in here.screen


async def test_undo_opens_a_rod_again_that_was_left_after_its_scans(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        assert "taken back. Rod 1 is not through" in await here.say("undo")
        assert "Rod 1, Period 1" in here.screen
        assert "1 of 6 scanned" in here.screen
        await here.say("undo")
        assert places(here)["rod 1"] == 6


async def test_undo_names_the_clip_the_rod_or_the_count_that_was_taken_back(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        await here.scan(clip_code(5, "A"))
        answer = await here.say("undo")
        assert "Clip 5 (Student5 H.), to the box: rod 1, position 5 again." in answer
        assert "taken back. The count of 5 on rod 1" in await here.say("undo")
        await here.press("enter")
        answer = await here.say("undo")
        assert "The count of 6 on rod 1. Clips 1 2 3 4 5 6, to the box: rod 1 again" in answer


async def test_undo_asks_before_it_takes_back_what_was_told_long_ago(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.wait(minutes=11)
        said = await here.say("undo")
        assert said.startswith(
            "clips 1 2 3 4 5 6. the last act at this desk is “sweep, rod counted"
        )
        assert "rod 1" not in places(here)
        await here.press("enter")
        assert places(here)["rod 1"] == 6


async def test_undo_of_all_that_was_told_stays_at_the_rod_in_hand(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("6 missing")
        assert "Rod 1, Period 1" in here.screen
        await here.say("undo")
        assert "Rod 1, Period 1" in here.screen
        await here.say("rod 3")
        await here.say("13 missing")
        await here.say("undo")
        assert "Rod 3, Period 3" in here.screen


async def test_undo_of_a_strip_that_was_missing_goes_back_to_its_rod(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.say("6 missing")
        assert "Rod 2, Period 2" in here.screen
        await here.say("undo")
        assert "Rod 1, Period 1" in here.screen


async def test_undo_in_a_sweep_does_not_reach_past_a_passphrase_that_was_just_set(db: Path):
    async with sweep_begun(db) as here:
        await here.say("17 mara")
        for line in ("passphrase", "three dry clips", "three dry clips"):
            await here.say(line)
        await here.say("sweep")
        assert "a passphrase was set" in await here.say("undo")
        assert here.rolls == {17: "in the tank"}
        await here.say("undo")
        assert here.rolls == {}


async def test_undo_in_a_sweep_names_what_it_took_back_and_what_another_one_would(db: Path):
    async with sweep_begun(db) as here:
        for line in ("18 olu", "17 mara", "sweep"):
            await here.say(line)
        await here.wait(seconds=20)
        assert await here.say("undo") == (
            "taken back. “loaded”, 17 → Mara O.. Undo once more takes back “loaded”, 18 → Olu A."
        )
