"""A substitute sweeps at a student desk."""

from __future__ import annotations

from pathlib import Path

from filmrack.acts import archiving, fetching
from filmrack.acts.group import Hand
from filmrack.domain.codes import clip_code
from filmrack.store.file import open_file
from tests.desk.at_desk import at_desk
from tests.desk.sweep.at_sweep import EVENING, finished, places, sweep_begun


async def test_a_substitute_sweeps_at_a_student_desk_from_the_count_to_the_slips(
    helpers: Path, documents: Path
):
    async with sweep_begun(helpers) as here:
        assert not here.app.teacher
        await here.type("5")
        await here.press("enter")
        for clip in (1, 2, 3, 4):
            await here.scan(clip_code(clip, "A"))
        await here.type("6 missing")
        await here.press("enter")
        await here.scan(clip_code(5, "A"))
        await here.press("end", "enter")
        assert "Missing: clip 6 (Student6 H.)" in here.screen
        await here.press("enter")
        assert list(documents.glob("sweep-slips-*.pdf"))
        assert places(here)["box 1"] == 5
        await here.type("undo")
        await here.press("enter")
        assert "Finish the sweep" in here.screen


async def test_a_substitute_looks_up_what_is_on_its_way_and_nothing_in_the_archive(helpers: Path):
    with open_file(helpers, write=True) as file:
        fetching.box(file, Hand(EVENING, EVENING, "desk 2"), [40])
        sleeved = archiving.sleeve(file, Hand(EVENING, EVENING, "desk 2"), 40).roll.number
    async with at_desk(helpers, now=EVENING) as here:
        await finished(here)
        await here.type("1")
        await here.press("enter")
        assert "1 → [/x]" in here.screen
        await here.type(sleeved)
        await here.press("enter")
        assert "the archive is the teacher's" in here.screen
