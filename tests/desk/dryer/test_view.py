"""The cabinet as it hangs, and the paths of a roll through it, counted in keys and scans."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest
from rich.cells import cell_len

from filmrack.acts import drying, fetching, hanging
from filmrack.acts.group import Hand
from filmrack.acts.locking import set_passphrase
from filmrack.desk.dryer.drawing import RodDrawing
from filmrack.desk.dryer.plan import plan_for
from filmrack.desk.dryer.view import DryerView
from filmrack.desk.now import Lookout
from filmrack.desk.roll_card.card import Card
from filmrack.desk.themes import PALETTES
from filmrack.domain.codes import action_code, clip_code, person_code
from filmrack.store import people
from tests.conftest import MARA, OLU, School, longer_rods
from tests.desk.at_desk import at_desk
from tests.desk.full_room import AWKWARD, NOW, empty_room


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


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_the_card_of_film_found_tacky_does_not_call_its_ends_done(
    db: Path, school: School, size: tuple[int, int]
) -> None:
    hung = hanging.hang(school.file, school.hand(40), person=MARA, clip=17).roll
    async with at_desk(db, size=size) as here:
        assert "100%" in here.screen
    drying.touch(school.file, school.hand(1), hung.id, dry=False)
    async with at_desk(db, size=size) as here:
        assert "Tacky: longer than usual." in here.screen
        assert "100%" not in here.screen


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


async def test_the_card_says_how_a_roll_that_is_not_there_is_marked_and_found_again(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(5), person=MARA, clip=17)
    async with at_desk(db) as here:
        assert "Not there? Type “17 missing”" in here.part(Card)
        await here.say("17 missing")
        assert here.on(17).place.kind == "missing"
        assert here.open == "dryer"
        assert "Turned up? Type “found”" in here.part(Card)
        await here.press("enter")
        assert here.on(17).place.kind == "missing"
        assert "17 → Mara O." in await here.say("found")
        assert here.on(17).place.kind != "missing"


async def test_a_student_desk_is_told_of_no_word_that_is_the_teachers(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(5), person=MARA, clip=17)
    set_passphrase(school.file, "three dry clips", None, school.now)
    async with at_desk(db) as here:
        assert "clip 17" in here.part(Card)
        assert "missing" not in here.part(Card)


async def test_a_roll_named_with_its_word_is_the_one_that_marker_card_and_answer_are_about(
    db: Path, school: School
) -> None:
    for person, clip in ((MARA, 17), (OLU, 18)):
        hanging.hang(school.file, school.hand(5), person=person, clip=clip)
    async with at_desk(db) as here:
        await here.say("18 missing")
        await here.say("17")
        assert "clip 17" in here.part(Card)
        assert "18 → Olu A.. found" in await here.say("18 found")
        assert "clip 18" in here.part(Card)
        assert here.app.view.selected == here.on(18).id
