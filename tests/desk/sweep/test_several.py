"""Several clips in one line are the scans of that line, together or not at all."""

from __future__ import annotations

from pathlib import Path

from filmrack.domain.codes import box_code
from filmrack.store import sweeps
from tests.conftest import School
from tests.desk.sweep.at_sweep import partly_dry_rod, places, sweep_begun


async def test_behind_a_short_count_the_clips_of_one_line_are_those_that_hang(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        answer = await here.say("1 2 3, 4 and 5")
        assert "rod 1: 5 to box 1. Rod 1 is through, 1 not seen. Clips 1 2 3 4 5" in answer
        assert (here.open, places(here)["box 1"]) == ("sweep", 5)
        await here.press("enter", "end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.answer


async def test_one_undo_takes_back_all_clips_of_a_line(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("5")
        before = places(here)
        await here.say("1 2 3 38")
        assert "Clip 38 (Student38 H.) found on rod 1, though noted at rod 7" in here.answer
        assert "Clips 1 2 3 38, to the box: as before" in await here.say("undo")
        assert places(here) == before


async def test_a_line_with_a_clip_that_has_to_be_asked_about_does_nothing(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("1 2 4 77")
        assert "nothing was done with these 4" in here.answer
        assert "wet by the clock: clip 4 (Ivo L.); on no roll: clip 77" in here.answer
        assert places(here) == {"rod 2": 10}
        assert sweeps.going_on(here.app.session.file.conn) is None


async def test_behind_a_wrong_count_what_is_wet_in_a_line_is_seen_and_hangs_on(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("count 9")
        await here.say("1 2 3 4 5")
        assert "rod 2: 3 to box 2, 2 hang on" in here.answer
        assert "Not dry, so left hanging: clips 4 5" in here.answer
        assert places(here) == {"box 2": 3, "rod 2": 7}
        assert "5 of 9 scanned" in here.screen


async def test_where_wet_film_is_asked_about_a_line_of_clips_is_taken_for_itself(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("clip 4")
        await here.say("1 2")
        assert places(here) == {"box 2": 2, "rod 2": 8}


async def test_a_clip_typed_twice_or_found_before_is_boxed_once(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("1 1 2")
        assert "rod 1: 2 to box 1" in here.answer
        await here.say("2 3")
        assert "rod 1: 1 to box 1. Clip 3. Clip 2 was found before" in here.answer
        assert places(here)["box 1"] == 3


async def test_the_clips_of_a_line_at_a_box_lie_in_that_box(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("1")
        await here.scan(box_code(2))
        assert "box 2: 2 to box 2" in await here.say("7 8")
        assert places(here)["box 2"] == 2


async def test_at_the_end_no_rod_is_in_hand_for_a_line_of_clips(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("end")
        assert "no rod is in hand" in await here.say("7 8")
        assert set(places(here)) == {f"rod {n}" for n in range(1, 8)}
