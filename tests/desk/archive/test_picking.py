"""Frames picked on a contact sheet that is there, and picked no longer."""

from __future__ import annotations

import pytest

from filmrack.acts import archiving
from filmrack.desk.roll_card.card import Card
from tests.conftest import MARA, School
from tests.desk.archive.sleeves import archive, sleeved
from tests.desk.at_desk import at_desk, opened_on


@pytest.mark.parametrize("typed", ["picks 12 14", "pick 12, 14", "{number} picks 12 and 14"])
async def test_frames_are_picked_on_a_contact_sheet_that_is_there(
    school: School, typed: str
) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with archive(school.file.path) as desk:
        await desk.enter(typed.format(number=roll.number))
        assert "picked on its contact sheet: 12, 14. Wrong? Type “undo”" in desk.answer
        assert "picks 12, 14" in desk.part(Card)
        assert "2 picks" in desk.page
        assert len(school.roll(roll.id).sheets) == 1
        await desk.enter("undo")
        assert school.roll(roll.id).picks == ()


async def test_picked_frames_stand_on_a_narrow_card_too(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    archiving.picks(school.file, school.hand(), roll.id, [12, 14])
    async with opened_on("archive", school.file.path, size=(80, 24)) as desk:
        assert "picks 12, 14" in desk.part(Card)


async def test_what_can_be_no_pick_is_refused_before_it_is_asked_for(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        await desk.enter("picks")
        assert "no contact sheet yet to pick frames on" in desk.answer
        assert desk.app.question is None
        await desk.enter("contact")
        await desk.enter("picks")
        await desk.enter("99")
        assert "has no frame 99" in desk.answer
        await desk.enter("9")
    assert school.roll(roll.id).picks == (9,)


async def test_frames_are_picked_from_whatever_screen_shows_the_roll(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with at_desk(school.file.path) as here:
        await here.say(roll.number)
        await here.say("picks 12")
    assert school.roll(roll.id).picks == (12,)


@pytest.mark.parametrize(
    "typed", ["unpick 12", "no pick 12", "no picks 12, 12", "{number} unpick 12"]
)
async def test_a_wrong_pick_is_taken_back_by_a_word(school: School, typed: str) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with archive(school.file.path) as desk:
        await desk.enter("picks 12 14")
        await desk.enter(typed.format(number=roll.number))
        assert "no longer picked: 12; 14 stay picked. Wrong? Type “undo”" in desk.answer
        assert school.roll(roll.id).picks == (14,)
        await desk.enter("undo")
        assert school.roll(roll.id).picks == (12, 14)


async def test_which_pick_is_taken_back_is_asked_where_it_is_not_said(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with archive(school.file.path) as desk:
        await desk.enter("unpick")
        assert "has no picks to take back: look at its card" in desk.answer
        assert desk.app.question is None
        await desk.enter("picks 12 14")
        await desk.enter("unpick")
        assert "which picks are taken back? It has 12, 14" in desk.line.hint
        await desk.enter("13")
        assert "has no pick 13 to take back" in desk.answer
        await desk.enter("14")
    assert school.roll(roll.id).picks == (12,)


async def test_no_before_a_frame_picks_it_not(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with archive(school.file.path) as desk:
        await desk.enter("picks no 12")
        assert "“no” is no frame" in desk.answer
    assert school.roll(roll.id).picks == ()


async def test_a_frame_that_is_said_twice_is_foreseen_once(school: School) -> None:
    sleeved(school, MARA, 17, contact=True)
    async with archive(school.file.path) as desk:
        await desk.enter("picks 12 14")
        await desk.type("unpick 12, 12")
        assert "no longer picked: 12; 14 stay picked" in desk.page
