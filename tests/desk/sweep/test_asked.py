"""An answer is about the rod that was shown when the sweep asked, and about no other."""

from __future__ import annotations

import re
from pathlib import Path

from filmrack.domain.codes import clip_code, rod_code
from tests.conftest import School
from tests.desk.sweep.at_sweep import partly_dry_rod, places, sweep_begun


async def test_a_question_is_of_the_rod_that_is_shown(partly_dry: Path, school: School):
    async with partly_dry_rod(partly_dry, school) as here:
        await here.say("box all")
        assert re.search("Enter +box them all the same", here.screen)
        assert "box dry" not in here.screen
        assert "enter box them all the same" in here.screen
        await here.press("down", "enter")
        assert places(here) == {"rod 2": 10}


async def test_another_number_is_no_count_of_a_rod_that_was_not_asked_about(forty: Path):
    async with sweep_begun(forty) as here:
        await here.scan(rod_code(2))
        await here.scan(clip_code(38, "A"))
        await here.say("6")
        assert "rod 2: do these 6 hang here still without 38?" in here.answer
        await here.press("down")
        assert "Rod 3, Period 3" in here.screen
        assert "nothing done. another rod is shown now" in await here.say("5")
        assert "6 should hang" in here.screen
        assert places(here)["rod 3"] == 6
