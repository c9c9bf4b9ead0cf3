"""Many rolls that one line would cut or file: refused, with how it is done one after the other."""

from __future__ import annotations

import pytest

from filmrack.acts import hanging
from tests.conftest import MARA, OLU, School
from tests.desk.archive.sleeves import sleeved
from tests.desk.at_desk import opened_on


@pytest.mark.parametrize("screen", ["archive", "boxes", "dryer"])
@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("sleeve all", "“not sleeved”"),
        ("cut everything", "“not sleeved”"),
        ("sleeve 17 18 19", "“not sleeved”"),
        ("cut 17, 5", "“not sleeved”"),
        ("cut 5 and 17", "“not sleeved”"),
        ("sleeve box 3", "“box 3”"),
        ("box 3 cut", "“box 3”"),
    ],
)
async def test_film_is_cut_one_roll_at_a_time_on_every_screen(
    school: School, screen: str, typed: str, shown: str
) -> None:
    for person, clip in ((MARA, 17), (OLU, 5)):
        hanging.hang(school.file, school.hand(), person=person, clip=clip)
    async with opened_on(screen, school.file.path) as desk:
        await desk.enter(typed)
        assert f"one roll at a time, so nothing is cut: type {shown}" in desk.answer
        assert "Enter cuts the selected one and ↓ goes to the next" in desk.answer
        assert "sleeve" not in desk.acts


@pytest.mark.parametrize(
    ("typed", "binder"),
    [("file all", 3), ("file box 7", 7), ("file 17 18 19", 3), ("file 0001 0002", 3)],
)
async def test_sleeves_are_filed_one_after_the_other_with_a_binder_in_hand(
    school: School, typed: str, binder: int
) -> None:
    for person, clip in ((MARA, 17), (OLU, 5)):
        sleeved(school, person, clip)
    async with opened_on("archive", school.file.path) as desk:
        await desk.enter(typed)
        assert f"so nothing is filed: type “binder {binder}”, then scan" in desk.answer
        assert "file" not in desk.acts


async def test_a_clip_with_its_frames_is_one_roll_though_another_hangs_on_that_number(
    school: School,
) -> None:
    for person, clip in ((MARA, 17), (OLU, 30)):
        school.boxed(person, clip)
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter("sleeve 17 30")
        assert "sleeve" in desk.acts
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter("30 cut 12")
        assert desk.acts.count("sleeve") == 2
