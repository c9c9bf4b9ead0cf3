"""Contact sheets made at the desk, with their papers and picks."""

from __future__ import annotations

import pytest

from filmrack.acts import archiving, fetching, hanging
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.archive.sleeves import archive, sleeved
from tests.desk.at_desk import at_desk


async def test_enter_makes_contact_sheet_after_contact_sheet(school: School) -> None:
    some = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5), (IVO, 9))]
    async with archive(school.file.path) as desk:
        await desk.enter("no contact sheet")
        await desk.press("up")
        for _ in some:
            await desk.enter()
        assert all(len(school.roll(roll).sheets) == 1 for roll in some)
        assert "Every sleeve has its contact sheet." in desk.page
        await desk.enter()
        assert all(len(school.roll(roll).sheets) == 1 for roll in some)


async def test_frames_are_read_before_a_second_contact_sheet_is_asked_about(
    school: School,
) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with archive(school.file.path) as desk:
        await desk.enter(f"{roll.number} contact 3 99")
        assert f"{roll.number} has no frame 99" in desk.answer
        assert desk.app.question is None


async def test_what_only_enter_answers_takes_no_other_word_for_yes(school: School) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    async with archive(school.file.path) as desk:
        await desk.enter("contact")
        await desk.enter("hmm")
        assert "“hmm” does nothing here: Enter keeps a second contact sheet" in desk.answer
        assert len(school.roll(roll).sheets) == 1
        await desk.enter("undo")
        assert "is not answered" in desk.answer
        assert len(school.roll(roll).sheets) == 1
        await desk.enter("contact")
        await desk.enter("yes")
        assert len(school.roll(roll).sheets) == 2


async def test_a_paper_that_is_none_is_answered_with_those_there_are(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        await desk.enter(f"contact {roll.number} 5x7")
        assert "no paper here and no frame: the papers are" in desk.answer


async def test_a_second_contact_sheet_is_asked_about(school: School) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    async with archive(school.file.path) as desk:
        await desk.enter("contact")
        assert "it has a contact sheet, 09:00 on" in desk.answer
        assert len(school.roll(roll).sheets) == 1
        await desk.press("escape")
        await desk.enter("contact 4, 11")
        assert len(school.roll(roll).sheets) == 1
        await desk.enter()
        assert "picks 4, 11; “label” makes its 2 labels. Wrong? Type “undo”" in desk.answer
        assert len(school.roll(roll).sheets) == 2


async def test_picks_and_a_page_are_typed_behind_the_word(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    fetching.take(school.file, school.hand(), roll)
    async with archive(school.file.path) as desk:
        await desk.enter("sleeve 6x6 35")
        await desk.enter("contact 4, 11")
        await desk.enter("note scratched")
    there = school.roll(roll)
    assert (there.page_name, there.frames, there.sheets[0].picks) == ("6x6", 35, (4, 11))


@pytest.mark.parametrize(
    "line", ["contact picks 3 and 12", "contact 3, 12", "contact 3 and 12", "contact frames 3 & 12"]
)
async def test_picks_are_read_however_they_are_said(school: School, line: str) -> None:
    roll = sleeved(school, MARA, 17)
    async with at_desk(school.file.path) as here:
        await here.say(school.roll(roll).number)
        assert "picks 3, 12" in await here.say(line)


async def test_picks_behind_contact_are_told_how_to_stand_on_the_sheet_that_is_there(
    school: School,
) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with archive(school.file.path) as desk:
        await desk.enter(f"{roll.number} contact 12, 14")
        assert "Esc, then “picks 12, 14”" in desk.answer


async def test_behind_a_contact_sheet_without_picks_it_is_said_how_they_are_told(
    school: School,
) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        assert "Picks? Type “picks 3 17”" in await desk.say(f"{roll.number} contact")
        assert "picked on its contact sheet: 3, 17" in await desk.say("picks 3 17")
        await desk.say("undo")
        await desk.say("undo")
        assert "Picks?" not in await desk.say(f"{roll.number} contact 3")
