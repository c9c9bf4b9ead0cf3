"""The cabinet as it hangs, at every size and whatever somebody is called."""

from __future__ import annotations

import re
import shutil
from datetime import timedelta
from pathlib import Path

import pytest
from rich.cells import cell_len

from filmrack.acts import hanging
from filmrack.acts.group import Hand
from filmrack.desk.dryer.drawing import RodDrawing
from filmrack.desk.dryer.plan import plan_for
from filmrack.desk.dryer.view import DryerView
from filmrack.desk.now import Lookout
from filmrack.desk.roll_card.card import Card
from filmrack.desk.themes import PALETTES
from filmrack.store import people
from tests.conftest import OLU, School, longer_rods
from tests.desk.at_desk import at_desk
from tests.desk.full_room import AWKWARD, NOW, empty_room


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
@pytest.mark.parametrize("colours", ["dim", "daylight", "terminal"])
async def test_a_full_cabinet_shows_every_clip_with_its_word(
    full: Path, size: tuple[int, int], colours: str
) -> None:
    async with at_desk(full, NOW, size, colours) as here:
        for clip in range(1, 85):
            assert f"┬{clip}" in here.screen
        for word in ("wet", "flip", "touch", "dry"):
            assert word in here.screen
        assert all(cell_len(row) <= size[0] for row in here.rows())


async def test_behind_a_clip_of_three_figures_it_still_says_whose_it_is(tmp_path: Path) -> None:
    path = tmp_path / "darkroom.db"
    with empty_room(path) as file:
        for person, clip in ((18, 114), (19, 22)):
            hanging.hang(file, Hand(NOW, NOW, "desk 1"), person=person, clip=clip)
        initials = [each.initials for each in people.read_people(file.conn, (18, 19)).values()]
    async with at_desk(path, NOW, (80, 24)) as here:
        assert f"┬114{initials[0]}" in here.screen
        assert f"┬22 {initials[1]}" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_names_that_garble_careless_screens_garble_none_here(
    full: Path, size: tuple[int, int]
) -> None:
    async with at_desk(full, NOW, size) as here:
        for clip, name in enumerate(AWKWARD, 1):
            await here.type(f"clip {clip}")
            await here.press("enter")
            headline = next(row for row in here.rows() if f"{clip} → " in row)
            assert name.split()[0][:8] in headline
            await here.press("escape", "tab", "shift+tab")


@pytest.mark.parametrize(
    ("width", "height", "rods", "positions"),
    [(78, 16, 7, 12), (84, 29, 8, 12), (164, 45, 7, 12), (78, 16, 6, 10), (84, 29, 2, 3)],
)
def test_every_rod_fits_its_screen_and_has_room_for_the_word_touch(
    width: int, height: int, rods: int, positions: int
) -> None:
    plan = plan_for(width, height, rods, positions, longest=10)
    assert (1 + plan.film + plan.gap) * rods - plan.gap <= height
    assert plan.label + plan.cell * positions <= width
    assert plan.cell - 1 >= len("touch")


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_a_place_that_a_wide_strip_takes_says_so_on_a_rod_that_is_full(
    db: Path, school: School, size: tuple[int, int]
) -> None:
    longer_rods(school, 4)
    for clip, film in ((1, "120-6x6"), (2, None), (3, None)):
        hanging.hang(school.file, school.hand(), person=OLU, clip=clip, film=film, rod=2)
    async with at_desk(db, size=size) as here:
        await here.say("1")
        (full,) = (nth for nth, row in enumerate(here.rows()) if "3, full" in row)
        assert re.search(r"┬1 *─+┬2", here.rows()[full - 1])
        assert re.search(r"Olu.* wide", here.rows()[full])


async def test_a_rod_counts_how_many_can_hang_beside_a_wide_strip(db: Path, school: School) -> None:
    longer_rods(school, 4)
    hanging.hang(school.file, school.hand(), person=OLU, clip=1, film="120-6x6", rod=2)
    hanging.hang(school.file, school.hand(), person=OLU, clip=2, rod=2)
    async with at_desk(db) as here:
        assert re.search(r"^ +2 of 3 ", here.page, re.MULTILINE)


async def test_film_that_a_finger_found_wet_is_drawn_wet_however_long_it_hung(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=2, rod=2)
    tomorrow = school.now + timedelta(hours=20)
    async with at_desk(db, now=tomorrow) as here:
        assert "┃Olu" in here.page
        await here.say("2 wet")
        assert "█Olu" in here.page


def test_the_word_of_a_taken_place_stands_apart_from_the_strip_before_it(school: School) -> None:
    plan = plan_for(80, 20, 2, 12, longest=10)
    now = Lookout(school.file).at(school.now)
    drawing = RodDrawing(now, plan, PALETTES["dim"], selected=None, taken=frozenset(), drawn={})
    assert drawing.bare("wide")[1][0][0].startswith(" wide")


async def test_a_rod_without_a_period_is_anyones_on_every_screen(db: Path) -> None:
    async with at_desk(db) as here:
        assert re.search(r"^3 anyone +─", here.page, re.MULTILINE)
        await here.say("sweep")
        assert re.search(r"\b3 anyone\b", here.page)
        await here.say("room")
        await here.say("dryers")
        assert "for anyone" in here.page


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_what_the_map_calls_late_is_left_behind_as_card_and_help_say(
    full: Path, tmp_path: Path, size: tuple[int, int]
) -> None:
    after_school = Path(shutil.copy(full, tmp_path / "darkroom.db"))
    async with at_desk(after_school, NOW + timedelta(hours=5), size) as here:
        assert "late" in here.part(DryerView)
        assert "Late: left behind." in here.part(Card)
        await here.press("question_mark")
        assert "late is left behind" in here.screen
