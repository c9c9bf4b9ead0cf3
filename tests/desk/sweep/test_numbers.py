"""A bare number at a rod is a count, a clip, or asked about."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from filmrack.domain.codes import clip_code, rod_code
from filmrack.store import sweeps
from tests.conftest import School
from tests.desk.sweep.at_sweep import damp_rod, places, scan_the_dry, sweep_begun


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


@pytest.mark.parametrize(
    ("answer", "place", "counted"),
    [
        ("", "box 2", None),
        ("clip 9", "box 2", None),
        ("count", "rod 2", 9),
        ("count 9", "rod 2", 9),
    ],
)
async def test_a_number_that_may_be_a_clip_of_the_rod_is_asked_about(
    forty: Path, answer: str, place: str, counted: int | None
):
    async with sweep_begun(forty) as here:
        await here.press("down")
        await here.say("9")
        assert "9: clip 9, or 9 counted?" in here.answer
        assert "enter clip 9" in here.screen
        assert sweeps.going_on(here.app.session.file.conn) is None
        await here.say(answer)
        assert str(here.on(9).place).startswith(place)
        assert sweeps.counts(here.app.session.file.conn, 1)[2].counted == counted


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


@pytest.mark.parametrize(
    ("number", "enter", "noted"), [("7", "count 7", "rod 2"), ("13", "clip 13", "rod 3")]
)
async def test_more_than_should_hang_can_be_a_clip_that_strayed_there(
    forty: Path, number: str, enter: str, noted: str
):
    async with sweep_begun(forty) as here:
        await here.say(number)
        assert f"{number}: clip {number}, or {number} counted?" in here.answer
        assert f"enter {enter}" in here.screen
        assert not re.search("Enter .*: to box", here.screen)
        assert "Type how many" not in here.screen
        await here.say("clip")
        assert f"Found on rod 1, though noted at {noted}" in here.answer
        assert places(here)["rod 1"] == 6


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


async def test_a_number_that_no_record_explains_is_a_count_unless_a_hand_says_clip(
    damp: Path, school: School
):
    async with damp_rod(damp, school) as here:
        await scan_the_dry(here)
        await here.say("11")
        assert "Enter: 11 counted. For clip 11 type “clip 11”" in here.answer
        await here.say("clip 11")
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


@pytest.mark.parametrize("number", ["13", "14", "38", "77"])
async def test_a_new_count_of_more_than_the_rod_holds_is_refused(forty: Path, number: str):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 5")
        before = places(here), here.acts
        assert f"{number} is too many for rod 2, which has 8 positions" in await here.say(number)
        assert f"type “clip {number}” if it is that clip, or scan it" in here.answer
        assert (places(here), here.acts) == before


async def test_a_number_that_no_rod_holds_is_the_clip(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(7))
        await here.say("38")
        assert str(here.on(38).place) == "box 7"
        assert "1 of 5 scanned" in here.screen
