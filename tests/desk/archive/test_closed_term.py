"""A closed term on every screen: it is read, and nothing of it changes."""

from __future__ import annotations

import pytest

from filmrack.acts import closing, hanging
from filmrack.desk.hits import Hits
from filmrack.desk.roll_card.card import Card
from tests.conftest import MARA, OLU, School, entries
from tests.desk.archive.sleeves import archive, filed
from tests.desk.at_desk import opened_on

SIZES = [(120, 34), (80, 24)]


async def test_a_roll_of_a_closed_term_says_so_on_card_and_in_the_answer(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=OLU, clip=5).roll
    closing.close_term(school.file, school.hand(), "26F", "flood")
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter("5")
        assert (
            "Term 26F is closed, so nothing of it changes: “reopen term 26F” first" in desk.answer
        )
        assert "type" not in desk.answer.casefold()
        card = desk.part(Card)
        assert "Term 26F is closed" in card
        assert "Enter" not in card
        await desk.enter()
        assert "reopen term 26F" in desk.answer
        await desk.enter("5 flip")
        assert "“reopen term 26F”" in desk.answer
    assert not school.roll(roll.id).flipped


@pytest.mark.parametrize("size", SIZES)
async def test_the_dryer_says_that_the_term_of_its_film_is_closed(
    school: School, size: tuple[int, int]
) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    hanging.hang(school.file, school.hand(), person=MARA, clip=6)
    async with opened_on("dryer", school.file.path, size) as desk:
        assert "closed" not in desk.page
    closing.close_term(school.file, school.hand(), "26F", "flood")
    async with opened_on("dryer", school.file.path, size) as desk:
        rows = " ".join(desk.page.split())
        assert "Term 26F is closed: “reopen term 26F” before anything is done" in rows
        assert "its 2 rolls here" in rows
        await desk.press(*"mar")
        if size == (120, 34):
            assert "term 26F is closed" in desk.part(Hits)
        await desk.press("escape")
        await desk.enter("archive")
        await desk.enter("term report")
        rows = " ".join(desk.page.split())
        assert "Closed with 2 on rods (“flood”): “reopen term 26F” lets it be changed" in rows
        assert "from closing" not in rows


async def test_a_closed_term_refuses_each_act_in_one_sentence_and_undo_opens_it(
    school: School,
) -> None:
    roll = filed(school)
    closing.close_term(school.file, school.hand(), "26F")
    before = entries(school.file.path)
    async with archive(school.file.path) as desk:
        for typed in (
            "",
            "contact a4",
            "file 3",
            "lend olu",
            "hand back",
            "mark missing",
            "discard mould",
            "note blank",
            "claim olu",
        ):
            await desk.enter(typed)
            assert "term 26F is closed: reopen it" in desk.answer, typed
        await desk.enter("shelve 3")
        assert "in term 26F because it is closed" in desk.answer
        assert entries(school.file.path) == before
        await desk.press("escape", "up")
        await desk.enter("term reopen 26f")
        await desk.enter("hand back")
    assert school.roll(roll).place.kind == "handed_back"
