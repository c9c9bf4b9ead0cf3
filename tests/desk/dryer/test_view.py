"""The paths of a roll through the cabinet, counted in keys and scans, and the arrows on the map."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.widget import Widget

from filmrack.acts import drying, fetching, hanging
from filmrack.acts.group import Hand
from filmrack.desk.dryer.view import DryerView
from filmrack.domain.codes import action_code, clip_code, person_code
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import at_desk
from tests.desk.full_room import NOW


async def test_loading_and_hanging_are_two_scans_and_enter(db: Path) -> None:
    async with at_desk(db) as here:
        await here.scan(person_code(MARA))
        assert "Mara O." in here.screen
        await here.scan(clip_code(17, "A"))
        assert "17 → Mara O." in here.screen
        await here.press("enter")
        assert here.on(17).place.kind == "rod"
        assert (here.scans, here.keys) == (2, 1)
        assert "Turn the dial to 1 h" in here.screen


@pytest.mark.parametrize("screen", ["board", "dryer"])
async def test_a_loaded_roll_hangs_by_one_scan_on_any_screen(db: Path, screen: str) -> None:
    async with at_desk(db) as here:
        await here.type("17 mar")
        await here.press("enter")
        await here.wait(seconds=600)
        here.app.face.go(screen)
        await here.scan(clip_code(17, "A"), "enter", "ctrl+j")
        assert here.on(17).place.kind == "rod"
        assert here.acts == ["load", "hang"]
        assert here.scans == 1


async def test_enter_on_the_board_is_about_the_roll_just_loaded(db: Path) -> None:
    async with at_desk(db) as here:
        here.app.face.go("board")
        await here.scan(person_code(MARA))
        await here.scan(clip_code(17, "A"))
        await here.press("enter")
        assert here.acts == ["load", "hang"]


async def test_enter_behind_a_person_does_nothing_to_the_selected_roll(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(9), person=OLU, clip=18)
    async with at_desk(db) as here:
        await here.scan(person_code(MARA))
        await here.press("enter")
        assert "Mara O. has no clip yet" in here.screen
        assert here.acts == ["load", "hang"]


async def test_moving_to_another_roll_lets_the_clip_in_hand_go(db: Path, school: School) -> None:
    for person, clip in ((MARA, 17), (OLU, 18)):
        hanging.hang(school.file, school.hand(9), person=person, clip=clip)
    async with at_desk(db) as here:
        await here.scan(clip_code(17, "A"))
        await here.press("down", "enter")
        assert here.on(17).flipped is False
        assert here.on(18).flipped is True


async def test_a_scan_of_dry_answers_the_question_that_stands_in_the_line(
    db: Path, school: School
) -> None:
    hung = hanging.hang(school.file, school.hand(14), person=MARA, clip=17).roll
    drying.flip(school.file, school.hand(7), [hung.id])
    async with at_desk(db) as here:
        await here.press("enter")
        assert "dry or tacky?" in here.screen
        await here.scan(action_code("DRY"))
        assert here.acts[-1] == "touch"
        assert "dry by touch" in here.screen.casefold()


async def test_enter_and_an_arrow_empty_a_rod_without_leaving_the_dryer(
    db: Path, school: School
) -> None:
    for clip in (17, 18):
        hung = hanging.hang(school.file, school.hand(20), person=MARA, clip=clip).roll
        drying.touch(school.file, school.hand(1), hung.id, dry=True)
    async with at_desk(db) as here:
        await here.press("enter", "enter")
        assert sorted(here.on(clip).place.kind for clip in (17, 18)) == ["box", "rod"]
        await here.press("right", "enter")
        assert {here.on(clip).place.kind for clip in (17, 18)} == {"box"}
        assert here.app.view.screen_id == "dryer"


@pytest.mark.parametrize("word", ["box", "take"])
async def test_behind_a_sentence_that_took_a_roll_down_enter_does_nothing_to_a_neighbour(
    db: Path, school: School, word: str
) -> None:
    for clip in (17, 18):
        hung = hanging.hang(school.file, school.hand(20), person=MARA, clip=clip).roll
        drying.touch(school.file, school.hand(1), hung.id, dry=True)
    async with at_desk(db) as here:
        await here.type(f"17 {word}")
        await here.press("enter")
        done = here.acts
        assert here.app.view.selected == here.on(17).id
        await here.press("enter")
        await here.press("enter")
        assert here.acts == done
        await here.press("down")
        assert here.app.view.selected == here.on(18).id
        await here.press("enter")
        assert here.on(18).place.kind == "box"


async def test_the_arrows_walk_the_map_as_it_hangs(db: Path, school: School) -> None:
    for person, clip in ((MARA, 11), (MARA, 12), (OLU, 13)):
        hanging.hang(school.file, school.hand(1), person=person, clip=clip)
    async with at_desk(db) as here:
        view = here.app.query_one(DryerView)

        async def after(*keys: str) -> int | None:
            await here.press(*keys)
            return next(c for c in (11, 12, 13) if here.on(c).id == view.selected)

        view.select(here.on(11).id)
        assert await after("right") == 12
        assert await after("right") == 12
        assert await after("down") == 13
        assert await after("up") == 11
        assert await after("end") == 12
        assert await after("home") == 11


async def test_the_arrows_come_back_to_the_map_from_a_roll_that_is_not_on_it(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(1), person=MARA, clip=11)
    tank = hanging.load(school.file, school.hand(1), OLU, [12]).rolls[0]
    async with at_desk(db) as here:
        view = here.app.query_one(DryerView)
        view.select(tank.id)
        await here.press("down")
        assert view.selected == here.on(11).id


async def test_a_click_selects_and_a_second_click_does_the_next_step(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(6), person=MARA, clip=17)
    async with at_desk(db) as here:
        await here.wait(seconds=1)
        row = next(nth for nth, text in enumerate(here.rows()) if "┬17" in text)
        column = here.rows()[row].index("17")
        here.ticks += 5
        await here.pilot.click(offset=(column, row), times=2)
        await here.pilot.pause()
        assert here.acts[-1] == "flip"
        assert here.app.focused is not None
        assert here.app.focused.id == "line"


async def test_behind_a_roll_boxed_by_somebody_else_enter_does_nothing_to_its_neighbour(
    db: Path, school: School
) -> None:
    for clip in (11, 12):
        hanging.hang(school.file, school.hand(1), person=MARA, clip=clip)
    async with at_desk(db) as here:
        view = here.app.query_one(DryerView)
        view.select(here.on(11).id)
        await here.wait(seconds=1)
        fetching.box(school.file, Hand(here.now, here.now, "desk 2"), [here.on(11).id])
        await here.pilot.pause(0.6)
        done = here.acts
        await here.press("enter")
        assert (here.acts, view.selected) == (done, here.on(11).id)
        await here.press("left")
        assert view.selected == here.on(12).id


@pytest.mark.parametrize("act", ["hang", "box", "take"])
async def test_what_another_desk_or_a_command_does_shows_within_a_second(
    db: Path, school: School, act: str
) -> None:
    acts: dict[str, Callable[[Hand], object]] = {
        "hang": lambda hand: hanging.hang(school.file, hand, person=OLU, clip=18),
        "box": lambda hand: fetching.box(school.file, hand, [1]),
        "take": lambda hand: fetching.take(school.file, hand, 1),
    }
    hanging.hang(school.file, school.hand(1), person=MARA, clip=17)
    async with at_desk(db) as here:
        assert "┬17" in here.screen
        acts[act](Hand(here.now, here.now, "desk 2"))
        await here.pilot.pause(0.9)
        assert ("┬18" in here.screen) is (act == "hang")
        assert ("┬17" in here.screen) is (act == "hang")


async def test_nothing_stands_on_a_screen_that_the_desk_does_not_say_itself(full: Path) -> None:
    async with at_desk(full, NOW) as here:
        assert {type(part).__module__.split(".")[0] for part in here.app.screen.children} == {
            "filmrack",
            "textual",  # what holds the map and the card beside each other
        }
        assert [part.id for part in here.app.screen.children if type(part) is Widget] == ["body"]
