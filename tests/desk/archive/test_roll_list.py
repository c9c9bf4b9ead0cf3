"""Which rolls and which term are shown, and which roll is selected."""

from __future__ import annotations

import pytest

from filmrack.acts import archiving, fetching, hanging, lending, shelving
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.roll_card.card import Card
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.archive.sleeves import archive, drawn_anew, in_last_term, older, sleeved
from tests.desk.at_desk import at_desk


async def test_escape_takes_what_is_owed_first_and_then_the_term(school: School) -> None:
    older(school)
    sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("26s")
        await desk.enter("borrowed")
        assert "Nothing is borrowed." in desk.page
        await desk.press("escape")
        assert "Nothing of 26S yet." in desk.page
        await desk.press("escape")
        assert "Mara Okafor" in desk.page


@pytest.mark.parametrize(
    ("which", "there"),
    [("not sleeved", "Nothing is left to sleeve."), ("not filed", "Nothing is left to file.")],
)
async def test_where_nothing_is_left_to_do_a_list_says_so_in_plain_words(
    school: School, which: str, there: str
) -> None:
    archiving.file_in_binder(school.file, school.hand(), [sleeved(school, MARA, 17)], 1)
    async with archive(school.file.path) as desk:
        await desk.enter(which)
        assert there in desk.page


async def test_a_term_that_is_typed_is_shown_whole(school: School) -> None:
    older(school)
    sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("26s")
        await desk.enter("borrowed")
        await desk.enter("26f")
        assert "Mara Okafor" in desk.page


async def test_an_earlier_term_is_reached_by_its_code(school: School) -> None:
    older(school)
    sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("26s")
        assert "Nothing of 26S yet." in desk.page
        await desk.press("escape")
        assert "Mara Okafor" in desk.page


async def test_a_click_chooses_what_is_owed_and_a_roll(school: School) -> None:
    sleeved(school, MARA, 17, contact=True)
    second = sleeved(school, OLU, 5)
    async with archive(school.file.path) as desk:
        view = desk.app.query_one(ArchiveView)
        row = next(n for n, line in enumerate(desk.page.splitlines()) if "Olu" in line)
        await desk.pilot.click(ArchiveView, offset=(10, row + 1))
        assert view.selected == second
        rows = desk.page.splitlines()
        nth = next(n for n, line in enumerate(rows) if "no contact sheet  " in line)
        await desk.pilot.click(ArchiveView, offset=(rows[nth].index("no contact") + 4, nth + 1))
        assert view.which_rolls == "contact"


async def test_another_desks_act_leaves_the_selection_on_its_roll(school: School) -> None:
    first = sleeved(school, MARA, 17)
    second = sleeved(school, OLU, 5)
    async with archive(school.file.path) as desk:
        await desk.enter("no contact sheet")
        await desk.press("down")
        view = desk.app.query_one(ArchiveView)
        assert view.selected == second
        archiving.contact(school.file, school.hand(), first)
        desk.app.session.acted()
        await drawn_anew(desk)
        assert view.selected == second


async def test_a_roll_that_was_looked_at_on_the_dryer_does_not_move_the_archive(
    school: School,
) -> None:
    first = sleeved(school, MARA, 17)
    last = sleeved(school, IVO, 11)
    hangs = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.id
    async with archive(school.file.path) as desk:
        view = desk.app.query_one(ArchiveView)
        for looked_at, shown_there in ((hangs, first), (last, last)):
            view.select(looked_at)
            await drawn_anew(desk)
            assert view.selected == shown_there


async def test_card_list_and_enter_are_about_one_roll_when_another_screen_is_left(
    school: School,
) -> None:
    sleeved(school, OLU, 5)
    boxed = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.id
    fetching.box(school.file, school.hand(), [boxed])
    async with at_desk(school.file.path) as here:
        await here.say("9")
        await here.press("tab", "tab")
        assert (here.open, here.app.view.selected) == ("archive", boxed)
        assert "roll 2 of 2" in here.screen


async def test_enter_is_about_the_selected_roll_of_the_list_that_was_typed(school: School) -> None:
    mine, other = (school.roll(sleeved(school, MARA, clip)) for clip in (17, 18))
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {other.number} Ms Novak")
        await here.say("")
        await here.say("archive")
        await here.say(other.number)
        await here.say("not filed")
        selected = next(row for row in here.rows() if "▸" in row)
        assert mine.number in selected
        assert mine.number in here.part(Card)
        await here.press("enter")
        assert school.roll(other.id).loan is not None


async def test_a_name_means_first_the_roll_that_is_gone_on_with_and_says_how_many_there_are(
    school: School,
) -> None:
    done = sleeved(school, MARA, 17, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [done], 2)
    printed, waits = sleeved(school, MARA, 18, contact=True), sleeved(school, MARA, 19)
    archiving.file_in_binder(school.file, school.hand(), [waits], 2)
    async with archive(school.file.path) as desk:
        await desk.enter("mara")
        assert desk.app.view.selected == printed
        assert "2 of 3 in 26F" in desk.answer
        assert "Another: ↑ ↓ on Archive, or its number" in desk.answer
        archiving.file_in_binder(school.file, school.hand(), [printed], 2)
        await desk.enter("mara")
        assert desk.app.view.selected == waits


async def test_the_roll_in_hand_is_meant_still_after_a_visit_to_labels(school: School) -> None:
    sleeved(school, MARA, 17)
    olu = sleeved(school, OLU, 5, contact=True)
    async with archive(school.file.path) as desk:
        await desk.enter(school.roll(olu).number)
        await desk.enter("boxes")
        await desk.enter("labels")
        await desk.enter("archive")
        assert desk.app.view.selected == olu
        await desk.enter("file 1")
        assert str(school.roll(olu).place) == "binder 1"


async def test_after_a_typed_act_in_a_list_that_it_leaves_enter_rests(school: School) -> None:
    some = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5), (IVO, 9))]
    for roll in some:
        lending.lend(school.file, school.hand(), roll, "2026-11-20", to="Ms Novak")
    async with archive(school.file.path) as desk:
        await desk.enter("borrowed")
        await desk.enter(f"{school.roll(some[0]).number} return")
        assert "loan ended" in desk.answer
        await desk.enter()
        assert [school.roll(roll).place.kind for roll in some] == ["sleeve", "out", "out"]
        await desk.press("down")
        await desk.enter()
        await desk.enter()
        assert all(school.roll(roll).place.kind == "sleeve" for roll in some)


async def test_escape_puts_a_page_away_before_what_was_named_beneath_it(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    async with at_desk(school.file.path) as here:
        await here.say(school.roll(roll).number)
        await here.say("term report")
        view = here.app.view
        assert isinstance(view, ArchiveView)
        assert view.pages.name
        await here.press("escape")
        assert not view.pages.name


async def test_escape_takes_away_what_is_owed_and_stays_at_the_same_roll(school: School) -> None:
    first, second = sleeved(school, MARA, 17, contact=True), sleeved(school, OLU, 5)
    async with archive(school.file.path) as desk:
        assert desk.app.view.selected == first
        await desk.enter("no contact")
        assert desk.app.view.selected == second
        await desk.press("escape")
        assert "Mara Okafor" in desk.page
        assert desk.app.view.selected == second


async def test_escape_does_not_go_from_a_roll_of_one_term_to_one_of_another(
    school: School,
) -> None:
    sleeved(school, MARA, 17)
    there = in_last_term(school, "Olu Adeyemi")
    async with archive(school.file.path) as desk:
        await desk.enter("26s")
        assert desk.app.view.selected == there
        await desk.press("escape")
        assert desk.app.view.selected is None
        assert "26f goes back" in desk.line.render_line(0).text
        await desk.enter("26f")
        assert "Mara Okafor" in desk.page


async def test_what_was_said_of_a_roll_goes_when_the_arrow_shows_other_rolls(
    school: School,
) -> None:
    done = sleeved(school, MARA, 17)
    sleeved(school, OLU, 5, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [done], 2)
    async with archive(school.file.path) as desk:
        await desk.enter("contact")
        assert "Wrong? Type “undo”" in desk.answer
        await desk.press("up")
        assert "Wrong? Type “undo”" in desk.answer, "nothing is selected further up"
        await desk.press("right", "right")
        assert desk.app.view.selected != done
        assert desk.answer == ""


async def test_who_is_selected_next_is_named_where_the_roll_done_leaves_the_list(
    school: School,
) -> None:
    sleeved(school, MARA, 17)
    own = sleeved(school, MARA, 18)
    after = sleeved(school, OLU, 5)
    async with archive(school.file.path) as desk:
        await desk.enter("no contact")
        await desk.enter("contact")
        assert desk.app.view.selected == own
        assert f"Another roll is selected now: {school.roll(own).number} → Mara" in desk.answer
        await desk.press("down", "up")
        await desk.enter("contact")
        assert desk.app.view.selected == after
        assert f"Another roll is selected now: {school.roll(after).number} → Olu" in desk.answer


async def test_an_act_on_a_roll_named_from_elsewhere_moves_no_selection_and_says_of_none(
    school: School,
) -> None:
    first = sleeved(school, MARA, 17)
    last = sleeved(school, OLU, 5)
    async with archive(school.file.path) as desk:
        await desk.enter("no contact")
        await desk.enter(f"{school.roll(last).number} contact")
        assert desk.app.view.selected == first
        assert "contact sheet made" in desk.answer
        assert desk.answer.endswith("Wrong? Type “undo”")


async def test_who_has_an_overdue_roll_stands_whole_in_eighty_columns(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    lending.lend(school.file, school.hand(), roll, "2026-11-17", to="Ximena Arreguín")
    school.wait(3 * 24 * 60)
    async with at_desk(school.file.path, now=school.now, size=(80, 24)) as here:
        await here.say("archive")
        assert "Ximena Arreguín, overdue Tue 17 Nov" in here.screen


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_a_list_that_does_not_fit_says_how_many_rolls_more_there_are_until_its_end(
    school: School, size: tuple[int, int]
) -> None:
    for _ in range(40):
        shelving.shelve(school.file, school.hand(), 3, owner="Mara Okafor")
    async with archive(school.file.path, size) as desk:
        for key in ("home", *["down"] * 41, "up", "up"):
            await desk.press(key)
            numbers = [row for row in desk.page.splitlines() if "26F-00" in row]
            below = 40 - int(numbers[-1].partition("26F-")[2][:4])
            assert sum("▸" in row for row in numbers) == 1
            last = desk.page.splitlines()[-1].strip()
            assert last == (
                f"↓ {below} more below, with the arrows" if below else numbers[-1].strip()
            )
        assert "Period 1  40 rolls" not in desk.page
        await desk.press("home")
        assert "Period 1  40 rolls" in desk.page


async def test_a_list_that_fits_says_nothing_of_more(school: School) -> None:
    for _ in range(5):
        shelving.shelve(school.file, school.hand(), 3, owner="Mara Okafor")
    async with archive(school.file.path, (80, 24)) as desk:
        assert "more below" not in desk.page
