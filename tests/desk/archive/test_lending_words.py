"""Lending at the desk: to people and guests, in one line or by questions."""

from __future__ import annotations

import pytest

from filmrack.acts import lending
from filmrack.store import people
from tests.conftest import MARA, OLU, School
from tests.desk.archive.sleeves import archive, sleeved
from tests.desk.at_desk import at_desk, opened_on


async def test_a_sleeve_is_lent_in_one_line_or_by_questions(school: School) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    async with archive(school.file.path) as desk:
        await desk.enter("lend adeyemi until 2026-11-20")
        assert "lent to Olu Adeyemi, due Fri 20 Nov" in desk.answer
        assert "◇ Olu Adeyemi, due Fri 20 Nov" in desk.page
        await desk.enter("back")
        assert school.roll(roll).place.kind == "sleeve"
        await desk.enter("lend")
        await desk.enter("olu 21 nov")
    loan = school.roll(roll).loan
    assert loan is not None
    assert (loan.person, loan.until) == (OLU, "2026-11-21")


@pytest.mark.parametrize("typed", ["art office", '"art office"'])
async def test_a_guest_borrows_with_or_without_quotes(school: School, typed: str) -> None:
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {typed} friday")
        assert "art office, a guest, due Fri 20 Nov" in desk.answer
    loan = school.roll(roll).loan
    assert loan is not None
    assert loan.note is not None
    assert people.read_notes(school.file.conn, [loan.note]) == {loan.note: "art office"}


async def test_a_guest_who_is_almost_called_so_is_asked_about(school: School) -> None:
    first, second, third = (sleeved(school, MARA, clip) for clip in (17, 18, 19))
    lending.lend(school.file, school.hand(), first, "2026-12-04", name="Ms Novak")
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {school.roll(second).number} Novak friday")
        assert "Is “Novak” Ms Novak?" in desk.answer
        assert school.roll(second).place.kind == "sleeve"
        await desk.enter()
        assert "lent to Ms Novak, a guest, due Fri 20 Nov" in desk.answer
        await desk.enter(f"lend {school.roll(third).number} ms novak")
        assert "lent to Ms Novak, a guest" in desk.answer
        await desk.enter("end loan")
        await desk.enter(f"lend {school.roll(third).number} novak")
        await desk.enter('"Novak"')
        assert "lent to Novak, a guest" in desk.answer


async def test_another_guest_with_the_same_title_is_nobody_to_ask_about(school: School) -> None:
    first, second = (sleeved(school, MARA, clip) for clip in (17, 18))
    lending.lend(school.file, school.hand(), first, "2026-12-04", name="Ms Novak")
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {school.roll(second).number} Ms Ferrer")
        assert "lent to Ms Ferrer" in desk.answer


async def test_a_loan_without_a_day_says_by_which_rule_it_is_due(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    days = school.file.room().rules.loan_school_days
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {roll.number} olu")
        assert f", {days} school days from today. Wrong?" in desk.answer
        await desk.enter("end loan")
        await desk.enter(f"lend {roll.number} olu friday")
        assert "school days" not in desk.answer


async def test_lend_typed_once_more_before_the_name_is_no_part_of_it(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {roll.number}")
        assert "lent to Ms Novak, a guest" in await here.say("lend Ms Novak")


async def test_what_is_lent_already_is_said_before_it_is_asked_who_borrows_it(
    school: School,
) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {roll.number} Ms Novak")
        assert "is borrowed by Ms Novak" in await here.say(f"lend {roll.number}")
        assert here.app.question is None


async def test_the_name_of_a_screen_is_no_guests_unless_it_is_quoted(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {roll.number}")
        assert "who borrows it" in here.line.hint
        assert "is not answered" in await here.say("boxes")
        assert here.open == "boxes"
        assert "in “quotes”" in await here.say(f"lend {roll.number} archive")
        assert school.roll(roll.id).place.kind == "sleeve"
        assert "lent to archive, a guest" in await here.say(f'lend {roll.number} "archive"')


async def test_one_enter_too_many_behind_a_loan_does_not_end_it(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    for screen in ("archive", "dryer"):
        async with opened_on(screen, school.file.path) as desk:
            await desk.enter(f"lend {roll.number} Ms Novak")
            await desk.enter()
            assert school.roll(roll.id).place.kind == "out"
            await desk.enter(f"{roll.number} end loan")


async def test_a_serial_number_alone_names_its_roll_behind_and_before_a_word(
    school: School,
) -> None:
    mine, other = sleeved(school, MARA, 17), sleeved(school, OLU, 5)
    serial = school.roll(other).number.split("-")[1]
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {serial} Ms Novak 4 dec")
        assert "Lent to Ms Novak" in desk.answer or "lent to Ms Novak" in desk.answer
    assert (school.roll(other).place.kind, school.roll(mine).place.kind) == ("out", "sleeve")
