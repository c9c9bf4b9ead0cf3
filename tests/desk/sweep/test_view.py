"""The screen Sweep at several sizes: nothing is cut, nothing jumps, no click boxes a rod."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from filmrack.acts import hanging
from filmrack.desk.line import Line
from filmrack.domain.codes import clip_code
from filmrack.store import sweeps
from tests.conftest import MARA, OLU, School
from tests.desk.sweep.at_sweep import EVENING, places, sweep_begun


async def test_on_a_low_screen_the_last_row_says_what_a_page_down_shows(forty: Path):
    async with sweep_begun(forty, size=(80, 24)) as here:
        for _ in range(2):
            await here.say("0")
            await here.press("enter")
        await here.press("end")
        assert "page down: 5 not looked at" in here.screen
        await here.press("pagedown")
        assert "not looked at; a rod's number goes there" in here.screen


async def test_a_double_click_in_the_list_boxes_nothing(forty: Path):
    async with sweep_begun(forty) as here:
        await here.pilot.click("#sweep", offset=(6, 4), times=2)
        await here.pilot.pause()
        assert places(here)["rod 2"] == 6
        assert sweeps.going_on(here.app.session.file.conn) is None


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_the_list_of_rods_stays_where_it_is_when_an_answer_comes(
    forty: Path, size: tuple[int, int]
):
    async with sweep_begun(forty, size=size) as here:
        before = [n for n, row in enumerate(here.rows()) if re.search("[ ▸] \\d Period", row)]
        await here.say("5")
        assert here.answer
        now = [n for n, row in enumerate(here.rows()) if re.search("[ ▸] \\d Period", row)]
        assert now == before


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_no_word_of_the_sweep_is_cut(db: Path, school: School, size: tuple[int, int]):
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, rod=2)
    hanging.hang(school.file, school.hand(), person=MARA, clip=3, rod=2)
    async with sweep_begun(db, size=size, now=EVENING) as here:
        room = here.app.query_one(Line).size.width - 4

        async def whole(*keys: str) -> None:
            await here.press(*keys)
            assert len(here.app.view.hint()) <= room
            shown = [row for row in here.rows() if row.strip()]
            assert f"enter {here.app.view.enter_does()}" in shown[-1]
            assert shown[-1].endswith("? help")
            assert "…" not in "".join(row for row in shown[2:])

        await whole()
        await whole("down")
        await whole("1", "enter")
        await whole("end")
        await whole("enter")
        await whole("home")


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
@pytest.mark.parametrize("colours", ["dim", "daylight", "terminal"])
async def test_no_name_breaks_the_screen(forty: Path, size: tuple[int, int], colours: str):
    async with sweep_begun(forty, size=size, now=EVENING, colours=colours) as here:
        assert "[/x]" in here.screen
        await here.type("3")
        await here.press("enter")
        await here.scan(clip_code(1, "A"))
        await here.press("end")
        assert "not seen" in here.screen
