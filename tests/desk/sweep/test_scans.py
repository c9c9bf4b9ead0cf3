"""Strips are scanned one by one: each goes to its box, and what was noted wrongly is named."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from filmrack.acts import closing
from filmrack.domain.codes import clip_code
from filmrack.store import checking, sweeps
from tests.conftest import School
from tests.desk.sweep.at_sweep import (
    EVENING,
    FORTY,
    partly_dry_rod,
    places,
    scan_the_dry,
    sweep_begun,
)


async def test_a_roll_on_the_wrong_rod_is_named_and_goes_to_its_own_box(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("count 7")
        await here.press("enter")
        await here.scan(clip_code(40, "B"))
        assert here.on(40).place.number == 7
        assert "Found on rod 1, though noted at rod 7, position 5: it goes to box 7" in here.answer
        for clip in range(1, 7):
            await here.scan(clip_code(clip, "A"))
        await here.press("end")
        assert "in the wrong place, boxed now; noted before" in here.screen
        assert "not seen" not in here.screen


async def test_a_clip_that_no_record_explains_is_an_unknown_roll_whichever_tag_is_read(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.type("count 7")
        await here.press("enter")
        await here.scan(clip_code(99, "A"))
        assert "99 → unknown roll, box 1" in here.screen
        await here.scan(clip_code(99, "B"))
        assert "Was found before, and is in box 1" in here.screen
        await here.press("end")
        assert "unknown rolls" in here.screen


async def test_the_last_scans_of_a_rod_that_was_counted_short_still_belong_to_it(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("5")
        await here.press("enter")
        for clip in range(1, 7):
            await here.scan(clip_code(clip, "A"))
        assert "though noted" not in here.screen
        await here.press("end")
        assert "not seen" not in here.screen


async def test_a_roll_that_is_found_tacky_stays_and_is_not_missing(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(1, "A"))
        for clip in (2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.wait(seconds=60)
        await here.type("6 tacky")
        await here.press("enter")
        await here.press("end", "enter")
        assert str(here.on(6).place) == "rod 1, position 6"
        assert places(here)["missing"] == 0


async def test_a_scan_at_the_end_goes_back_to_its_rod(forty: Path):
    async with sweep_begun(forty) as here:
        await here.press("end")
        await here.scan(clip_code(7, "A"))
        assert "Rod 2, Period 2" in here.screen
        assert "not seen yet" in here.screen


async def test_a_roll_that_was_found_tacky_at_its_rod_hangs_on_and_is_not_missing(forty: Path):
    async with sweep_begun(forty) as here:
        await here.type("6 tacky")
        await here.press("enter")
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        assert "Rod 2, Period 2" in here.screen
        await here.press("end", "enter")
        assert "Nothing is missing" in here.screen
        assert here.on(6).place.kind == "rod"


async def test_a_strip_put_back_wet_in_the_sweep_is_in_no_box_and_on_no_slip(forty: Path):
    async with sweep_begun(forty, now=EVENING + timedelta(days=1)) as here:
        await here.type("6")
        await here.press("enter")
        await here.press("up")
        await here.type("undo")
        await here.press("enter")
        await here.type("5")
        await here.press("enter")
        await here.scan(clip_code(1, "A"))
        await here.type("1 tacky")
        await here.press("enter")
        assert "0 of 5 scanned" in here.screen
        for clip in (2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        assert "Rod 1 is through, 1 not seen, 1 hangs on" in here.screen
        await here.press("end", "enter")
        assert "4 in box 1" in here.screen
        assert "Missing: clip 6" in here.screen
        assert here.on(1).place.kind == "rod"


async def test_one_strip_more_behind_the_last_hung_on_the_rod_before(forty: Path):
    async with sweep_begun(forty) as here:
        for clip in (1, 2, 3, 4, 5, 6, 20):
            await here.scan(clip_code(clip, "A"))
        assert "Found on rod 1, though noted at rod 4" in here.answer
        counts = sweeps.counts(here.app.session.file.conn, 1)
        assert (counts[1].extra, 2 in counts) == (1, False)


async def test_wet_strips_hang_on_when_the_dry_ones_are_scanned(partly_dry: Path, school: School):
    async with partly_dry_rod(partly_dry, school) as here:
        await scan_the_dry(here)
        assert "Rod 2 is through, 7 hang on" in here.screen
        assert "3 boxed, 7 hang" in here.screen
        assert "left hanging" in here.screen
        await here.press("enter", "end")
        assert "Rod 2: 7 hang (7 wet)" in here.screen
        assert "missing when you finish" not in here.screen
        await here.press("enter")
        assert "Nothing is missing" in here.screen
        assert places(here) == {"box 2": 3, "rod 2": 7}


async def test_a_wet_strip_that_is_dry_to_the_touch_is_scanned_from_the_same_rod(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await scan_the_dry(here)
        await here.scan(clip_code(4, "A"))
        assert "4 → Ivo L.: wet by the clock. Enter boxes it all the same" in here.answer
        await here.press("enter")
        assert "4 boxed, 6 hang" in here.screen
        assert "though noted" not in here.screen


async def test_a_wet_strip_that_is_scanned_says_how_it_hangs_again(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        assert "That hangs on unless you box it" in " ".join(here.shown.split())
        await here.scan(clip_code(4, "A"))
        await here.press("enter")
        assert "If tacky, hang it again and type “4 tacky”" in here.answer
        await here.say("4 tacky")
        assert here.on(4).place.kind == "rod"
        assert "box 2" not in places(here)


async def test_one_missing_and_one_foreign_strip_are_both_found_when_the_foreign_one_is_scanned(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.scan(clip_code(38, "A"))
        await here.say("count 5")
        for clip in (1, 2, 3, 4, 5):
            await here.scan(clip_code(clip, "A"))
        await here.press("enter", "end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.answer
        assert places(here) == {"box 1": 5, "box 7": 1, "missing": 1} | {
            f"rod {n}": many - (n == 7) for n, many in enumerate(FORTY, 1) if n > 1
        }


async def test_an_unknown_roll_is_put_aside_while_no_term_is_open(db: Path, school: School):
    closing.close_term(school.file, school.hand(), "26F", "the end of term")
    async with sweep_begun(db) as here:
        await here.type("1")
        await here.press("enter")
        await here.scan(clip_code(40, "A"))
        assert "No record explains it, and no term is open to number it in" in here.screen
        assert places(here) == {}


async def test_wet_film_that_is_only_looked_up_or_scanned_hangs_on_unless_enter_boxes_it(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("clip 4")
        assert "4 → Ivo L.: wet by the clock" in here.answer
        assert "enter box it all the same" in here.screen
        await here.scan(clip_code(5, "A"))
        assert "5 → Ivo L.: wet by the clock" in here.answer
        await here.say("clip 6")
        assert "6 → Ivo L.: wet by the clock" in here.answer
        await here.press("escape")
        assert (places(here), sweeps.going_on(here.app.session.file.conn)) == ({"rod 2": 10}, None)
        await here.scan(clip_code(6, "A"))
        await here.press("enter")
        assert places(here) == {"box 2": 1, "rod 2": 9}


async def test_behind_a_wrong_count_wet_film_is_seen_and_hangs_on(partly_dry: Path, school: School):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("count 9")
        await here.scan(clip_code(4, "A"))
        assert "4 → Ivo L.: seen. Wet by the clock: it hangs on" in here.answer
        assert "1 of 9 scanned" in here.screen
        for clip in (5, 6, 7, 8, 9):
            await here.scan(clip_code(clip, "A"))
        await scan_the_dry(here)
        assert "Rod 2 is through, 1 not seen, 6 hang on" in here.answer
        await here.press("enter", "end", "enter")
        assert "Missing: clip 10" in here.answer
        assert places(here) == {"box 2": 3, "rod 2": 6, "missing": 1}
        await here.say("undo")
        assert places(here) == {"box 2": 3, "rod 2": 7}


async def test_behind_a_wrong_count_wet_film_from_another_rod_is_noted_where_it_hangs(
    partly_dry: Path, school: School
):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("rod 1 1")
        await here.wait(seconds=5)
        await here.say("clip 4")
        assert "Found on rod 1, though noted at rod 2, position 4: it is noted here" in here.answer
        assert str(here.on(4).place) == "rod 1, position 1"
        await here.press("enter")
        await here.say("rod 2 9")
        assert places(here) == {"box 2": 3, "rod 1": 1, "rod 2": 6}
        await here.press("end", "enter")
        assert "Nothing is missing" in here.answer
        assert checking.problems(here.app.session.file) == []


async def test_a_strip_that_no_record_explains_and_that_is_wet_hangs_on_as_an_unknown_roll(
    forty: Path,
):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 7")
        await here.wait(seconds=5)
        await here.say("clip 77")
        assert "Wet? “77 wet”: it hangs on" in here.answer
        await here.say("77 wet")
        assert "The count of 7 is right now: Enter if these 7 hang there" in here.answer
        assert str(here.on(77).place) == "rod 2, position 7"
        assert here.on(77).checks[-1].dry is False
        await here.press("enter")
        assert (places(here)["box 2"], places(here)["rod 2"]) == (6, 1)
        assert checking.problems(here.app.session.file) == []
        await here.say("undo")
        await here.say("undo")
        assert (places(here)["rod 2"], 77 in here.rolls) == (6, False)


async def test_an_unknown_strip_found_wet_and_boxed_later_is_one_strip_of_its_rod(forty: Path):
    async with sweep_begun(forty) as here:
        await here.say("rod 2 7")
        await here.wait(seconds=5)
        await here.say("still tacky 77")
        await here.wait(minutes=600)
        await here.scan(clip_code(77, "A"))
        await here.press("enter")
        assert sweeps.counts(here.app.session.file.conn, 1)[2].extra == 1
        assert str(here.on(77).place) == "box 2"
        assert checking.problems(here.app.session.file) == []
