"""Each screen as plain rows at three sizes, compared with what is kept in snapshots/.

Renew them, and look at what changed:  FILMRACK_RENEW=1 pytest -n 0 tests/desk/test_small_screens.py
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from filmrack.acts import fetching, hanging
from tests.conftest import MARA, School
from tests.desk.at_desk import AtDesk, at_desk
from tests.desk.full_room import NOW

KEPT = Path(__file__).with_name("snapshots")
SIZES = [(80, 24), (120, 34), (200, 50)]


def compare(here: AtDesk, name: str) -> None:
    path = KEPT / f"{name}.txt"
    if os.environ.get("FILMRACK_RENEW"):
        KEPT.mkdir(exist_ok=True)
        path.write_text(here.screen + "\n", encoding="utf-8")
    assert here.screen + "\n" == path.read_text(encoding="utf-8")


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_a_full_room_looks_as_it_did(full: Path, size: tuple[int, int]) -> None:
    tag = f"{size[0]}x{size[1]}"
    async with at_desk(full, NOW, size) as here:
        compare(here, f"dryer-{tag}")
        here.app.face.go("board")
        await here.wait(seconds=0)
        compare(here, f"board-{tag}")
        here.app.face.go("dryer")
        await here.type("ada")
        compare(here, f"hits-{tag}")


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_an_empty_room_says_what_to_do_first(db: Path, size: tuple[int, int]) -> None:
    async with at_desk(db, size=size) as here:
        compare(here, f"empty-{size[0]}x{size[1]}")


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_nothing_that_matters_is_lost_on_a_small_screen(
    full: Path, size: tuple[int, int]
) -> None:
    """Room, date, time, fan, counts; the card's name, place, next step and what Enter does."""
    async with at_desk(full, NOW, size) as here:
        for words in ("17 Nov", "13:40", "Fan on", "wet", "ready", "left behind", "Enter", "rod"):
            assert words in here.screen
        assert here.rows()[-2].lstrip().startswith("›")


@pytest.mark.parametrize("width", [60, 80, 120])
async def test_help_stays_in_the_footer_behind_a_long_word_of_enter(
    school: School, width: int
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    fetching.take(school.file, school.hand(), roll)
    async with at_desk(school.file.path, school.now, (width, 24)) as here:
        await here.say("17")
        for words in ("enter cut 5 5 5 5 5 5 3 | 3", "enter contact sheet on 8x10in"):
            assert words in here.rows()[-1]
            assert here.rows()[-1].endswith("? help")
            await here.press("enter")
            await here.say("archive")
            await here.say(school.roll(roll).number)
        await here.say("load 9")
        assert here.rows()[-1].endswith("? help")


async def test_the_footer_keeps_every_key_where_there_is_room(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    fetching.take(school.file, school.hand(), roll)
    async with at_desk(school.file.path, school.now, (80, 24)) as here:
        await here.say("17")
        assert here.rows()[-1].endswith("sleeve   tab Sweep   esc clear   ? help")


async def test_escape_is_in_the_footer_only_where_it_does_something(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path, school.now, (120, 34)) as here:
        for screen in ("board", "dryer", "boxes", "sweep", "archive", "labels", "room"):
            here.app.face.go(screen)
            await here.press("escape", "escape", "escape")
            before = here.rows()
            assert "esc " not in before[-1]
            await here.press("escape")
            assert here.rows() == before
        for begin, does in (("right", "back"), ("x", "clear"), ("question_mark", "clear")):
            await here.press(begin)
            assert f"esc {does}   ?" in here.rows()[-1]
            await here.press("escape")
        await here.say("17")
        assert "esc clear   ?" in here.rows()[-1]
        await here.press("escape")
        await here.say("mara")
        await here.wait(seconds=20)
        assert "esc clear   ?" in here.rows()[-1]
