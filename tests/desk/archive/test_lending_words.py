"""Lending at the desk: to people and guests, in one line or by questions."""

from __future__ import annotations

import pytest

from filmrack.acts import hanging, lending
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


async def test_a_roll_of_two_sleeves_is_lent_whole_and_the_answer_says_so(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    assert len(school.roll(roll).pages) == 2
    async with archive(school.file.path) as desk:
        await desk.enter("lend 26F-0001/2 olu friday")
        assert "lent to Olu Adeyemi, due Fri 20 Nov, with both its sleeves." in desk.answer


@pytest.mark.parametrize("typed", ["art office", '"art office"'])
async def test_a_guest_borrows_at_once_in_quotes_and_is_asked_about_without_them(
    school: School, typed: str
) -> None:
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {typed} friday")
        if typed == "art office":
            whose = f"{school.roll(roll).number} → Mara Okafor: lend to art office, a guest"
            assert f"{whose}, until Fri 20 Nov?" in desk.answer
            assert school.roll(roll).place.kind == "sleeve"
            await desk.enter()
        assert "art office, a guest, due Fri 20 Nov" in desk.answer
    loan = school.roll(roll).loan
    assert loan is not None
    assert loan.note is not None
    assert people.read_notes(school.file.conn, [loan.note]) == {loan.note: "art office"}


async def test_the_answer_to_lending_says_how_it_ends_and_what_lists_who_has_what(
    school: School,
) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path, size=(80, 24)) as here:
        await here.say(f"lend {roll.number} olu friday")
        ends = f"“{roll.serial:04d} end loan”"
        assert f"Wrong? Type “undo”. When it is back: {ends}; “borrowed” lists all" in here.answer
        assert "“borrowed” lists all" in here.screen
        await here.say("borrowed")
        assert "Mara Okafor" in here.page
        await here.say(ends.strip("“”"))
    assert school.roll(roll.id).loan is None


async def test_a_guest_who_is_almost_called_so_is_asked_about(school: School) -> None:
    first, second, third = (sleeved(school, MARA, clip) for clip in (17, 18, 19))
    lending.lend(school.file, school.hand(), first, "2026-12-04", to="Ms Novak")
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
    lending.lend(school.file, school.hand(), first, "2026-12-04", to="Ms Novak")
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {school.roll(second).number} Ms Ferrer")
        await desk.enter()
        assert "lent to Ms Ferrer" in desk.answer


async def test_a_loan_without_a_day_says_by_which_rule_it_is_due(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    days = school.file.room().rules.loan_school_days
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {roll.number} olu")
        assert f", {days} school days from today, with both its sleeves. Wrong?" in desk.answer
        await desk.enter("end loan")
        await desk.enter(f"lend {roll.number} olu friday")
        assert "school days" not in desk.answer


async def test_lend_typed_once_more_before_the_name_is_no_part_of_it(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {roll.number}")
        assert "lend to Ms Novak, a guest" in await here.say("lend Ms Novak")
        assert "lent to Ms Novak, a guest" in await here.say("")


async def test_what_is_lent_already_is_said_before_it_is_asked_who_borrows_it(
    school: School,
) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {roll.number} Ms Novak")
        await here.say("")
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
            await desk.enter(f"lend {roll.number} “Ms Novak”")
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
        await desk.enter()
        assert "Lent to Ms Novak" in desk.answer or "lent to Ms Novak" in desk.answer
    assert (school.roll(other).place.kind, school.roll(mine).place.kind) == ("out", "sleeve")


@pytest.mark.parametrize("screen", ["archive", "dryer"])
@pytest.mark.parametrize(
    "typed",
    [
        "lend mara to Ms Novak",
        "mara lend to Ms Novak",
        "mara lend Ms Novak",
        "lend Mara's roll to Ms Novak",
    ],
)
async def test_whose_roll_is_lent_is_said_first_whatever_roll_is_selected(
    school: School, typed: str, screen: str
) -> None:
    hers, selected = sleeved(school, MARA, 17), sleeved(school, OLU, 5)
    async with opened_on(screen, school.file.path) as desk:
        await desk.enter(school.roll(selected).number)
        await desk.enter(typed)
        assert "Mara Okafor: lend to Ms Novak, a guest" in desk.answer
        await desk.enter()
    assert (school.roll(hers).place.kind, school.roll(selected).place.kind) == ("out", "sleeve")


async def test_of_several_rolls_that_can_be_lent_it_is_asked_which(school: School) -> None:
    first, second, others = (
        school.roll(sleeved(school, person, clip))
        for person, clip in ((MARA, 17), (MARA, 18), (OLU, 5))
    )
    async with archive(school.file.path) as desk:
        await desk.enter("lend okafor to olu friday")
        assert "Which roll of Mara Okafor?" in desk.answer
        assert first.number in desk.answer
        assert second.number in desk.answer
        assert "lend" not in desk.acts
        await desk.enter(others.number)
        assert "is none of them" in desk.answer
        await desk.enter(second.number.split("-")[1])
        assert "lent to Olu Adeyemi, due Fri 20 Nov" in desk.answer
    assert [school.roll(one.id).place.kind for one in (first, second, others)] == [
        "sleeve",
        "out",
        "sleeve",
    ]


async def test_of_rolls_on_their_way_the_one_in_its_sleeve_is_lent(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    hanging.hang(school.file, school.hand(), person=MARA, clip=18)
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    async with archive(school.file.path) as desk:
        await desk.enter("lend mara to ivo")
        assert school.roll(roll).place.kind == "out"
        await desk.enter("lend olu to ivo")
        assert "Olu Adeyemi has no roll that can be lent, only 26F-0003-" in desk.answer
        assert "in a term that is open" in desk.answer
        await desk.enter("lend nobody to ivo")
        assert "nobody here is called “nobody”" in desk.answer
        assert desk.acts.count("lend") == 1


async def test_what_is_noted_holds_the_word_lend_without_being_an_order(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        await desk.enter(f"note {roll.number}")
        await desk.enter("never lend to anybody")
        assert "noted" in desk.answer


async def test_a_guest_called_like_somebody_here_is_asked_about_with_that_name(
    school: School,
) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {roll.number} Mr Adeyemi")
        assert "Olu Adeyemi is somebody else" in desk.answer
        await desk.enter("contact")
        assert "is not answered" in desk.answer
        assert "lend" not in desk.acts


@pytest.mark.parametrize("behind", ["a week", "1 week", "7 days", "for a week", "until tue"])
async def test_a_length_behind_whoever_borrows_is_no_part_of_the_name(
    school: School, behind: str
) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {roll.number} Ms Novak {behind}")
        await desk.enter()
        assert "lent to Ms Novak, a guest, due Tue 24 Nov" in desk.answer


@pytest.mark.parametrize(
    "who", ["Ms Novak next week", "Ms Novak a couple of weeks", "olu to Ms Novak", "mara for"]
)
async def test_what_is_not_understood_behind_a_name_is_no_name(school: School, who: str) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {roll.number}")
        await desk.enter(who)
        assert ": type" in desk.answer
        assert "who borrows it" in desk.line.hint
        await desk.enter("lend Ms Novak")
        await desk.enter()
    assert school.roll(roll.id).place.kind == "out"


async def test_what_hangs_is_not_lent_and_it_is_not_asked_who_borrows_it(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as here:
        refused = await here.say("17 lend")
        assert "only a sleeve at hand can; for another roll type “26F-0142 lend" in refused
        assert here.app.question is None


async def test_a_question_is_let_go_where_no_other_answer_would_help(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {roll.number}")
        lending.missing(school.file, school.hand(desk="desk 2"), [roll.id])
        assert "cannot be lent (missing)" in await here.say("olu")
        assert here.app.question is None


@pytest.mark.parametrize("part", ["sleeve 2", "2 strips", "strips 1 and 2 to", "page 2"])
async def test_a_roll_is_lent_whole_and_no_sleeve_of_it_is_a_guest(
    school: School, part: str
) -> None:
    roll, other = (school.roll(sleeved(school, MARA, clip)) for clip in (17, 18))
    lending.lend(school.file, school.hand(), other.id, to="Whetu")
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {roll.number}")
        await desk.enter(f"{part} whetu two weeks")
        assert "a roll is lent whole, with all its sleeves: type who borrows it" in desk.answer
        await desk.enter("whetu two weeks")
        assert "lent to Whetu, a guest" in desk.answer
    assert school.roll(roll.id).place.kind == "out"
