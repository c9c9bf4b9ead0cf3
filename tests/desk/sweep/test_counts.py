"""A rod is counted: what a right count boxes, and what a wrong one asks for."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import hanging
from filmrack.domain.codes import clip_code
from filmrack.store import checking, sweeps
from tests.conftest import IVO, TUESDAY_9_00, School, longer_rods
from tests.desk.at_desk import AtDesk
from tests.desk.sweep.at_sweep import FORTY, partly_dry_rod, places, scan_the_dry, sweep_begun


async def test_forty_rolls_on_seven_rods_with_right_counts_are_seven_keys_and_finish(forty: Path):
    async with sweep_begun(forty) as here:
        assert "Rod 1, Period 1" in here.screen
        assert "should hang" in here.screen
        for _ in range(7):
            await here.press("enter")
        assert here.keys == 7
        assert "Finish the sweep" in here.screen
        await here.press("enter")
        assert places(here) == {f"box {n}": many for n, many in enumerate(FORTY, 1)}
        assert "swept: 40 to the boxes" in here.screen
        assert "Nothing is missing" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_a_rod_whose_count_is_wrong_takes_its_count_and_one_scan_a_roll(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("5")
        await here.press("enter")
        assert "rod 1: 5 counted, 6 should hang" in here.screen
        assert places(here)["box 1"] == 0
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        assert "Rod 1 is through, 1 not seen" in here.screen
        assert "Rod 1, Period 1" in here.screen
        await here.press("enter")
        assert (here.keys, here.scans) == (3, 5)
        assert "Rod 2, Period 2" in here.screen
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.screen
        assert places(here)["missing"] == 1
        assert "1 of 6 missing" in here.screen
        assert places(here)["rod 2"] == 6


@pytest.mark.parametrize("words", ["5 hang", "5 hanging", "5 strips hang here", "5 Rolls hang"])
async def test_a_count_is_told_in_words_as_the_footer_says_it(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.say(words)
        assert "rod 1: 5 counted, 6 should hang" in here.screen


async def test_film_that_comes_to_its_rod_in_the_sweep_hangs_by_the_same_word(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("50 person 10")
        await here.say("50 hang")
        assert "Student10 H.. hung on rod 2" in here.answer


@pytest.mark.parametrize("told", [None, 5])
async def test_a_rod_says_how_many_of_those_that_should_hang_are_missing(
    forty: Path, told: int | None
):
    async with sweep_begun(forty) as here:
        for clip in (1, 2):
            await here.scan(clip_code(clip, "A"))
        await here.say("6 missing")
        assert "2 of 5 scanned" in here.screen
        if told is not None:
            await here.say(f"count {told}")
            assert "rod 1: 5 counted. 2 boxed" in here.answer
            assert "or “count 3” boxes them" in here.answer
        assert "6 should hang, 1 of them missing" in " ".join(here.shown.split())
        await here.say("count 3")
        assert places(here)["box 1"] == 5


async def test_where_all_is_wet_it_can_be_said_that_nothing_hangs(forty: Path):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=1)) as here:
        assert re.search("number +not 6[?] Type how many", here.screen)
        await here.say("0")
        assert "these 6 are missing when you finish" in here.answer
        await here.press("end", "enter")
        assert places(here)["missing"] == 6


@pytest.mark.parametrize("count", ["", "6", "count 6"])
async def test_where_all_is_wet_the_right_count_boxes_nothing_and_the_rod_is_through(
    forty: Path, count: str
):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=1)) as here:
        assert re.search("Enter +these 6 hang here: none is dry, 6 hang on", here.screen)
        assert "enter these 6 hang here" in here.screen
        await here.enter(count)
        assert "rod 1: 6 hang, as they should. None boxed, 6 hang on (6 wet). Wrong?" in here.answer
        assert places(here)["rod 1"] == 6
        assert "Rod 2, Period 2" in here.screen
        assert "1 Period 1   6 left hanging" in here.screen
        here.app.face.go("dryer")
        await here.wait(seconds=1)
        assert "sweep on, 1 of 7 rods through" in here.screen
        here.app.face.go("sweep")
        await here.press("end")
        assert "Rod 1: 6 hang (6 wet)" in here.screen
        await here.press("enter")
        assert "Nothing is missing where you looked" in here.answer
        assert places(here)["rod 1"] == 6


@pytest.mark.parametrize("count", ["", "10"])
async def test_the_right_count_of_a_mixed_rod_boxes_what_is_dry_and_the_rest_hangs_on(
    partly_dry: Path, school: School, count: str
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.enter(count)
        told = "rod 2: 10 hang, as they should. 3 to box 2, 7 hang on (7 wet). Clips 1 2 3. Wrong?"
        assert told in here.answer
        assert places(here) == {"box 2": 3, "rod 2": 7}
        assert "2 Period 2   3 boxed, 7 hang" in here.screen
        await here.press("up")
        assert "went to the boxes, 7 hang on (7 wet)" in here.screen
        assert "rod 2 is counted, 3 boxed and 7 hang on" in await here.say("count 7")
        await here.scan(clip_code(4, "A"))
        await here.press("enter")
        assert places(here) == {"box 2": 4, "rod 2": 6}
        await here.say("5")
        await here.press("enter")
        assert places(here) == {"box 2": 5, "rod 2": 5}
        await here.say("undo")
        await here.say("undo")
        await here.say("undo")
        assert places(here) == {"rod 2": 10}


@pytest.mark.parametrize("words", ["rod 3 6", "rod 3 count 6", "Rod  3 6"])
async def test_a_rod_and_a_number_behind_it_count_that_rod(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.say(words)
        assert "rod 3: 6 to box 3" in here.answer
        assert places(here)["box 3"] == 6
        before = places(here)
        assert "no rod 9 in this sweep" in await here.say("rod 9 6")
        assert places(here) == before
        await here.say("rod 1 5")
        assert "rod 1: 5 counted, 6 should hang" in here.answer
        assert "Rod 1, Period 1" in here.screen


async def test_after_a_count_the_page_offers_no_count_that_gainsays_it(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        assert "still here" not in here.screen
        assert re.search("“undo” +it was not 5", here.screen)
        await here.scan(clip_code(1, "A"))
        assert "scanned. 5 counted, 6 should hang" in here.screen
        assert "still here" not in here.screen


async def test_a_rod_counted_whole_while_it_is_scanned_agrees_with_its_row(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await scan_the_dry(here)
        await here.say("count 10")
        assert "rod 2: 10 is right" in here.answer
        assert "3 boxed, 7 hang on: “box all” boxes them too" in here.answer
        assert "3 boxed, 7 hang" in here.screen
        await here.press("end", "enter")
        assert "Nothing is missing" in here.screen


async def test_behind_a_count_that_did_not_agree_a_bare_number_counts_the_rod_anew(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 4")
        assert "rod 2: 4 counted, 6 should hang" in here.answer
        before = places(here)
        assert "rod 2: 5 counted, 6 should hang. Which is not there?" in await here.say("5")
        assert (places(here), str(here.on(5).place)) == (before, "rod 1, position 5")
        assert "do these 6 hang here" in await here.say("6")
        await here.press("enter")
        assert places(here)["box 2"] == 6
        assert str(here.on(6).place) == "rod 1, position 6"


async def test_a_stray_does_not_fill_a_rods_count_and_its_own_are_scanned_on(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        await here.scan(clip_code(38, "A"))
        assert "0 of 5 scanned" in here.screen
        assert "1 more from elsewhere" in here.screen
        for clip in (1, 2, 3, 4):
            await here.scan(clip_code(clip, "A"))
        assert "4 of 5 scanned" in here.screen
        assert "Rod 1, Period 1" in here.screen
        for clip in (5, 6):
            await here.scan(clip_code(clip, "A"))
        assert "noted at" not in here.answer
        assert "Rod 2, Period 2" in here.screen


async def test_once_a_stray_explains_a_count_enter_boxes_the_rods_own(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("7")  # a count, or the clip
        await here.say("count 7")
        await here.scan(clip_code(38, "A"))
        assert "The count of 7 is right now: Enter if these 6 hang there" in here.answer
        assert "counted, 6 should hang, 1 more from elsewhere: that is" in here.screen
        assert re.search("Enter +these 6 hang here: box all, into box 1", here.screen)
        assert "1 Period 1   counted right" in here.screen
        await here.wait(seconds=3)
        await here.press("enter")
        assert "rod 1: 6 to box 1" in here.answer
        assert "Rod 2, Period 2" in here.screen


async def test_nothing_is_missing_of_a_rod_whose_count_a_stray_explains(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("count 11")
        await here.say("clip 77")
        await here.press("enter")
        await here.scan(clip_code(1, "A"))
        await here.say("finish")
        assert "missing" not in here.screen
        assert "which" not in here.screen
        await here.say("rod 2")
        assert re.search("Enter +these 9 hang here: box the 2 dry, 7 hang on", here.screen)
        await here.wait(seconds=3)
        await here.press("enter")
        assert places(here) == {"box 2": 4, "rod 2": 7}
        await here.press("end", "enter")
        assert "Nothing is missing" in here.answer


async def test_behind_a_stray_a_count_that_is_short_asks_for_the_one_that_is_not_there(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(38, "A"))
        assert "rod 1: 5 counted, 6 should hang" in await here.say("count 5")
        await here.press("end")
        assert "Rod 1: 6 counted, 1 from elsewhere, 6 should hang: which is not" in here.screen


def _nothing_hangs_on(here: AtDesk, many: int) -> None:
    """Where a hand counts none, message, list of rods, strips and empty line tell one thing."""
    assert f"rod 2: 0 counted, {many} should hang" in here.screen
    assert f"These {many} are missing when you finish" in here.screen
    assert f"2 Period 2   {many} of {many} not seen" in here.screen
    assert f"rod 2 is through, {many} not seen" in here.screen
    assert "left hanging" not in here.screen
    assert not re.search(r"hangs? on\b", here.screen)


async def test_a_count_of_none_leaves_nothing_hanging_that_a_finger_just_found_tacky(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("7 wet")
        await here.wait(minutes=1)
        await here.say("0")
        _nothing_hangs_on(here, 10)
        await here.press("end", "enter")
        assert places(here) == {"missing": 10}


@pytest.mark.parametrize("then", ["is seen", "is hung"])
async def test_a_count_of_none_leaves_nothing_hanging_that_was_seen_or_hung_before_it(
    partly_dry: Path, school: School, then: str
):
    longer_rods(school, 11)
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("6")
        await here.wait(minutes=1)
        if then == "is hung":
            session = here.app.session
            hanging.hang(session.file, session.hand(), person=IVO, clip=50, rod=2)
            session.acted()
        else:
            assert "seen" in await here.say("clip 7")
        await here.wait(minutes=1)
        await here.say("0")
        many = 11 if then == "is hung" else 10
        _nothing_hangs_on(here, many)
        await here.say("undo")
        assert f"{many} not seen" not in here.screen
        await here.say("0")
        await here.press("end", "enter")
        assert places(here) == {"missing": many}
        assert checking.problems(here.app.session.file) == []


async def test_what_is_found_behind_a_count_of_none_hangs_on(partly_dry: Path, school: School):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("0")
        await here.wait(minutes=1)
        await here.say("7 wet")
        assert "9 of 10 not seen" in here.screen
        await here.press("end", "enter")
        assert places(here) == {"missing": 9, "rod 2": 1}


async def test_where_one_strip_is_strange_to_a_rod_only_that_one_is_to_be_scanned(forty: Path):
    async with sweep_begun(forty) as here:
        told = await here.say("7")
        assert "scan the clip that is not listed here, the others need no scan" in told.casefold()
        assert re.search("scan +only what is not listed", here.page)
        assert "rod 1: scan what is not listed, or type “clip” and its number" in here.screen
        assert "The count of 7 is right now" in await here.say("clip 38")
        await here.press("enter")
        assert places(here)["box 1"] == 6
        told = await here.say("rod 2 8")
        assert "scan the 2 clips that are not listed here" in told.casefold()


async def test_none_counted_behind_scans_is_no_clip(partly_dry: Path, school: School):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.scan(clip_code(1, "A"))
        assert "rod 2: 0 counted, 9 should hang" in await here.say("0")


async def test_a_rod_that_should_be_empty_and_was_counted_one_waits_for_that_clip(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        assert "scan the clip that hangs there" in await here.say("rod 1 1")
        assert "1, not 0" in here.page
        assert "scan    what hangs there" in here.page
        assert "enter next rod, this one stays as it is" in here.screen
        assert "rod 1: scan what hangs there, or type “clip” and its number" in here.screen
        await here.say("clip 1")
        assert "1 → Olu" in here.answer
        assert "Rod 2, Period 2" in here.screen
        assert "1 boxed" in here.page
