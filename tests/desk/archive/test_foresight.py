"""What stands on the desk before Enter: the cut plan, the paper, the borrower; and what is said
after it.
"""

from __future__ import annotations

from functools import partial

import pytest

from filmrack.acts import archiving, hanging
from filmrack.desk.footer import Footer
from filmrack.desk.roll_card.card import Card
from filmrack.store import labelling, people
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import opened_on

archive = partial(opened_on, "archive")
boxes = partial(opened_on, "boxes")
SIZES = [(120, 34), (80, 24)]


def sleeved(school: School, person: int = MARA, clip: int = 17, page: str | None = None) -> int:
    roll = school.boxed(person, clip)
    archiving.sleeve(school.file, school.hand(), roll, page)
    return roll


@pytest.mark.parametrize("size", SIZES)
async def test_the_cut_plan_stands_there_before_the_roll_is_cut(
    school: School, size: tuple[int, int]
) -> None:
    roll = school.boxed(MARA, 17)
    async with boxes(school.file.path, size) as desk:
        card = desk.part(Card)
        assert "cut 5 5 5 5 5 5 3 | 3" in card
        assert "8 strips in 2 sleeves (a sleeve takes 7 of 5 frames)" in card
        assert "enter cut 5 5 5 5 5 5 3 | 3, sleeve" in desk.part(Footer)
        await desk.enter()
    assert school.roll(roll).pages == ((5, 5, 5, 5, 5, 5, 3), (3,))


async def test_the_next_cut_plan_takes_the_place_of_the_last_answer_on_a_small_screen(
    school: School,
) -> None:
    school.boxed(OLU, 5)
    school.boxed(3, 9)
    async with boxes(school.file.path, (80, 24)) as desk:
        await desk.enter()
        assert "cut" in desk.answer
        await desk.press("down")
        await desk.wait(seconds=1)
        assert "8 strips in 2 sleeves" in desk.part(Card)
        assert "enter cut 5 5 5 5 5 5 3 | 3, sleeve" in desk.part(Footer)


async def test_the_numbers_of_the_sleeves_and_the_labels_that_wait_are_said(
    school: School,
) -> None:
    sleeved(school, OLU, 5)
    roll = school.boxed(MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter(f"sleeve {school.roll(roll).number}")
        said = desk.answer
    assert "sleeves 26F-0002/1-" in said
    assert "and 26F-0002/2-" in said
    assert "2 labels queued, 4 wait in all" in said
    assert len(labelling.queued_sleeves(school.file.conn)) == 4


async def test_another_page_is_foreseen_while_it_is_typed(school: School) -> None:
    roll = school.boxed(MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.type("sleeve 6x6 35")
        assert "→ cut 6 6 6 6 6 5; 6 strips in 1 sleeve (a sleeve takes 6 of 6 frames)" in desk.page
        assert "enter as typed" in desk.part(Footer)
        assert school.roll(roll).sleeved_at is None
        await desk.enter()
        assert "sleeve 26F-0001-44; 1 label queued" in desk.answer
        assert "→" not in desk.page.replace("← →", "")


async def test_a_line_that_would_be_refused_says_why_before_enter(school: School) -> None:
    school.boxed(MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.type("sleeve 6x6 99")
        assert "→ 135-36 has 1 to 39 frames, not 99" in desk.page


@pytest.mark.parametrize("size", SIZES)
async def test_the_paper_and_how_it_fits_stand_there_before_enter(
    school: School, size: tuple[int, int]
) -> None:
    roll = sleeved(school, page="6x6")
    async with archive(school.file.path, size) as desk:
        card = desk.part(Card)
        assert "on 8x10in: pictures only, edge numbers are lost" in card
        assert "type another: 8.5x11in" in card
        await desk.enter("9.5x12in")
        assert "on 9.5x12in: fits" in desk.part(Footer)
        assert "for contact sheets" in desk.line.hint
        assert desk.line.prompt == "9.5x12in ›"
        await desk.enter()
        assert "contact sheet made on 9.5x12in: fits" in desk.answer
    assert [sheet.paper for sheet in school.roll(roll).sheets] == ["9.5x12in"]


async def test_enter_asks_for_the_paper_where_the_film_does_not_fit_the_rooms(
    school: School,
) -> None:
    roll = sleeved(school, page="7x6")
    async with archive(school.file.path) as desk:
        assert "on 8x10in: does not fit" in desk.part(Card)
        assert "Enter say which paper" in desk.part(Card)
        assert "enter say which paper" in desk.part(Footer)
        await desk.enter()
        assert not school.roll(roll).sheets
        assert "made on which paper?" in desk.line.hint
        assert "it fits on 9.5x12in, 11x14in, 24x30cm" in desk.answer
        await desk.enter("9.5x12")
        assert "contact sheet made on 9.5x12in: fits" in desk.answer
    assert [sheet.paper for sheet in school.roll(roll).sheets] == ["9.5x12in"]


async def test_a_paper_in_hand_serves_a_stack_until_it_is_put_down(school: School) -> None:
    stack = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5), (3, 9))]
    async with archive(school.file.path) as desk:
        await desk.enter("no contact sheet")
        await desk.enter("a4")
        await desk.enter()
        await desk.enter()
        await desk.press("escape")
        await desk.enter()
    papers = [school.roll(roll).sheets[0].paper for roll in stack]
    assert papers == ["a4", "a4", "8x10in"]


async def test_which_picks_are_taken_back_is_seen_before_enter(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    archiving.contact(school.file, school.hand(), roll, picks=[4, 11])
    async with archive(school.file.path) as desk:
        await desk.type("unpick 4")
        assert "→ no longer picked: 4; 11 stay picked" in desk.page
        await desk.type("2")
        assert "→ 26F-0001-44 has no pick 42 to take back: name some of 4, 11" in desk.page


async def test_a_paper_and_picks_behind_the_word(school: School) -> None:
    roll = sleeved(school)
    async with archive(school.file.path) as desk:
        await desk.type("contact 8x10 4, 11")
        assert "→ contact sheet on 8x10in: fits, picks 4, 11" in desk.page
        await desk.enter()
    sheet = school.roll(roll).sheets[0]
    assert (sheet.paper, sheet.picks) == ("8x10in", (4, 11))


async def test_filing_before_the_contact_sheet_is_foretold_asked_about_and_said(
    school: School,
) -> None:
    roll = sleeved(school)
    async with archive(school.file.path) as desk:
        await desk.type("file 3")
        assert "→ file in binder 3, without a contact sheet" in desk.page
        await desk.enter()
        assert "no contact sheet yet" in desk.answer
        await desk.enter()
        assert "filed in binder 3, without a contact sheet" in desk.answer
        assert "1 sleeved, no contact sheet" in desk.page
        await desk.enter()
    there = school.roll(roll)
    assert (str(there.place), len(there.sheets)) == ("binder 3", 1)


@pytest.mark.parametrize(
    ("typed", "foreseen"),
    [
        ("ms novak 4 dec", "→ lend to ms novak, a guest, due Fri 4 Dec"),
        ("olu", "→ lend to Olu Adeyemi, due Tue 1 Dec, 10 school days from today"),
        ("olu 5 dec", "due Sat 5 Dec (no school that day)"),
        ("", "→ lend to whom? Due Tue 1 Dec"),
        ("novak next friday", "can be two days"),
        ("boxes", "“boxes” is taken for no guest, for the desk itself has that word"),
    ],
)
async def test_a_loan_is_foreseen(school: School, typed: str, foreseen: str) -> None:
    sleeved(school)
    async with archive(school.file.path) as desk:
        await desk.type(f"lend {typed}".strip())
        assert foreseen in desk.page


async def test_a_guest_and_a_late_loan_stand_in_words_on_card_row_and_list(
    school: School,
) -> None:
    roll = sleeved(school)
    number = school.roll(roll).number
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter(f"lend {number} Ms Novak friday")
        await desk.enter()
        assert "lent to Ms Novak, a guest, due Fri 20 Nov" in desk.answer
        assert "Ms Novak, due Fri 20 Nov" in desk.page
        assert "borrowed by Ms Novak, due Fri 20 Nov" in desk.part(Card)
        await desk.enter(f"end loan {number}")
    there = school.roll(roll)
    assert (there.place.kind, there.loan) == ("sleeve", None)
    assert "Ms Novak" in people.read_notes(school.file.conn, [1]).values()


async def test_the_card_says_what_enter_does_with_a_binder_in_hand(school: School) -> None:
    sleeved(school)
    async with archive(school.file.path) as desk:
        await desk.enter("binder 3")
        card = desk.part(Card)
        assert "Enter file in binder 3, without a contact sheet" in card
        assert "on 8x10in" not in card


async def test_the_binder_that_was_filed_in_last_is_an_enter_away(school: School) -> None:
    first, second = sleeved(school, OLU, 5), sleeved(school, 3, 9)
    async with archive(school.file.path) as desk:
        await desk.enter(f"file {school.roll(first).number} 3")
        await desk.enter()  # without a contact sheet
        await desk.enter(f"file {school.roll(second).number}")
        await desk.enter()  # without a contact sheet
        assert "Enter: 3" in desk.line.hint
        await desk.enter()
    assert str(school.roll(second).place) == "binder 3"


@pytest.mark.parametrize(
    ("typed", "place"),
    [
        ("hand back", "handed_back"),
        ("release", "handed_back"),
        ("missing", "missing"),
        ("mark missing", "missing"),
        ("discard", "discarded"),
    ],
)
async def test_film_leaves_by_its_number_from_any_screen_and_undo_brings_it_back(
    school: School, typed: str, place: str
) -> None:
    roll = sleeved(school)
    why = " blank film" if typed == "discard" else ""
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter(f"{typed} {school.roll(roll).number}{why}")
        assert school.roll(roll).place.kind == place
        if place != "discarded":
            await desk.enter(f"found {school.roll(roll).number}")
            assert school.roll(roll).place.kind == "sleeve"
            await desk.enter("undo")
        await desk.enter("undo")
        assert school.roll(roll).place.kind == "sleeve"


async def test_an_owner_who_changes_period_keeps_the_rolls_box_at_the_desk(
    school: School,
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    with school.file.writing() as conn:
        people.enrol(conn, MARA, "26F", 2)
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter("17 box")
        assert str(school.roll(roll).place) == "box 1"
        await desk.enter("boxes")
        assert "wrong" not in desk.page
