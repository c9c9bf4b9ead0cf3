"""Where a desk is in the sweep: from rod to rod, after a restart, beside another desk."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

from filmrack.acts import scans, sweeping
from filmrack.acts.group import Hand
from filmrack.domain.codes import box_code, clip_code, rod_code
from filmrack.store import sweeps
from filmrack.store.file import open_file
from tests.desk.at_desk import at_desk
from tests.desk.sweep.at_sweep import EVENING, finished, places, sweep_begun


async def test_a_rod_can_be_skipped_and_come_back_to(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("down", "enter")
        assert "Rod 3, Period 3" in here.screen
        await here.press("up", "up", "enter")
        assert places(here)["rod 1"] == 0
        assert "Rod 3, Period 3" in here.screen


async def test_a_sweep_is_taken_up_after_a_restart_where_it_was_left(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "enter")
    async with sweep_begun(forty, now=EVENING + timedelta(minutes=5)) as here:
        assert "Rod 3, Period 3" in here.screen
        for _ in range(6):
            await here.press("enter")
        assert places(here)["box 7"] == 5
        assert "swept: 40 to the boxes" in here.screen


async def test_what_another_desk_swept_is_seen_and_not_told_twice(forty: Path):
    async with sweep_begun(forty) as here:
        here.app.polling.pause()  # the other desk is quicker than the half second
        with open_file(forty, write=True) as file:
            sweeping.sweep(file, Hand(EVENING, EVENING, "desk 2"), counts={1: 6})
        await here.press("enter")
        assert "look once more" in here.screen
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        counts = sweeps.counts(here.app.session.file.conn, 1)
        assert (counts[1].expected, counts[1].counted) == (6, 6)
        assert 2 not in counts


async def test_a_rods_code_goes_to_that_rod_and_a_boxs_code_into_that_box(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(4))
        assert "Rod 4, Period 4" in here.screen
        await here.scan(box_code(2))
        assert "Box 2" in here.screen
        await here.scan(clip_code(1, "A"))
        assert str(here.on(1).place) == "box 2"
        await here.press("enter")
        assert "Rod 4, Period 4" in here.screen
        assert sweeps.counts(here.app.session.file.conn, 1) == {}


async def test_an_enter_behind_the_last_scan_of_a_rod_counts_nothing_on_the_next(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4, 5, 6):
            await here.scan(clip_code(clip, "A"))
        assert "Rod 2, Period 2" in here.screen
        await here.press("enter")
        assert "The rod before is through" in here.screen
        assert places(here)["rod 2"] == 6
        await here.press("enter")
        assert places(here)["box 2"] == 6


async def test_a_sweep_that_is_taken_up_again_goes_on_at_the_rod_that_is_half_scanned(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("down", "down")
        await here.scan(clip_code(13, "A"))
    async with sweep_begun(forty) as here:
        assert "Rod 3, Period 3" in here.screen


async def test_a_rod_that_was_left_after_its_scans_is_through_after_a_restart_and_at_any_desk(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.press("down", "enter")
        await here.scan(clip_code(13, "A"))
        await here.press("enter")
        assert "Rod 4, Period 4" in here.screen
        await here.press("up")
        assert re.search("Enter +next rod", here.screen)
    async with sweep_begun(forty) as here:
        assert "Rod 4, Period 4" in here.screen
        assert "3 Period 3   5 of 6 not seen" in here.screen
        here.app.face.go("dryer")
        await here.wait(seconds=1)
        assert "sweep on, 2 of 7 rods through" in here.screen


async def test_a_rod_that_was_passed_by_comes_behind_those_where_nobody_was_after_a_restart(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.press("down", *["enter"] * 5)
        assert "Rod 7, Period 7" in here.screen
    async with sweep_begun(forty) as here:
        assert "Rod 7, Period 7" in here.screen
        await here.press("enter")
        assert "1 Period 1   6 not counted" in here.screen
    async with sweep_begun(forty) as here:
        assert "Rod 1, Period 1" in here.screen


async def test_another_sweep_is_begun_from_any_screen(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        here.app.face.go("dryer")
        await here.type("sweep again")
        await here.press("enter")
        assert here.open == "sweep"
        assert "rod 1 should be empty" in here.screen


async def test_a_half_scanned_rod_is_taken_up_after_a_restart_and_at_another_desk(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("5")
        await here.press("enter")
        await here.scan(clip_code(1, "A"))
        await here.scan(clip_code(2, "A"))
    with open_file(forty, write=True) as file:
        scan = scans.Scan(3, rod=1)
        sweeping.sweep(file, Hand(EVENING, EVENING, "desk 2"), scans=[scan])
    async with sweep_begun(forty, now=EVENING + timedelta(minutes=5)) as here:
        assert "Rod 1, Period 1" in here.screen
        assert "3 of 5 scanned" in here.screen
        await here.scan(clip_code(4, "A"))
        await here.scan(clip_code(5, "A"))
        assert "Rod 1 is through, 1 not seen" in here.screen


async def test_a_rod_that_was_left_stays_so_when_the_count_after_it_is_taken_back(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        await here.press("enter")
        assert "5 of 6 not seen" in here.screen
        await here.press("enter")
        await here.type("undo")
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        assert "5 of 6 not seen" in here.screen


async def test_a_rod_that_was_counted_is_not_asked_again_after_a_restart(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        await here.press("enter")
        assert "Rod 2, Period 2" in here.screen
        await here.press("enter")
    async with sweep_begun(forty) as here:
        assert "Rod 3, Period 3" in here.screen
        assert "5 of 6 counted" in here.screen
        await here.press("up", "up")
        await here.scan(clip_code(1, "A"))
        assert "1 of 5 scanned" in here.screen


async def test_next_passes_a_rod_by_and_boxes_nothing(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("next")
        assert "Rod 2, Period 2" in here.screen
        assert "6 left hanging" in here.screen
        assert places(here)["rod 1"] == 6
        await here.press("end")
        await here.say("next")
        assert "no rod comes next" in here.answer
