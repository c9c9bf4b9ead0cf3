"""What the page says of a rod before it is counted, and of film that is not dry."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.demo.copying import copy_demo
from filmrack.domain.codes import clip_code, rod_code
from tests.conftest import TUESDAY_9_00, School
from tests.desk.at_desk import at_desk
from tests.desk.sweep.at_sweep import EVENING, begin, places, sweep_begun


async def test_film_that_wants_a_touch_is_not_called_wet(forty: Path):
    async with sweep_begun(forty, now=TUESDAY_9_00 + timedelta(minutes=25)) as here:
        assert "Not dry: 6 to touch. That hangs on unless you box it." in " ".join(
            here.shown.split()
        )
        await here.say("box all")
        assert "rod 1: 6 hang here, 6 to touch" in here.answer
        await here.press("escape")
        await here.scan(clip_code(1, "A"))
        assert "Probably dry: touch both ends. If tacky, hang it again" in here.answer
        await here.press("end")
        assert "Rod 1: 5 hang (5 to touch)" in here.screen
        assert "not dry" not in here.screen


async def test_what_wants_a_touch_is_wet_neither_in_the_top_row_nor_at_its_rod(
    partly_dry: Path, school: School
):
    async with at_desk(partly_dry, now=school.now) as here:
        assert "7 wet   3 ready" in here.rows()[1]
    async with at_desk(partly_dry, now=school.now + timedelta(minutes=25)) as here:
        await begin(here)
        await here.scan(rod_code(2))
        assert "0 wet   7 to touch   3 ready" in here.rows()[1]
        assert "Not dry: 7 to touch." in here.screen


async def test_a_strip_found_tacky_at_its_rod_is_wet_there_and_in_the_top_row_from_then_on(
    tmp_path: Path,
):
    copy_demo(tmp_path / "demo.db", EVENING)  # its fan has run for hours, and it has taught enough
    async with sweep_begun(tmp_path / "demo.db") as here:
        await here.say("rod 6")
        before = here.app.session.look()
        clip = next(s.roll.clip for s in before.by_rod[6].values() if s.state == "dry")
        assert "still wet" in await here.say(f"{clip} wet")
        for seconds in (0, 1, 1, 28):
            await here.wait(seconds=seconds)
            now = here.app.session.look()
            assert (now.wet, now.to_touch) == (before.wet + 1, before.to_touch)
            assert f"{now.wet} wet   {now.to_touch} to touch" in here.rows()[1]
            assert re.search(rf" {clip} +\S.* (wet|flip) ", here.page)


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_a_rod_names_its_clips_and_asks_for_others_before_it_is_counted(
    forty: Path, size: tuple[int, int]
):
    async with sweep_begun(forty, size=size) as here:
        said = " ".join(row[33:].strip() for row in here.rows())
        told = "Clips 1 2 3 4 5 6. Do you see another number? Scan that clip first, or type “clip”"
        assert (told in " ".join(said.split())) == (size != (80, 24))
        assert all(re.search(rf" {clip} +\S.* dry", here.page) for clip in range(1, 7))
        assert re.search("Enter +these 6 hang here", here.screen)
        assert "another clip than these? Scan it first" in here.screen
        await here.press("enter")
        assert here.keys == 1
        assert "Clips 1 2 3 4 5 6. Wrong? Type “undo”" in here.answer
        assert places(here)["box 1"] == 6


async def test_on_a_low_screen_a_full_rod_says_what_enter_does_and_shows_each_strip_at_once(
    partly_dry: Path, school: School
):
    async with sweep_begun(partly_dry, school.now + timedelta(minutes=5), (80, 24)) as here:
        await here.say("rod 2")
        right = re.sub("[▀▄█]", " ", " ".join(row[33:] for row in here.page.splitlines()))
        said = " ".join(right.split())
        assert re.search("Enter .*these 10 hang here: box the 3 dry, 7 hang on", said)
        assert "not 10? Type how many should hang here; is one wet? “NN wet”" in said
        strips = re.findall(r"^.{32,36} (\d+)  +\S.* (?:dry|wet)", here.page, re.M)
        assert strips == [str(clip) for clip in range(1, 11)]
        assert "page down" not in here.page


async def test_while_something_is_asked_the_list_says_nothing_of_enter(forty: Path):
    async with sweep_begun(forty, size=(80, 24)) as here:
        await here.scan(clip_code(38, "A"))
        await here.scan(clip_code(1, "A"))
        assert "not seen yet: Enter now, and they are" in here.page
        await here.say("count 5")
        assert "do these 5 hang here still without 38?" in here.answer
        assert "not seen yet" in here.page
        assert "Enter now" not in here.page


async def test_behind_a_wrong_count_the_page_shows_that_count_until_a_strip_is_scanned(
    partly_dry: Path, school: School
):
    async with sweep_begun(partly_dry, school.now + timedelta(minutes=5), (80, 24)) as here:
        await here.say("rod 2 9")
        assert re.search("counted, 10 should hang", here.page)
        assert "scanned" not in here.page
        assert re.search("“NN missing” +boxes the others that", here.page)
        assert len([row for row in here.rows() if "NN missing" in row]) == 3
        await here.scan(clip_code(1, "A"))
        assert "scanned. 9 counted, 10 should" in here.page


async def test_a_low_screen_says_how_one_is_missing_also_where_that_boxes_nothing(
    partly_dry: Path, school: School
):
    async with sweep_begun(partly_dry, school.now + timedelta(minutes=5), (80, 24)) as here:
        await here.say("rod 2 8")
        assert "not seen yet; one not there? “NN missing”" in here.page
