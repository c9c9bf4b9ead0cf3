"""Which term the archive shows: that in force, unless somebody turned to another one."""

from __future__ import annotations

import pytest

from filmrack.acts import lending
from filmrack.desk.archive.view import ArchiveView
from tests.conftest import OLU, School
from tests.desk.archive.sleeves import archive, in_last_term, sleeved
from tests.desk.at_desk import at_desk


@pytest.mark.parametrize("line", ["missing", "Missing", "period 2", "term report", "all"])
async def test_a_list_that_is_typed_behind_a_find_is_of_the_term_in_force(
    school: School, line: str
) -> None:
    old, new = in_last_term(school, "Mara Okafor"), sleeved(school, OLU, 5)
    lending.missing(school.file, school.hand(), [old, new])
    async with at_desk(school.file.path, school.now) as here:
        await here.say("mara")
        assert here.app.view.selected == old
        await here.say(line)
        assert here.open == "archive"
        assert "Olu A" in here.page
        assert "Mara" not in here.page


async def test_a_list_that_is_typed_is_of_the_term_that_somebody_turned_to(school: School) -> None:
    old, new = in_last_term(school, "Mara Okafor"), sleeved(school, OLU, 5)
    lending.missing(school.file, school.hand(), [old, new])
    async with archive(school.file.path) as desk:
        await desk.enter("26s")
        await desk.enter("mara")
        await desk.enter("missing")
        assert desk.app.view.selected == old


@pytest.mark.parametrize("before", ["26s", "missing", "mara"])
async def test_the_archive_begins_anew_with_all_of_the_term_in_force(
    school: School, before: str
) -> None:
    in_last_term(school, "Mara Okafor")
    sleeved(school, OLU, 5)
    async with archive(school.file.path) as desk:
        await desk.enter(before)
        assert "Olu Adeyemi" not in desk.page
        await desk.wait(seconds=15)
        await desk.press("tab")
        await desk.press("shift+tab")
        view = desk.app.query_one(ArchiveView)
        assert (desk.open, view.which_rolls) == ("archive", "all")
        assert "Olu Adeyemi" in desk.page
        assert "goes back" not in desk.line.hint
