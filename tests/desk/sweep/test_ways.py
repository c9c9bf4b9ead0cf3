"""Whose roll goes to which box is said before and after."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

from filmrack.acts import closing, hanging
from filmrack.domain.codes import rod_code
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.sweep.at_sweep import EVENING, places, sweep_begun


async def test_whose_roll_goes_to_which_box_is_said_before_and_after(db: Path, school: School):
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=2)
    hanging.hang(school.file, school.hand(), person=IVO, clip=2, rod=2)
    hanging.hang(school.file, school.hand(), person=MARA, clip=3, rod=2)
    async with sweep_begun(db, size=(80, 24), now=EVENING) as here:
        await here.press("down")
        said = " ".join(row[33:].strip() for row in here.rows())
        assert "More than one box: 2 to box 2, but clip 3 (Mara O.) to box 1." in said
        assert re.search(r"3 +Mara O\. +dry +to box 1\b", said), "it lies in none yet"
        await here.press("enter")
        assert "rod 2: 2 to box 2" in here.screen
        assert "But clip 3 (Mara O.) to box 1" in here.screen


async def test_what_has_no_box_of_its_own_hangs_on_and_says_how_it_is_boxed(
    db: Path, school: School
):
    school.now = EVENING
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=3)
    hanging.hang(school.file, school.hand(), clip=61, rod=3)
    async with sweep_begun(db, now=EVENING + timedelta(days=1)) as here:
        await here.press("end", "up")
        assert "Clip 61 (unknown roll) has no box of its own" in here.screen
        await here.press("enter")
        assert "rod 3: 1 to box 2" in here.screen
        assert "type its clip and a box, as in “61 box 4”" in here.screen
        assert "1 boxed, 1 hangs" in here.screen
        await here.type("61 box 1")
        await here.press("enter")
        assert str(here.on(61).place) == "box 1"


async def test_where_nothing_that_is_dry_has_a_box_none_is_boxed_and_it_is_said_so(
    db: Path, school: School
):
    school.now = EVENING
    hanging.hang(school.file, school.hand(), clip=61, rod=3)
    school.wait(400)
    hanging.hang(school.file, school.hand(), clip=62, rod=3)
    async with sweep_begun(db, now=school.now + timedelta(minutes=5)) as here:
        await here.scan(rod_code(3))
        answer = await here.say("box dry")
        assert "rod 3: none boxed. Clip 61 (unknown roll) has no box of its own" in answer
        assert places(here) == {"rod 3": 2}


async def test_film_of_a_closed_term_is_boxed_and_said_so(db: Path, school: School):
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=2)
    hanging.hang(school.file, school.hand(), person=IVO, clip=2, rod=2)
    closing.close_term(school.file, school.hand(), "26F", "the cabinet is locked")
    async with sweep_begun(db) as here:
        await here.press("down", "enter")
        assert places(here) == {"box 2": 2}
        told = "Clip 1 (Olu A.), clip 2 (Ivo L.) are of term 26F, which is closed"
        assert told in here.screen
        assert "reopen it before you cut and sleeve" in here.screen


async def test_a_rod_whose_film_all_goes_to_another_box_says_so(db: Path, school: School):
    hanging.hang(school.file, school.hand(), person=MARA, clip=3, rod=2)
    async with sweep_begun(db) as here:
        await here.press("down")
        assert "it hangs here: to box 1, though the" in here.screen
        await here.press("enter")
        assert "rod 2: 1 to box 1, though the rod's is box 2" in here.screen
