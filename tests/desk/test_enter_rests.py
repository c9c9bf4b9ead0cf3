"""After a line that was about another roll than the one selected, Enter rests."""

from __future__ import annotations

from datetime import timedelta

import pytest

from filmrack.acts import archiving, fetching, hanging, lending
from filmrack.desk.roll_card.card import Card
from filmrack.store import rolls
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.archive.sleeves import scan_of
from tests.desk.at_desk import AtDesk, at_desk


@pytest.fixture
def several(school: School) -> School:
    """Mara's roll on clip 1 is in its box, Olu's on clip 2 and Ivo's on clip 3 hang."""
    for clip, person in enumerate((MARA, OLU, IVO), 1):
        hung = hanging.hang(school.file, school.hand(), person=person, clip=clip)
        if person == MARA:
            fetching.box(school.file, school.hand(), [hung.roll.id])
    school.wait(1)
    return school


def footer(here: AtDesk) -> str:
    return here.rows()[-1]


def card(here: AtDesk) -> str:
    return "\n".join(line.plain for line in here.app.query_one(Card)._lines)


def marked(here: AtDesk) -> list[str]:
    return [row for row in here.rows() if "▸" in row]


async def test_a_flip_typed_at_the_boxes_leaves_enter_nothing_to_cut(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("boxes")
        assert "sleeve" in footer(here)
        assert "flipped" in await here.say("2 flip")
        assert "enter" not in footer(here)
        await here.press("enter")
        assert "sleeve" not in here.acts
        await here.press("down")
        assert "sleeve" in footer(here)


async def test_what_is_said_of_another_roll_than_the_one_in_hand_takes_enter_from_it(
    several: School,
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("1")
        assert "sleeve" in footer(here)
        assert "missing" in await here.say("2 missing")
        await here.press("enter")
        assert "sleeve" not in here.acts


async def test_behind_a_refusal_on_the_archive_no_contact_sheet_is_made(school: School) -> None:
    school.sleeved(MARA, 17)
    async with at_desk(school.file.path, school.now + timedelta(minutes=1)) as here:
        await here.say("archive")
        assert "contact sheet" in footer(here)
        await here.say("shelve x-y")
        assert "enter" not in footer(here)
        await here.press("enter")
        assert "contact" not in here.acts
        await here.press("down")
        await here.press("enter")
        assert "contact" in here.acts


async def test_a_roll_named_on_the_archive_is_the_one_that_enter_goes_on_with(
    school: School,
) -> None:
    some = []
    for clip, person in ((17, MARA), (18, OLU)):
        hung = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll
        fetching.take(school.file, school.hand(), hung.id)
        some.append(hung)
    async with at_desk(school.file.path, school.now + timedelta(minutes=1)) as here:
        await here.say("archive")
        await here.press("home")
        assert "sleeves" in await here.say(f"{some[1].number} sleeve")
        assert "contact sheet" in footer(here)
        await here.press("enter")
        assert "Olu" in here.answer


async def test_undo_takes_back_what_this_desk_did_not_what_was_only_looked_at(
    several: School,
) -> None:
    async with at_desk(several.file.path, several.now + timedelta(hours=30)) as here:
        await here.say("2 flip")
        assert here.on(2).flipped
        await here.say("1")
        assert "taken back: “flipped”" in await here.say("undo")
        assert not here.on(2).flipped


async def test_undo_behind_the_roll_in_one_line_is_that_rolls(several: School) -> None:
    async with at_desk(several.file.path, several.now + timedelta(hours=30)) as here:
        await here.say("2 flip")
        assert "its last act is" in await here.say("1 undo")
        assert here.on(2).flipped


async def test_a_load_stays_its_owners_when_the_first_clip_was_taken(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("load mara")
        assert "Or scan another clip" in await here.say("2")
        assert (await here.say("9")).startswith("9 → Mara O.")
        assert here.on(2).person == OLU
        await here.press("escape")
        await here.say("load mara")
        await here.say("2")
        assert "Enter: clip 3 is Mara O.'s" in await here.say("3")


async def test_an_arrow_says_that_nothing_was_loaded(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("load mara")
        await here.press("down")
        assert "nothing is loaded" in here.answer


async def test_a_clip_of_the_next_student_lets_an_open_question_go(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("touch 2")
        assert here.app.question is not None
        told = await here.say("3")
        assert "3 → Ivo L." in told
        assert "“2 → Olu A.: dry or tacky?” is not answered" in told
        assert here.app.question is None


async def test_an_open_question_is_let_go_when_nobody_is_there(several: School) -> None:
    minutes = several.file.room().rules.desk_idle_minutes
    async with at_desk(several.file.path, several.now) as here:
        await here.say("touch 2")
        await here.wait(minutes=minutes - 1)
        assert here.app.question is not None
        await here.wait(minutes=2)
        assert here.app.question is None
        assert "not answered, for nobody was here" in here.answer


async def test_a_boxed_roll_hangs_again_only_when_enter_says_so(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        assert "Enter: that one hangs again" in await here.say("1 rod 3")
        assert here.rolls[1].startswith("box")
        await here.press("enter")
        assert here.rolls[1] == "rod 3, position 1"


async def test_what_enter_was_asked_for_stays_behind_on_the_screen_that_is_left(
    several: School,
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("1 rod 3")
        await here.say("sweep")
        assert "hangs again" not in here.page
        await here.press("enter")
        assert here.rolls[1].startswith("box")


async def test_what_a_screen_takes_lets_go_what_enter_was_asked_for(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("sweep")
        await here.say("finish")
        assert "Enter: that one hangs again" in await here.say("1 hang")
        await here.say("sweep")
        await here.say("rod 1")
        await here.press("enter")
        assert here.rolls[1].startswith("box")


async def test_whoever_hangs_film_by_enter_reads_when_to_flip(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("9 mara")
        await here.press("escape", "escape")
        await here.say("9")
        await here.press("enter")
        assert "hung on rod 1" in here.answer
        assert "flip at" in here.answer
        assert "flip at" in await here.say("9 rod 3")
        assert "flip at" in await here.say("10 rod 3")


async def test_a_missing_roll_that_is_looked_for_is_the_one_marked_in_the_archive(
    several: School,
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("3 missing")
        await here.say("sweep")
        await here.say("find ivo")
        assert here.open == "archive"
        assert any("▸" in row and "Ivo" in row for row in here.rows())


@pytest.mark.parametrize("words", ["3 missing", "missing 3", "Missing Clip 3", "mark missing 3"])
async def test_missing_stands_before_a_clip_or_behind_it_on_any_screen(
    several: School, words: str
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        assert "missing, last seen" in await here.say(words)
        assert str(here.on(3).place) == "missing"


async def test_a_name_typed_behind_load_and_a_used_clip_is_whose_new_roll_it_is(
    several: School,
) -> None:
    former = 1
    async with at_desk(several.file.path, several.now) as here:
        boxed = here.on(former)
        assert "Whose new roll is on clip 1?" in await here.say("load 1")
        assert "enter" not in footer(here)
        await here.press("enter")
        await here.say("load 1")
        assert (await here.say("olu")).startswith("1 → Olu A.")
        assert here.on(former).person == OLU
        assert "sleeve" not in here.acts
    assert several.roll(boxed.id).clip is None


async def test_undo_on_the_boxes_of_what_was_taken_before_leaves_nothing_else_to_cut(
    several: School,
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("2 take")
        await here.say("boxes")
        assert here.app.view.selected == here.on(2).id
        assert "sleeve" in footer(here)
        assert "taken back: “taken by its owner”" in await here.say("undo")
        assert here.app.view.selected == here.on(2).id
        assert "enter" not in footer(here)
        await here.press("enter")
        assert "sleeve" not in here.acts


async def test_what_another_desk_takes_from_under_the_marker_leaves_its_neighbour_uncut(
    several: School,
) -> None:
    other = several.hand(desk="desk 2")
    fetching.box(several.file, other, [rolls.on_clip(several.file.conn, 2).id], box_number=1)
    async with at_desk(several.file.path, several.now) as here:
        await here.say("boxes")
        await here.press("home")
        first = here.app.view.selected
        fetching.take(several.file, several.hand(desk="desk 2"), first)
        archiving.sleeve(several.file, several.hand(desk="desk 2"), first)
        here.app._poll()
        assert here.app.view.selected == here.on(2).id
        await here.press("enter")
        assert here.acts.count("sleeve") == 1
        await here.press("down", "enter")
        assert here.acts.count("sleeve") == 2


@pytest.mark.parametrize("named", [True, False])
async def test_on_the_dryer_enter_leaves_a_sleeve_alone_that_the_archive_selected(
    several: School, named: bool
) -> None:
    sleeved = rolls.on_clip(several.file.conn, 1)
    archiving.sleeve(several.file, several.hand(), sleeved.id)
    async with at_desk(several.file.path, several.now) as here:
        await here.say("archive")
        if named:
            await here.say("mara")
        assert "contact sheet" in footer(here)
        await here.say("dryer")
        assert "enter" not in footer(here)
        assert "Enter" not in card(here)
        assert "Enter: contact sheet" not in here.answer
        await here.press("escape", "enter")
        await here.say("dryer")
        await here.press("enter")
        assert "contact" not in here.acts
        await here.press("down")
        assert here.app.view.selected in (here.on(2).id, here.on(3).id)
        assert not here.app.view.resting


async def test_at_the_boxes_marker_card_and_enter_are_about_one_roll(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("2")
        await here.press("tab")
        assert here.open == "boxes"
        assert "2 → Olu A" in here.answer
        assert "Enter leaves it as it is" in here.answer
        assert (marked(here), "Olu A." in card(here)) == ([], True)
        assert "enter" not in footer(here)
        await here.wait(seconds=11)
        assert (marked(here), "Olu A." in card(here)) == ([], True)
        done = here.acts
        await here.press("enter")
        assert here.acts == done
        await here.press("down")
        assert ("Mara O." in marked(here)[0], "Mara O." in card(here)) == (True, True)
        assert "sleeve" in footer(here)


@pytest.mark.parametrize("line", ["2 rod 3", "hang 1", "take mara", "touch 2"])
async def test_what_is_typed_at_the_dryer_stays_at_the_dryer(several: School, line: str) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say(line)
        assert here.open == "dryer"
        assert ("Mara O." if "2" not in line else "Olu A.") in card(here)


async def test_a_question_about_a_clip_has_the_card_of_the_roll_on_it(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("2")
        await here.say("load 1")
        assert ("Mara O." in card(here), "Enter" in card(here)) == (True, False)
        assert "Enter: clip 1 is Ivo L.'s" in await here.say("load ivo 1")
        assert "Mara O." in card(here)
        assert "Enter  clip 1 is Ivo L.'s" in card(here).replace("\n", " ")


async def test_a_question_about_a_free_clip_has_no_card_of_another_roll(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("2")
        await here.say("9")
        assert card(here) == ""
        await here.press("escape")
        assert "Olu A." in card(here)


async def test_escape_puts_down_who_was_looked_up(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        for screen in ("dryer", "boxes"):
            await here.say(screen)
            await here.say("olu" if screen == "dryer" else "mara")
            assert here.app.view.selected is not None
            assert here.open == screen
            await here.press("escape", "enter")
            await here.wait(seconds=1)
            assert here.app.view.selected is None
            assert "enter" not in footer(here)
            assert "Nothing selected." in card(here)
        await here.say("dryer")
        await here.press("down")
        assert here.app.view.selected == here.on(2).id
        assert "Olu A." in card(here)
        assert "sleeve" not in here.acts


async def test_escape_says_that_a_load_was_left(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("load mara")
        await here.press("escape")
        assert "nothing is loaded" in here.answer


async def test_where_the_line_asks_for_enter_only_a_scanners_second_end_is_passed_over(
    several: School,
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("load mara 2")
        here.ticks += 0.05
        await here.pilot.press("enter")
        here.ticks += 0.2
        here.line._settle()
        await here.pilot.pause()
        assert here.on(2).person == OLU
        await here.say("load mara 2")
        here.ticks += 0.35
        await here.pilot.press("enter")
        here.ticks += 0.2
        here.line._settle()
        await here.pilot.pause()
        assert here.on(2).person == MARA


@pytest.mark.parametrize("line", ["3 flip", "ivo", "rod 2", "2", "load olu 3", "nobody at all"])
async def test_whatever_is_typed_instead_of_the_answer_says_that_nothing_was_loaded(
    several: School, line: str
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("load mara 2")
        assert "Mara O.'s roll was not loaded" in await here.say(line)
        assert here.on(2).person == OLU


async def test_a_question_of_a_load_that_fades_says_that_nothing_was_loaded(
    several: School,
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("load mara 2")
        await here.wait(seconds=11)
        assert "Mara O.. nothing is loaded" in here.answer


@pytest.mark.parametrize("seconds", [1, 11])
async def test_a_right_clip_behind_a_load_is_never_said_of_the_roll_that_nobody_named(
    several: School, seconds: int
) -> None:
    async with at_desk(several.file.path, several.now) as here:
        olus = here.on(2)
        await here.say("load mara 2")
        await here.wait(seconds=seconds)
        told = await here.say("2 clip 62")
        assert here.on(2).id == olus.id
        if seconds < 10:
            assert here.on(62).person == MARA
            return
        assert "and Mara O.'s was not loaded: type “load mara 62”, or “0002 clip 62”" in told
        assert "reclip" not in here.acts
        await here.say("0002 clip 62")
        assert here.on(62).id == olus.id


@pytest.mark.parametrize("line", ["borrowed", "all", "period 1", "26f"])
async def test_behind_a_list_that_was_typed_enter_rests_until_a_row_is_chosen(
    school: School, line: str
) -> None:
    lent = school.sleeved(MARA, 17)
    lending.lend(school.file, school.hand(), lent, "2026-11-20", to="Ms Novak")
    async with at_desk(school.file.path, school.now + timedelta(minutes=1)) as here:
        await here.say("archive")
        await here.say(line)
        assert here.app.view.selected == lent
        assert "enter" not in footer(here)
        assert "↑ ↓ or type its number" in footer(here)
        assert "Here again? Type “end loan”" in card(here)
        await here.press("enter")
        assert school.roll(lent).loan is not None
        await here.press("up")
        assert "enter end the loan" in footer(here)
        await here.press("enter")
        assert school.roll(lent).loan is None


@pytest.mark.parametrize("line", ["who has {}", "where is {}?", "find {}"])
async def test_behind_the_question_who_has_a_roll_only_a_word_ends_its_loan(
    school: School, line: str
) -> None:
    lent = school.sleeved(MARA, 17)
    lending.lend(school.file, school.hand(), lent, "2026-11-20", to="Ms Novak")
    number = school.roll(lent).number
    async with at_desk(school.file.path, school.now + timedelta(minutes=1)) as here:
        told = await here.say(line.format(number))
        assert "borrowed by Ms Novak" in told
        assert "Here again? Type “end loan”" in told
        assert "enter" not in footer(here)
        await here.press("enter")
        await here.wait(seconds=15)
        await here.press("enter")
        assert school.roll(lent).loan is not None
        await here.say(line.format(number))
        await here.say("end loan")
        assert school.roll(lent).loan is None


@pytest.mark.parametrize("named", ["mara", "novak", "by its number", "by its serial number"])
@pytest.mark.parametrize("screen", ["dryer", "archive"])
async def test_naming_a_lent_roll_or_its_borrower_ends_no_loan_by_enter(
    school: School, named: str, screen: str
) -> None:
    lent = school.sleeved(MARA, 17)
    lending.lend(school.file, school.hand(), lent, "2026-11-20", to="Ms Novak")
    roll = school.roll(lent)
    line = {"by its number": roll.number, "by its serial number": f"{roll.serial:04d}"}
    async with at_desk(school.file.path, school.now + timedelta(minutes=1)) as here:
        await here.say(screen)
        told = await here.say(line.get(named, named))
        assert "borrowed by Ms Novak, due Fri 20 Nov. Here again? Type “end loan”" in told
        assert "“end loan” it is back" in footer(here)
        assert "enter" not in footer(here)
        await here.press("enter")
        assert "type “end loan” when it is back, or press Esc" in here.answer
        await here.wait(seconds=15)
        await here.press("enter")
        assert school.roll(lent).loan is not None
        assert "“end loan” it is back" in footer(here)
        assert "Here again? Type “end loan”" in card(here)
        await here.say("end loan")
        assert school.roll(lent).loan is None


async def test_the_sleeve_of_a_lent_roll_that_is_scanned_is_back_by_enter(school: School) -> None:
    lent = school.sleeved(MARA, 17)
    lending.lend(school.file, school.hand(), lent, "2026-11-20", to="Ms Novak")
    async with at_desk(school.file.path, school.now + timedelta(minutes=1)) as here:
        await here.scan(scan_of(school, lent))
        assert "enter end the loan" in footer(here)
        await here.press("enter")
        assert school.roll(lent).loan is None


async def test_a_lent_roll_that_comes_first_on_the_archive_is_left_lent_until_an_arrow_chose_it(
    school: School,
) -> None:
    some = [school.sleeved(MARA, 17), school.sleeved(MARA, 18), school.sleeved(OLU, 5)]
    for lent in some:
        lending.lend(school.file, school.hand(), lent, "2026-11-20", to="Ms Novak")
    async with at_desk(school.file.path, school.now + timedelta(minutes=1)) as here:
        await here.say("archive")
        assert here.app.view.selected == some[0]
        assert "“end loan” it is back" in footer(here)
        await here.press("enter")
        assert "Here again? Type “end loan”" in here.answer
        await here.say("borrowed")
        await here.press("home", "enter")
        assert [school.roll(one).loan is None for one in some] == [True, False, False]
        await here.press("tab", "shift+tab", "enter")
        assert [school.roll(one).loan is None for one in some] == [True, False, False]


async def test_a_name_that_fits_several_rolls_cuts_none_of_them_by_enter(several: School) -> None:
    async with at_desk(several.file.path, several.now) as here:
        await here.say("mara")
        assert "sleeve" in footer(here), "of the one roll that is found Enter is the next step"
        await here.press("escape")
        other = several.hand(desk="desk 2")
        second = hanging.hang(several.file, other, person=MARA, clip=8).roll.id
        fetching.box(several.file, other, [second])
        here.app._poll()
        told = await here.say("mara")
        assert "of 2. Also clip" in told
        assert "Taken along? Type “take”. Is it cut and sleeved? Type “sleeve”" in told
        assert "enter" not in footer(here)
        await here.press("enter")
        assert "sleeve" not in here.acts
        await here.say("sleeve")
        assert here.acts.count("sleeve") == 1
