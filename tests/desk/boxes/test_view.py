"""The period boxes after class: which is open, which roll is selected, and what Enter cuts."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import fetching, scans, sweeping
from filmrack.acts.group import Hand
from filmrack.acts.hanging import load
from filmrack.domain.roll import Roll
from filmrack.store.file import open_file
from tests.conftest import MARA, School
from tests.desk.at_desk import at_desk
from tests.desk.boxes.at_boxes import LATER, go, marked


async def test_each_box_says_how_many_lie_in_it_and_the_fullest_is_open(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        assert "1 Period 1" in here.screen
        assert "2 Period 2" in here.screen
        assert "Box 2, Period 2   2 rolls to cut and sleeve" in here.screen
        assert "Olu A." in marked(here)


async def test_the_arrows_go_from_box_to_box_and_from_roll_to_roll(db: Path, boxed: list[Roll]):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        assert here.app.view.selected == boxed[1].id
        await here.press("down", "down")
        assert here.app.view.selected == boxed[2].id
        await here.press("left")
        assert here.app.view.selected == boxed[0].id
        await here.press("right", "right")
        assert "With their owners" in here.screen
        assert "Ivo L." in marked(here)
        await here.press("right")
        assert here.app.view.selected == boxed[3].id


async def test_enter_cuts_one_roll_and_the_next_one_only_after_an_arrow(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.press("enter", "enter")
        assert here.app.view.screen_id == "boxes"
        assert here.acts.count("sleeve") == 1
        assert "↓ the next roll" in here.screen
        assert "↓ and Enter: the next roll in this box" in here.answer
        await here.press("down")
        assert here.app.view.selected == boxed[2].id
        await here.press("enter", "enter")
        assert here.acts.count("sleeve") == 2
        assert "the next roll" not in here.answer
        assert "Nothing lies in it" in here.screen


@pytest.mark.parametrize("cut", ["", "2 cut"])
async def test_a_word_behind_a_cut_is_about_the_roll_that_was_cut(
    db: Path, school: School, boxed: list[Roll], cut: str
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say(cut)
        said = await here.say("contact")
        assert boxed[1].number in said
        await here.press("down")
        said = await here.say("contact")
        assert f"{boxed[2].number} is in box 2: “contact”" in said or "not sleeved" in said
    assert len(school.roll(boxed[1].id).sheets) == 1


@pytest.mark.parametrize("enters", [1, 2])
async def test_what_was_said_of_a_roll_goes_when_another_one_is_marked(
    db: Path, boxed: list[Roll], enters: int
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.press(*["enter"] * enters)
        assert "Sheet made? Type “contact”" in here.answer
        await here.press("down")
        assert here.app.view.selected == boxed[2].id
        assert here.answer == ""
        await here.say("box 2")
        assert "Enter: 3 → Olu A." in here.answer
        await here.press("left")
        assert here.answer == ""


async def test_what_was_said_of_no_roll_or_of_the_marked_one_stays(db: Path, boxed: list[Roll]):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("clip 99 rod 99")
        refused = here.answer
        await here.press("down")
        assert here.app.view.selected == boxed[2].id
        assert here.answer == refused != ""
        await here.say("box 2")
        said = here.answer
        await here.press("up")
        assert here.app.view.selected == boxed[1].id
        assert here.answer == said


async def test_an_unknown_roll_says_how_it_gets_its_owner(db: Path, school: School):
    sweeping.sweep(school.file, school.hand(), scans=[scans.Scan(None, 40, 1)])
    async with at_desk(db, now=LATER) as here:
        await go(here)
        assert "whose? “40” and a name" in here.screen
        await here.type("40 mar")
        await here.press("enter")
        assert here.on(40).person == MARA
        assert "whose?" not in here.screen


async def test_a_roll_that_is_looked_for_by_its_clip_is_shown_in_its_box(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await here.type("4")
        await here.press("enter")
        assert here.app.view.screen_id == "boxes"
        assert "Ivo L." in marked(here)


async def test_a_click_on_a_box_opens_it_and_a_second_one_cuts_nothing(db: Path, boxed: list[Roll]):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.pilot.click("#boxes", offset=(5, 3), times=2)
        await here.pilot.pause()
        assert "Box 1, Period 1" in here.screen
        await here.press("enter")
        assert "sleeve" not in here.acts
        await here.press("down")
        assert here.app.view.selected == boxed[0].id


async def test_empty_boxes_say_what_comes_to_them(db: Path):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        assert "Dry film comes here" in here.screen
        await here.press("left", "right", "down", "enter")
        assert here.acts == []


async def test_another_desk_boxing_a_roll_shows(db: Path, boxed: list[Roll]):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        with open_file(db, write=True) as file:
            hand = Hand(LATER, LATER, "desk 2")
            roll = load(file, hand, MARA, [9]).rolls[0].id
            fetching.box(file, hand, [roll])
        here.app._poll()
        await here.press("left")
        assert "Box 1, Period 1   2 rolls" in here.screen


async def test_whose_box_it_is_stays_in_sight_however_far_down_one_goes(db: Path, school: School):
    for clip in range(1, 12):
        roll = load(school.file, school.hand(), MARA, [clip]).rolls[0].id
        fetching.take(school.file, school.hand(), roll)
    async with at_desk(db, now=LATER, size=(80, 24)) as here:
        await go(here)
        assert "With their owners   11 rolls" in here.screen
        for _ in range(10):
            below = 11 - max(clip for clip in range(1, 12) if f"{clip}  Mara O." in here.screen)
            assert (f"↓ {below} more below, with the arrows" in here.screen) is (below > 0)
            await here.press("down")
            assert "With their owners   11 rolls" in here.screen
            assert marked(here)
        assert "11  Mara O." in marked(here)
        assert "more below" not in here.screen


async def test_where_rows_are_few_the_boxes_give_way_and_the_heading_stays(
    db: Path, school: School
):
    for clip in range(1, 8):
        roll = load(school.file, school.hand(), MARA, [clip]).rolls[0].id
        fetching.box(school.file, school.hand(), [roll])
    async with at_desk(db, now=LATER, size=(80, 18)) as here:
        await go(here)
        for clip in range(1, 8):
            assert "Box 1, Period 1   7 rolls" in here.screen
            assert f"{clip}  Mara O." in marked(here)
            await here.press("down")
        row = next(nth for nth, each in enumerate(here.rows()) if "6  Mara" in each)
        await here.pilot.click(offset=(12, row))
        await here.pilot.pause()
        assert "6  Mara O." in marked(here)
