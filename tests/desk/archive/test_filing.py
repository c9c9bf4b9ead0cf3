"""Filing with binders in hand: scanned, typed, and asked which binder."""

from __future__ import annotations

import pytest
from stdnum.iso7064 import mod_97_10

from filmrack.acts import archiving, lending
from filmrack.desk.footer import Footer
from filmrack.domain.codes import binder_code
from filmrack.store import ledger
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.archive.sleeves import archive, older, scan_of, sleeved
from tests.desk.at_desk import at_desk, opened_on


async def test_which_binder_is_the_same_question_each_time_and_enter_alone_answers_it(
    school: School,
) -> None:
    mara = [sleeved(school, MARA, clip, contact=True) for clip in (17, 18, 19)]
    olu = sleeved(school, OLU, 5, contact=True)
    async with archive(school.file.path) as desk:
        line = desk.line
        await desk.enter("not filed")
        await desk.press("up")
        await desk.enter()
        assert "which binder of 26F?" in line.hint
        await desk.enter("1")
        assert str(school.roll(mara[0]).place) == "binder 1"
        for roll in mara[1:]:
            assert line.prompt != "binder 1 ›", "a binder is in hand only when that was said"
            await desk.enter()
            assert "which binder of 26F? Enter: 1" in line.hint
            assert school.roll(roll).place.kind == "sleeve"
            await desk.enter()
        assert {str(school.roll(roll).place) for roll in mara} == {"binder 1"}
        await desk.enter()
        assert "which binder of 26F?" in line.hint
        assert "Enter: 1" not in line.hint, "it is the binder of another period"
        await desk.enter("2")
        assert "Binder 2?" in desk.answer
        assert school.roll(olu).place.kind == "sleeve"
        await desk.enter()
        assert str(school.roll(olu).place) == "binder 2"


async def test_a_roll_that_is_looked_up_is_asked_for_its_binder_in_the_same_words(
    school: School,
) -> None:
    first = sleeved(school, MARA, 5, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [first], 2)
    roll, other = (sleeved(school, MARA, clip, contact=True) for clip in (17, 18))
    for screen in ("archive", "dryer"):
        async with opened_on(screen, school.file.path) as desk:
            await desk.enter(f"lend {school.roll(other).number}")
            await desk.press("escape")
            await desk.enter(school.roll(roll).number)
            await desk.enter()
            assert "which binder of 26F? Enter: 2" in desk.line.hint, screen
            assert "enter binder 2" in desk.part(Footer), screen
            assert "binder of this term: 2 (Period 1)" in desk.answer
            await desk.press("escape")


async def test_a_stack_is_filed_by_scanning_binder_then_sleeve_after_sleeve(
    school: School,
) -> None:
    some = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5), (IVO, 9))]
    binder = "A26F04"
    async with archive(school.file.path) as desk:
        await desk.enter(binder + mod_97_10.calc_check_digits(binder))
        assert "in hand" in desk.line.hint
        assert desk.line.prompt == "binder 4 ›"
        for roll in some:
            await desk.enter(scan_of(school, roll))
        assert {str(school.roll(roll).place) for roll in some} == {"binder 4"}
        await desk.press("escape")
        await desk.enter("undo")
        await desk.enter(scan_of(school, some[-1]))
        assert school.roll(some[-1]).place.kind == "sleeve"


async def test_the_binders_there_are_are_named_and_enter_alone_is_answered(school: School) -> None:
    other = sleeved(school, OLU, 5, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [other], 2)
    roll = sleeved(school, MARA, 17, contact=True)
    async with archive(school.file.path) as desk:
        await desk.enter(f"file {school.roll(roll).number}")
        assert "binder of this term: 2 (Period 2)" in desk.answer
        await desk.enter()
        assert "no binder is named yet" in desk.answer
    assert school.roll(roll).place.kind == "sleeve"


async def test_a_number_that_is_typed_with_a_binder_in_hand_files_nothing_before_enter(
    school: School,
) -> None:
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("binder 4")
        await desk.enter(school.roll(roll).number)
        assert school.roll(roll).place.kind == "sleeve"
        assert "Enter: file in binder 4, without a contact sheet" in desk.answer
        await desk.press("f", "i")
        assert desk.line.prompt == "binder 4 ›"
        await desk.press("escape")
        await desk.enter()
        assert str(school.roll(roll).place) == "binder 4"


async def test_a_number_typed_with_a_binder_in_hand_says_that_enter_files_it(
    school: School,
) -> None:
    number = school.roll(sleeved(school, MARA, 17)).number
    async with archive(school.file.path) as desk:
        await desk.enter(number)
        assert "Enter: contact sheet made" in desk.answer
        await desk.press("escape")
        await desk.enter("binder 1")
        await desk.enter(number)
        assert "Enter: file in binder 1, without a contact sheet" in desk.answer
        assert "contact sheet made" not in desk.answer
        await desk.enter()
        assert "filed in binder 1" in desk.answer


async def test_a_sleeve_that_stands_in_the_binder_already_is_not_filed_again(
    school: School,
) -> None:
    roll = sleeved(school, MARA, 17)
    archiving.file_in_binder(school.file, school.hand(), [roll], 4)
    async with archive(school.file.path) as desk:
        await desk.enter("binder 4")
        for line in (scan_of(school, roll), "file 4"):
            await desk.enter(line)
            assert "in binder 4 already" in desk.answer
    filed = [entry for entry in ledger.of_roll(school.file.conn, roll) if entry.act == "file"]
    assert len(filed) == 1


async def test_a_lent_sleeve_is_filed_only_when_enter_ends_the_loan(school: School) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [roll], 3)
    lending.lend(school.file, school.hand(), roll, "2026-11-20", to=OLU)
    async with archive(school.file.path) as desk:
        await desk.enter("binder 4")
        await desk.enter(scan_of(school, roll))
        assert "borrowed by Olu Adeyemi, due Fri 20 Nov" in desk.answer
        assert school.roll(roll).place.kind == "out"
        await desk.press("escape")
        assert school.roll(roll).place.kind == "out"
        await desk.enter(scan_of(school, roll))
        await desk.enter()
        assert "loan ended, filed in binder 4" in desk.answer
        assert str(school.roll(roll).place) == "binder 4"


async def test_a_binder_and_a_lent_sleeve_scanned_elsewhere_do_not_end_the_loan(
    school: School,
) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    lending.lend(school.file, school.hand(), roll, "2026-11-20", to=OLU)
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter(binder_code("26F", 4))
        await desk.enter(scan_of(school, roll))
        assert "end loan” first" in desk.answer
    assert school.roll(roll).place.kind == "out"


async def test_a_sleeve_of_another_term_does_not_go_in_this_terms_binder(school: School) -> None:
    older(school)
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        body = "A26S01"
        await desk.enter(body + mod_97_10.calc_check_digits(body))
        await desk.enter(scan_of(school, roll))
        assert "another term" in desk.answer
    assert school.roll(roll).place.kind == "sleeve"


async def test_enter_files_in_the_binder_of_the_rolls_own_period(school: School) -> None:
    first = sleeved(school, MARA, 5, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [first], 2)
    roll = sleeved(school, MARA, 17, contact=True)
    async with archive(school.file.path) as desk:
        await desk.enter(f"file {school.roll(roll).number}")
        assert "Enter: 2" in desk.line.hint
        await desk.enter()
    assert school.roll(roll).place.number == 2


async def test_a_roll_that_is_filed_is_not_filed_again_without_another_binder(
    school: School,
) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    number = school.roll(roll).number
    async with archive(school.file.path) as desk:
        await desk.enter(f"{number} file")
        assert f"{number} is filed in binder 2 already" in desk.answer
        assert "which binder" not in desk.line.hint
        await desk.enter(f"{number} file 3")
        await desk.enter()  # there is no binder 3 yet
        assert str(school.roll(roll).place) == "binder 3"


async def test_file_asks_first_where_there_is_no_contact_sheet(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("file")
        assert "no contact sheet yet" in desk.answer
        assert "Enter files it without one" in desk.line.hint
        await desk.enter()
        await desk.enter("1")
        assert str(school.roll(roll).place) == "binder 1"


@pytest.mark.parametrize("contact", [True, False])
@pytest.mark.parametrize("in_steps", [True, False])
async def test_the_binder_of_another_period_is_asked_about_once_and_with_it_the_missing_sheet(
    school: School, contact: bool, in_steps: bool
) -> None:
    first = sleeved(school, OLU, 5, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [first], 4)
    some = [sleeved(school, MARA, clip, contact=contact) for clip in (17, 18)]
    one, next_one = (school.roll(roll).number for roll in some)
    async with archive(school.file.path) as desk:
        if in_steps:
            await desk.enter(f"file {one}")
            if not contact:
                assert "no contact sheet yet" in desk.answer
                await desk.enter()
            await desk.enter("4")
        else:
            await desk.enter(f"file {one} 4")
        assert "binder 4 is Period 2's, and this roll is Period 1's" in desk.answer
        assert ("no contact sheet yet" in desk.answer) == (not contact and not in_steps)
        assert "Enter files it there" in desk.line.hint
        assert school.roll(some[0]).place.kind == "sleeve"
        await desk.press("escape")
        assert school.roll(some[0]).place.kind == "sleeve"
        await desk.enter(f"{one} file 4")
        await desk.enter()
        assert "It is Period 2's binder" in desk.answer
        assert str(school.roll(some[0]).place) == "binder 4"
        await desk.enter(f"file {next_one} 4")
        assert "Period 1's" not in desk.answer, "it was said once that this period goes there"


async def test_a_binder_that_was_scanned_takes_another_periods_sleeves_at_once_and_says_so(
    school: School,
) -> None:
    first = sleeved(school, OLU, 5, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [first], 4)
    for screen in ("archive", "dryer"):
        some = [sleeved(school, person, 17, contact=True) for person in (OLU, MARA)]
        async with opened_on(screen, school.file.path) as desk:
            await desk.enter(binder_code("26F", 4))
            await desk.enter(scan_of(school, some[0]))
            assert "Period 2's" not in desk.answer
            await desk.enter(scan_of(school, some[1]))
            assert "It is Period 2's binder" in desk.answer, screen
        assert {str(school.roll(roll).place) for roll in some} == {"binder 4"}


@pytest.mark.parametrize("scanned", [True, False])
async def test_a_roll_that_is_typed_with_its_binder_or_behind_one_that_was_scanned_is_asked_about(
    school: School, scanned: bool
) -> None:
    first = sleeved(school, OLU, 5, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [first], 4)
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path) as here:
        if scanned:
            await here.scan(binder_code("26F", 4))
        await here.say(f"26F-{roll.serial:04d}{'' if scanned else ' binder 4'}")
        assert "binder 4 is Period 2's, and this roll is Period 1's" in here.answer
        assert "no contact sheet yet" in here.answer
        assert school.roll(roll.id).place.kind == "sleeve"
        await here.say("")
        assert str(school.roll(roll.id).place) == "binder 4"


@pytest.mark.parametrize(
    "line", ["file in binder 1", "file it in binder 1", "file into the binder 1"]
)
async def test_the_roll_that_was_just_cut_is_filed_in_words_on_any_screen(
    school: School, line: str
) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    async with at_desk(school.file.path) as desk:
        await desk.say(school.roll(roll).number)
        await desk.say("dryer")
        await desk.say(f"{school.roll(roll).number} picks 3")
        await desk.say(line)
        assert str(school.roll(roll).place) == "binder 1"
