"""What a sweep comes to, and what a finished one leaves to do."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pypdfium2
import pytest

from filmrack.acts import hanging, sweeping
from filmrack.acts.group import Hand
from filmrack.domain.codes import box_code, clip_code, rod_code
from filmrack.store import sweeps
from filmrack.store.file import open_file
from tests.conftest import School
from tests.desk.at_desk import at_desk
from tests.desk.sweep.at_sweep import (
    EVENING,
    finished,
    partly_dry_rod,
    places,
    sweep_begun,
    sweeps_told,
)


async def test_what_was_neither_counted_nor_scanned_stays_where_it_is(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("down", "enter", "end")
        assert "1 Period 1   6 not counted" in here.screen
        assert "not looked at; a rod's number goes there" in here.screen
        assert "Rod 1: 6" in here.screen
        await here.press("enter")
        told = "Nothing is missing where you looked. Not looked at: rod 1 (6), rod 3 (6),"
        assert told in here.answer
        assert "1 Period 1   6 not looked at" in here.screen
        assert "left hanging" not in here.screen
        assert places(here)["rod 1"] == 6
        assert places(here)["box 2"] == 6
        assert places(here)["missing"] == 0


async def test_nothing_is_counted_after_a_finished_sweep(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter", "end", "enter")
        before = places(here)
        await here.type("count 3")
        await here.press("enter")
        assert "nothing is counted" in here.screen
        assert places(here) == before
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_a_count_that_nobody_explains_is_named_at_the_end_and_on_the_slip(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.say("5")
        for _ in range(3):
            await here.press("down", "enter")
        await here.say("finish")
        asked = "Rod 1: 5 counted, 6 should hang: which is not there? “rod 1” goes back."
        assert asked in here.screen
        assert "Rod 1: 5 counted, 6 should hang" in here.screen
        await here.say("rod 1")
        assert "Rod 1, Period 1" in here.screen
        await here.press("end", "enter")
        told = "Rod 1: 5 of 6 counted, nobody said which is not there"
        assert here.answer.startswith(f"swept: 17 to the boxes. {told}. Not looked at: rod 3 (6)")
        assert "Nothing is missing" not in here.answer
        assert re.search("Rod 1: 5 of 6 counted, nobody said which is not there\\.", here.page)
        assert "5 of 6 counted" in here.page
        assert places(here)["rod 1"] == 6
        await here.press("enter")
        (slips,) = documents.glob("sweep-slips-*.pdf")
        pages = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(slips)]
        assert [told in page for page in pages] == [True, False, False, False]
        await here.say("6 missing")
        assert "nobody said" not in here.page
        assert "slips printed before that are out of date" in " ".join(here.page.split())


async def test_what_of_a_wrong_count_is_named_leaves_the_others_open(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("4")
        await here.say("6 missing")
        await here.say("finish")
        assert "4 counted, 6 should hang: which other is not there?" in here.screen
        assert "missing, last seen. Does one turn up? Scan it" in here.screen
        assert "not seen: missing when you finish" not in here.screen
        await here.press("enter")
        told = "Missing: clip 6 (Student6 H.). Rod 1: 4 of 6 counted, nobody said which other is"
        assert told in here.answer


async def test_a_sweep_without_anything_told_cannot_be_finished(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("end", "enter")
        assert "Nothing was counted or scanned yet" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_after_the_end_a_number_is_looked_up_and_nothing_is_counted(forty: Path):
    async with sweep_begun(forty) as here:
        for _ in range(8):
            await here.press("enter")
        await here.type("17")
        await here.press("enter")
        assert "17 → Student17 H." in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None


@pytest.mark.parametrize("words", ["rod 2", rod_code(3), box_code(2)])
async def test_a_finished_sweep_is_only_looked_at_by_rods_and_boxes(forty: Path, words: str):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        before = places(here)
        await here.type(words)
        await here.press("enter")
        assert "Enter  back to the result" in here.screen
        assert "enter back to the result" in here.screen
        await here.press("enter")
        assert "Swept" in here.screen
        assert (places(here), sweeps_told(here)) == (before, 1)


async def test_the_arrows_look_through_a_finished_sweep_and_begin_no_other(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        before = places(here)
        await here.press("up", "up", "home")
        assert "Rod 1, Period 1" in here.screen
        assert "went to the boxes from here" in here.screen
        await here.press("escape")
        assert "Rod 2: 6" in here.screen
        await here.press("down", "down", "end")
        assert "Swept" in here.screen
        assert (places(here), sweeps_told(here)) == (before, 1)


async def test_another_sweep_begins_when_somebody_says_so(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        assert "another sweep: type “sweep again”" in here.screen
        await here.type("sweep again")
        await here.press("enter")
        assert "rod 1 should be empty" in here.screen
        await here.wait(seconds=60)
        await here.press("down", "enter")
        assert places(here)["box 2"] == 6
        assert sweeps_told(here) == 2


async def test_the_result_stands_there_after_a_restart_and_gives_way_the_next_day(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
    async with sweep_begun(forty, now=EVENING + timedelta(minutes=5)) as here:
        assert "Swept" in here.screen
        assert "6 in box 1" in here.screen
        await here.wait(seconds=14 * 3600)
        assert "rod 1 should be empty" in here.screen
        assert "Swept" not in here.screen


async def test_a_clip_after_the_end_says_whose_it_is_and_promises_no_other_enter(
    forty: Path, documents: Path
):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        await here.type("clip 4")
        await here.press("enter")
        assert "4 → W" in here.screen
        assert "Box 1." in here.screen
        told = [row for row in here.rows() if "nter" in row]
        assert told
        assert all("save the slips for the boxes as a PDF" in row for row in told)
        await here.press("enter")
        assert list(documents.glob("*.pdf"))
        assert "sleeve" not in here.acts


async def test_a_sweep_that_another_desk_finishes_prints_nothing_by_accident(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.press("enter", "end")
        here.app.polling.pause()  # the other desk is quicker than the half second
        with open_file(forty, write=True) as file:
            sweeping.sweep(file, Hand(EVENING, EVENING, "desk 2"), finish=True)
        await here.press("enter")
        assert "look once more" in here.screen
        assert list(documents.iterdir()) == []


async def test_a_dry_strip_that_is_not_scanned_beside_wet_ones_hangs_on_and_is_named(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        for clip in (1, 2):
            await here.scan(clip_code(clip, "A"))
        assert "Enter      that is all that is dry" in here.screen
        assert "should be dry, not scanned: left hanging" in here.screen
        await here.press("enter")
        told = "Clip 3 (Olu A.) should be dry and hangs on. If it is gone, type “3 missing”"
        assert told in here.screen
        assert "2 boxed, 8 hang" in here.screen
        await here.press("end")
        assert "Rod 2: 8 hang (7 wet, 1 dry)" in here.screen
        assert "of these should be dry and were not scanned" in here.screen
        assert re.search(r"3 +Olu A\. +rod 2, position 3", here.screen)
        await here.press("enter")
        assert "Nothing is missing" in here.screen
        assert "Rod 2: 8 hang (7 wet, 1 dry)" in here.screen
        assert places(here) == {"box 2": 2, "rod 2": 8}


async def test_a_tacky_strip_is_among_those_that_the_end_says_are_left_hanging(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.scan(clip_code(1, "A"))
        await here.scan(clip_code(2, "A"))
        await here.wait(seconds=30)
        await here.say("3 tacky")
        assert "2 boxed, 8 hang" in here.screen
        await here.press("end")
        assert "Rod 2: 8 hang" in here.screen


async def test_before_and_after_that_is_all_it_is_said_who_is_missing_then(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4):
            await here.scan(clip_code(clip, "A"))
        assert "Enter      that is all: 2 not seen" in here.screen
        assert "not seen yet: Enter now, and they are missing when you finish" in here.screen
        await here.press("enter")
        told = "Clip 5 (Student5 H.), clip 6 (Student6 H.) not seen: missing when you finish."
        assert f"{told} Found after all? Scan them" in here.answer
        await here.scan(clip_code(5, "A"))
        assert "noted at" not in here.answer
        await here.press("end")
        assert re.search("Enter +finish: 1 missing", here.screen)
        assert "not seen: missing when you finish. If you find one, scan it" in here.screen
        await here.press("enter")
        assert (
            "missing, last seen. Does one turn up? “6 box”; with its owner “6 take”" in here.screen
        )
        assert "Missing: clip 6 (Student6 H.). Not looked at: rod 2 (6)" in here.answer
        await here.say("6 box")
        assert str(here.on(6).place) == "box 1"


async def test_what_is_missing_and_lost_its_clip_to_a_new_roll_turns_up_by_its_number(forty: Path):
    async with sweep_begun(forty) as here:
        number = here.on(6).number
        for line in ("6 missing", "finish"):
            await here.say(line)
        await here.press("enter")
        with open_file(forty, write=True) as file:
            hanging.load(file, Hand(EVENING, EVENING, "desk 2"), 7, [6])
        await here.wait(seconds=1)
        assert f"Does one turn up? “{number} box”; with its owner" in here.page
        assert f"“{number} take”" in here.page
        await here.say(f"{number} box")
        assert (str(here.on(6).place), places(here)["box 1"]) == ("in the tank", 1)


async def test_the_finish_page_and_the_top_row_count_the_same_rods(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.say("5")
        await here.press("enter")
        assert "5 of 6 counted" in here.screen
        await here.press("end")
        assert "Rod 2: 5 counted, 6 should hang" in here.screen
        here.app.face.go("dryer")
        await here.wait(seconds=1)
        assert "sweep on, 1 of 7 rods through" in here.screen


async def test_the_result_is_read_from_its_heading_on_however_far_the_page_before_was_scrolled(
    forty: Path,
):
    async with sweep_begun(forty, size=(80, 24)) as here:
        await here.say("0")
        await here.press("end", "pagedown")
        assert "Finish the sweep" not in here.screen
        await here.press("enter")
        assert "Swept" in here.screen


async def test_what_is_left_hanging_is_said_to_be_dry_where_it_is(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        assert "enter next rod, this one stays as it is" in here.screen
        await here.scan(clip_code(38, "A"))
        await here.say("7")
        await here.press("end")
        assert "Rod 1: 6 hang (6 dry)" in here.screen


async def test_the_end_lists_every_unknown_roll_that_was_boxed_on_the_record_before_or_not(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.say("77 wet")
        await here.wait(minutes=600)
        await here.say("box all")
        await here.press("enter", "end")
        _, listed = here.page.split("unknown rolls, boxed now")
        assert "77  unknown" in listed


async def test_what_its_owner_took_since_is_told_beside_what_went_to_the_boxes(
    forty: Path, documents: Path
):
    async with sweep_begun(forty) as here:
        await here.press("enter")
        await here.say("clip 6 take")
        await here.press("end")
        assert "to the boxes (1 taken since)" in here.page
        assert "5 in box 1" in here.page
        await here.press("enter")
        assert "swept: 6 to the boxes (1 taken since)" in here.answer
        assert "to the boxes (1 taken since)" in here.page


async def test_where_a_roll_was_missing_before_it_is_said_that_nothing_more_is(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("40 missing")
        await here.press("enter", "end", "enter")
        assert "Missing: clip 40" in here.answer
        await here.say("sweep again")
        await here.press("enter", "end", "enter")
        assert "Nothing more is missing where you looked" in here.answer
