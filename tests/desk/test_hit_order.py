"""Which of the rolls that are found by a name come first, and of which term they are."""

from __future__ import annotations

import pytest

from tests.conftest import MARA, School
from tests.desk.archive.sleeves import archive, in_last_term, sleeved


@pytest.mark.parametrize("typed", ["mara", "find okafro", "okafor"])
async def test_a_name_means_first_the_rolls_of_the_term_that_somebody_turned_to(
    school: School, typed: str
) -> None:
    old = in_last_term(school, "Mara Okafor")
    new = sleeved(school, MARA, 21)
    async with archive(school.file.path) as desk:
        await desk.type(typed)
        first = desk.app.face.hits.hits[0].standing
        assert first is not None
        assert first.roll.id == new
        await desk.press("escape")
        await desk.enter("26s")
        await desk.type(typed)
        first = desk.app.face.hits.hits[0].standing
        assert first is not None
        assert first.roll.id == old


@pytest.mark.parametrize("typed", ["find 26S okafro", "okafor 26s", "26S mar"])
async def test_a_name_with_a_term_is_looked_for_in_that_term_with_typing_errors_too(
    school: School, typed: str
) -> None:
    old = in_last_term(school, "Mara Okafor")
    sleeved(school, MARA, 21)
    async with archive(school.file.path) as desk:
        await desk.type(typed)
        found = [hit.standing for hit in desk.app.face.hits.hits]
        assert [each.roll.id for each in found if each is not None] == [old]
