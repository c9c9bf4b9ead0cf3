"""The printed guides at the desk: what stands on their grey fields does what they say."""

from __future__ import annotations

import pytest

from filmrack.acts import hanging
from filmrack.printing import GUIDES
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import at_desk


def typed(whom: str) -> list[str]:
    """Return the lines of a guide, without what is scanned and the key that ends each."""
    lines = [line for step in GUIDES[whom].steps for line in step.typed]
    return [line for line in lines if line != "Enter" and not line.startswith("scan")]


async def test_a_student_goes_by_the_guide_from_the_tank_to_the_box(school: School) -> None:
    async with at_desk(school.file.path) as here:
        for line in typed("student"):
            await here.enter(line)
            assert "is called" not in here.answer, line
        assert here.acts == ["load", "hang", "flip", "touch", "touch", "take", "box", "undo"]


async def test_a_word_alone_means_the_roll_that_was_found(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as here:
        await here.enter("mar")
        await here.enter("flip")
        assert here.acts[-1] == "flip"


@pytest.mark.parametrize("whom", ["cabinet", "binders"])
async def test_whatever_a_teachers_guide_types_is_understood(school: School, whom: str) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17, rod=1)
    if whom == "binders":
        school.sleeved(OLU, 18)
    async with at_desk(school.file.path) as here:
        for line in typed(whom):
            await here.enter(line)
            assert "is called" not in here.answer, line
            if line not in ("archive", "sweep", "5"):
                await here.press("escape", "escape")
