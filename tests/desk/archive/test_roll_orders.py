"""What a teacher says of a roll in the archive: cut, missing, handed back, claimed."""

from __future__ import annotations

import pytest

from filmrack.acts import archiving, fetching, hanging, shelving
from filmrack.desk.roll_card.card import Card
from tests.conftest import MARA, OLU, School
from tests.desk.archive.sleeves import archive, sleeved
from tests.desk.at_desk import at_desk, opened_on


async def test_the_word_missing_looks_and_mark_missing_acts(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("missing")
        assert school.roll(roll).place.kind == "sleeve"
        await desk.press("escape")
        await desk.enter("mark missing")
        assert school.roll(roll).place.kind == "missing"
        assert "× missing" in desk.page
        await desk.enter()
        assert school.roll(roll).place.kind == "sleeve"


@pytest.mark.parametrize(
    ("typed", "place"), [("hand back", "handed_back"), ("discard blank film", "discarded")]
)
async def test_film_leaves_the_archive_and_comes_back_by_undo(
    school: School, typed: str, place: str
) -> None:
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter(typed)
        assert school.roll(roll).place.kind == place
        await desk.enter("undo")
        assert school.roll(roll).place.kind == "sleeve"
        assert desk.app.view.screen_id == "archive"


async def test_what_is_thrown_away_unfiled_is_asked_for_its_reason(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("discard")
        assert "why" in desk.line.hint
        await desk.enter("blank film")
    assert school.roll(roll).place.kind == "discarded"


async def test_wet_film_is_cut_only_when_enter_says_so(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(1), person=MARA, clip=17).roll
    async with archive(school.file.path) as desk:
        await desk.enter(f"sleeve {roll.number} 7x5")
        assert "wet by the clock" in desk.answer
        assert school.roll(roll.id).place.kind == "rod"
        await desk.enter()
        assert school.roll(roll.id).place.kind == "sleeve"


@pytest.mark.parametrize("screen", ["archive", "dryer", "boxes"])
async def test_an_order_is_no_answer_to_a_question_which_it_lets_go(
    school: School, screen: str
) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    other = sleeved(school, OLU, 5)
    async with opened_on(screen, school.file.path) as desk:
        for asked in (f"{roll.number} contact", f"lend {roll.number}", f"file {roll.number}"):
            await desk.enter(asked)
            assert desk.app.question is not None, asked
            await desk.enter(f"lend {school.roll(other).number} Ms Novak")
            assert "is not answered. " in desk.answer, asked
            assert "Olu Adeyemi" in desk.answer
            await desk.enter()
            assert school.roll(other).place.kind == "out"
            await desk.enter(f"return {school.roll(other).number}")
    assert school.roll(roll.id) == roll


async def test_a_screen_that_is_named_lets_a_question_go_and_is_opened(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with at_desk(school.file.path) as here:
        await here.say("dryer")
        for asked in (f"{roll.number} contact", f"file {roll.number}"):
            await here.say(asked)
            assert "is not answered" in await here.say("boxes")
            assert here.open == "boxes"
            assert here.app.question is None


async def test_the_labels_of_a_roll_are_asked_for_as_sleeves_on_any_screen(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path) as here:
        for screen in ("archive", "dryer"):
            await here.say(screen)
            await here.say(f"sleeves {roll.serial:04d}")
            assert here.open == "labels"
            assert f"sleeves {roll.serial:04d}" in here.screen


async def test_the_word_plan_is_answered_with_the_two_plans_there_are(school: School) -> None:
    async with at_desk(school.file.path) as here:
        assert "how a roll is cut stands on its card" in await here.say("plan")


async def test_rolls_without_an_owner_are_offered_for_claiming(school: School) -> None:
    first = shelving.shelve(school.file, school.hand(), 3, owner="the tall one").id
    second = shelving.shelve(school.file, school.hand(), 3).id
    async with archive(school.file.path) as desk:
        assert "2 no owner" in desk.page
        await desk.enter("without an owner")
        await desk.press("up")
        assert "Enter say whose it is" in desk.part(Card)
        await desk.enter()
        assert "whose is it?" in desk.line.hint
        await desk.enter("olu")
        assert "claimed by Olu Adeyemi" in desk.answer
        await desk.press("up")
        await desk.enter("claim mara")
        assert "Every roll has its owner." in desk.page
    assert [school.roll(roll).person for roll in (first, second)] == [OLU, MARA]


async def test_a_sleeve_that_is_to_be_taken_is_said_to_be_lent_or_handed_back(
    school: School,
) -> None:
    rolls = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5))]
    archiving.file_in_binder(school.file, school.hand(), rolls[1:], 2)
    async with archive(school.file.path) as desk:
        for roll, where in zip(rolls, ("in its sleeve", "in binder 2"), strict=True):
            number = school.roll(roll).number
            for typed in (f"{number} take", "take"):
                await desk.enter(typed)
                assert f"{number} is sleeved already ({where}): to hand it out type" in desk.answer
                assert f"“lend {number}” and who borrows it" in desk.answer
                assert "undo" not in desk.answer
            await desk.press("down")
        await desk.enter("take")
        assert "sleeved already" in desk.answer
        await desk.enter("lend Ms Novak")
        await desk.enter()
        await desk.enter("take")
        assert "is borrowed already: end that loan first" in desk.answer
    assert [school.roll(roll).place.kind for roll in rolls] == ["sleeve", "out"]


@pytest.mark.parametrize("told", ["contact", "sleeve", "lend Ms Novak", "mark missing"])
async def test_a_verb_alone_behind_enter_is_about_the_roll_that_it_took_off_the_list(
    school: School, told: str
) -> None:
    some = [
        fetching.take(school.file, school.hand(), hung.id).id
        for hung in (
            hanging.hang(school.file, school.hand(), person=person, clip=clip).roll
            for person, clip in ((MARA, 17), (OLU, 5))
        )
    ]
    first, second = (school.roll(roll) for roll in some)
    async with archive(
        school.file.path,
    ) as desk:
        await desk.enter("not sleeved")
        await desk.press("up")
        await desk.enter()
        assert desk.app.view.selected == second.id
        assert "Another roll is selected now" in desk.answer
        said = await desk.say(told)
        assert first.number in said
        assert school.roll(second.id) == second


async def test_a_verb_alone_is_about_the_selected_roll_once_a_key_chose_it_or_a_minute_is_over(
    school: School,
) -> None:
    some = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5), (MARA, 9))]
    async with archive(school.file.path) as desk:
        await desk.enter("no contact")
        await desk.press("up")
        await desk.enter()
        await desk.press("up")
        await desk.enter("note one")
        assert school.roll(some[2]).number in desk.answer
        await desk.enter("contact")
        assert desk.app.view.selected == some[1]
        await desk.wait(seconds=61)
        await desk.enter("note two")
        assert school.roll(some[1]).number in desk.answer


@pytest.mark.parametrize(
    ("typed", "example"),
    [
        ("end loan", "“26F-0142 end loan”"),
        ("return", "“26F-0142 end loan”"),
        ("found", "“26F-0142 found”"),
        ("lend Ms Novak", "“26F-0142 lend Ms Novak”"),
        ("lend", "“26F-0142 lend juniper”"),
    ],
)
async def test_what_the_selected_roll_is_not_is_refused_with_how_another_one_is_named(
    school: School, typed: str, example: str
) -> None:
    hung = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll
    async with archive(school.file.path) as desk:
        await desk.enter(typed)
        assert f"{hung.number} " in desk.answer
        assert desk.answer.endswith(f"; for another roll type {example}")


async def test_film_that_can_be_cut_first_is_not_refused_with_another_rolls_number(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with archive(school.file.path) as desk:
        for typed in ("contact", "file 3", "picks 3"):
            await desk.enter(typed)
            assert desk.answer.endswith("cut and sleeve it first"), typed


@pytest.mark.parametrize(
    ("typed", "refused"),
    [
        ("hand back", "hand back what? Select a roll, or name it: “26F-0142 hand back”"),
        ("file", "file what? Select a roll, or name it: “26F-0142 file 3”"),
        ("pick", "pick what? Select a roll, or name it: “26F-0142 picks 12 14”"),
        ("discard", "discard what? Select a roll, or name it: “26F-0142 discard blank film”"),
    ],
)
async def test_a_verb_without_a_roll_is_answered_with_a_whole_line(
    school: School, typed: str, refused: str
) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter(typed)
        assert refused in desk.answer
        await desk.enter("dryer")
        await desk.enter(typed)
        assert refused in desk.answer
