"""A roll is missing by a person's word, and what that says of the others on its rod."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from filmrack.domain.codes import clip_code
from filmrack.domain.names import Person
from filmrack.store import people, rolls, sweeps
from tests.conftest import School
from tests.desk.at_desk import at_desk
from tests.desk.sweep.at_sweep import (
    EVENING,
    FORTY,
    begin,
    finished,
    partly_dry_rod,
    places,
    sweep_begun,
    sweeps_told,
)


async def test_missing_marks_the_one_roll_that_is_looked_for(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.type("missing")
        assert not here.app.face.over
        await here.press("enter")
        assert "6 → Student6 H." in here.screen
        assert "Missing, last seen rod 1" in here.screen
        assert places(here)["missing"] == 1
        assert "Rod 2, Period 2" in here.screen
        assert "1 of 6 missing" in here.screen


async def test_wet_film_that_was_missing_and_turns_up_hangs_on_and_counts_with_its_rod(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        place = str(here.on(7).place)
        await here.say("7 missing")
        assert "9 should hang" in here.screen
        assert "so it hangs again" in await here.say("found")
        assert str(here.on(7).place) == place
        assert "10 should hang" in here.screen
        await here.say("10")
        assert places(here) == {"box 2": 3, "rod 2": 7}


async def test_missing_with_a_clip_marks_that_roll_and_the_count_without_it_is_right(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("clip 6 missing")
        await here.press("enter")
        assert places(here)["missing"] == 1
        await here.press("enter")
        assert places(here)["box 1"] == 5
        assert "1 of 6 missing" in here.screen
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.screen


async def test_which_one_is_missing_of_a_rod_that_was_counted_one_short_finishes_it_at_once(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        told = (
            "Which is not there? Type “NN missing”, or scan those that hang. Is one there but still"
            " wet? “NN wet”"
        )
        assert told in (await here.say("5"))
        assert re.search("“NN missing” +clip NN is not there: boxes the others", here.screen)
        assert "rod 1: which is not there? “NN missing”, or scan" in here.screen
        assert not re.search(r"\d missing”", here.screen)  # what is copied names no real strip
        answer = await here.say("4 missing")
        assert "Missing, last seen rod 1, position 4. 5 to box 1. Clips 1 2 3 5 6." in answer
        assert places(here) == {"box 1": 5, "missing": 1} | {
            f"rod {n}": many for n, many in enumerate(FORTY, 1) if n > 1
        }
        assert "Rod 2, Period 2" in here.screen
        await here.say("undo")
        assert places(here)["rod 1"] == 6
        assert "Rod 1, Period 1" in here.screen
        assert "counted, 6 should hang" in here.screen


async def test_of_two_that_are_missing_the_second_one_finishes_the_rod(forty: Path):
    async with sweep_begun(forty) as here:
        assert "Which 2 are not there? Type “NN missing” for each, or scan those" in await here.say(
            "4"
        )
        await here.say("6 missing")
        assert places(here)["box 1"] == 0
        await here.say("5 missing")
        assert places(here)["box 1"] == 4
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.), clip 5 (Student5 H.)" in here.answer


async def test_which_one_is_missing_boxes_the_dry_others_and_leaves_what_is_not(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("9")
        assert "clip NN is not there: boxes the others that are dry" in here.screen
        answer = await here.say("3 missing")
        assert "2 to box 2. Clips 1 2. 7 hang on (7 wet)" in answer
        assert places(here) == {"box 2": 2, "rod 2": 7, "missing": 1}
        assert "2 Period 2   1 of 10 missing" in here.screen
        assert "Rod 2, Period 2" not in here.screen
        await here.press("end")
        assert "Rod 2: 7 hang (7 wet)" in here.screen


async def test_behind_a_stray_which_one_is_missing_boxes_no_others_by_itself(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(38, "A"))
        await here.say("count 5")
        await here.say("6 missing")
        assert places(here)["box 1"] == 0


async def test_missing_alone_asks_which_where_several_are_looked_for(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        with here.app.session.file.writing() as conn:
            people.add(conn, Person(99, "Missing", "Persons"))
        await begin(here)
        await here.type("missing")
        await here.press("enter")
        assert "Which roll is missing is not said: type its clip, as in “6 missing”" in here.screen
        assert "Missing P." not in here.screen
        assert sweeps_told(here) == 0


async def test_after_the_end_a_roll_is_marked_missing_without_another_sweep(forty: Path):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        await here.type("17 missing")
        await here.press("enter")
        assert str(rolls.by_id(here.app.session.file.conn, 17).place) == "missing"
        assert sweeps_told(here) == 1
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_what_is_missing_after_the_end_stands_in_the_sweeps_list_until_that_is_taken_back(
    forty: Path,
):
    async with at_desk(forty, now=EVENING) as here:
        await finished(here)
        for clip, row in ((3, r"3 .* box 1"), (17, r"17 .* rod 3")):
            await here.say(f"clip {clip} missing")
            assert "missing, last seen" in here.screen
            assert re.search(row, here.shown)
        await here.say("undo")
        await here.say("undo")
        assert places(here)["missing"] == 0
        assert "Swept" in here.screen
        assert sweeps_told(here) == 1


@pytest.mark.parametrize(
    "words", ["6 missing", "missing 6", "student6 missing", "missing student6"]
)
async def test_missing_stands_before_a_strip_or_behind_it(forty: Path, words: str):
    async with sweep_begun(forty) as here:
        await here.say("5")
        assert "6 → Student6 H.. Missing, last seen rod 1" in await here.say(words)
        assert str(here.on(6).place) == "missing"
        assert places(here)["box 1"] == 5


async def test_a_dry_strip_beside_wet_ones_is_missing_by_a_word_of_the_hand(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        for clip in (1, 2):
            await here.scan(clip_code(clip, "A"))
        await here.press("enter")
        await here.say("3 missing")
        await here.press("end")
        assert "Rod 2: 7 hang (7 wet)" in here.screen
        await here.press("enter")
        assert "Missing: clip 3 (Olu A.)" in here.screen
        assert places(here) == {"box 2": 2, "rod 2": 7, "missing": 1}


async def test_a_clip_that_is_not_of_the_rod_in_hand_is_asked_about_before_it_is_missing(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        assert "Which 2 are not there?" in await here.say("4")
        answer = await here.say("7 missing")  # two are meant, and clip 7 hangs on the next rod
        assert "not on rod 1. It is noted at rod 2, position 1. Enter: it is missing" in answer
        assert places(here)["missing"] == 0
        await here.press("escape")
        assert "Rod 1, Period 1" in here.screen
        await here.say("7 missing")
        await here.press("enter")
        assert (places(here)["missing"], str(here.on(7).place)) == (1, "missing")
        assert "is missing already" in await here.say("7 missing")


@pytest.mark.parametrize("again", ["end", "enter"])
async def test_missing_alone_is_the_list_where_no_rod_is_in_hand(forty: Path, again: str):
    async with sweep_begun(forty) as here:
        await here.say("6 missing")
        await here.press("end", again)
        await here.say("missing")
        assert here.open == "archive"
        assert "Student6" in here.screen
