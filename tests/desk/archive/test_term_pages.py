"""The pages that lie over the archive: the report of a term, and what is handed back."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

import pytest

from filmrack.acts import hanging, lending, shelving
from filmrack.desk.archive.term_pages import TermPages
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.roll_card.card import Card
from filmrack.desk.session import Session
from filmrack.desk.themes import PALETTES
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School
from tests.desk.archive.sleeves import archive, filed, sleeved
from tests.desk.at_desk import at_desk

SIZES = [(120, 34), (80, 24)]


@pytest.mark.parametrize(
    "typed",
    ["not put away", "What is not put away", "what is left", "what is left?", "open rolls 26F"],
)
async def test_what_is_not_put_away_is_the_report_of_the_term_on_every_screen(
    school: School, typed: str
) -> None:
    sleeved(school, MARA, 17)
    async with at_desk(school.file.path) as here:
        for screen in ("board", "dryer", "boxes", "sweep", "labels", "room", "archive"):
            await here.say(screen)
            await here.say(typed)
            view = here.app.view
            assert isinstance(view, ArchiveView), screen
            assert view.pages.name == "report", screen
            await here.press("escape")


@pytest.mark.parametrize("size", SIZES)
async def test_the_report_says_where_all_rolls_are_and_what_is_owed(
    school: School, size: tuple[int, int]
) -> None:
    filed(school)
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    lending.lend(school.file, school.hand(), filed(school, IVO, 9), "friday", to="Ms Novak")
    shelving.shelve(school.file, school.hand(), 3, owner="the tall one")
    async with archive(school.file.path, size) as desk:
        await desk.enter("term report")
        rows = desk.page
        assert "Term 26F: 4 rolls" in rows
        assert "1  borrowed" in rows
        assert "Keeps it from closing: 1 on rods" in rows
        without = "Of these 4: 3 without a contact sheet (2 in binders; 1 borrowed), 1 without an"
        assert without in " ".join(rows.split())
        await desk.press("end")
        last = desk.page
        assert "Without an owner: 1 roll" in last
        assert "Without a contact sheet: 3 rolls" in last
        assert "“the tall one”" in last
        assert "Term 26F: 4 rolls" not in last or size == (120, 34)
        await desk.press("home")
        assert desk.page == rows
        await desk.enter()
        assert desk.page == rows, "Enter does nothing to a roll that lies below the page"
        await desk.press("escape")
        assert "Mara Okafor" in desk.page


async def test_a_page_of_a_term_that_is_not_there_is_refused(school: School) -> None:
    filed(school)
    async with archive(school.file.path) as desk:
        await desk.enter("term report 19s")
        assert "there is no term 19S" in desk.answer
        assert "Mara Okafor" in desk.page
        assert "in sleeves, not filed" not in desk.page


async def test_a_roll_that_is_typed_or_scanned_is_not_hidden_by_a_page(school: School) -> None:
    roll = school.roll(filed(school))
    async with archive(school.file.path) as desk:
        for typed in (roll.number, str(roll.serial).zfill(4), "mara"):
            await desk.enter("term report")
            assert "Term 26F: 1 roll" in desk.page
            assert not desk.app.query_one(Card).display
            await desk.enter(typed)
            assert "Term 26F: 1 roll" not in desk.page, typed
            assert roll.number in desk.part(Card), typed
        await desk.enter("hand-back list")
        await desk.enter(f"hand back {roll.number}")
        assert "To hand back of 26F: 0 rolls" in desk.page, "what is done from a list leaves it"


async def test_a_page_that_does_not_fit_says_how_many_lines_more_there_are(
    school: School,
) -> None:
    for _ in range(30):
        shelving.shelve(school.file, school.hand(), 3, owner="Mara Okafor")
    async with archive(school.file.path, (80, 24)) as desk:
        await desk.enter("hand-back list")
        rows = desk.page.splitlines()
        all_lines = 3 + 1 + 1 + 30  # its head, an empty one, the period, and one for each roll
        assert rows[-1].strip() == f"↓ {all_lines - len(rows) + 1} more below, with the arrows"
        await desk.press("end")
        assert "more below" not in desk.page
        assert "26F-0030" in desk.page.splitlines()[-1]


@pytest.mark.parametrize("typed", ["hand-back list", "term hand-back", "term hand-back 26F"])
async def test_what_is_handed_back_is_listed_by_its_one_name_and_as_the_command_is_typed(
    school: School, typed: str
) -> None:
    filed(school)
    async with archive(school.file.path) as desk:
        await desk.enter(typed)
        assert "To hand back of 26F: 1 roll" in desk.page


async def test_the_hand_back_list_is_printed_by_the_same_name(school: School) -> None:
    filed(school)
    async with archive(school.file.path) as desk:
        await desk.enter("labels hand-back")
        assert desk.open == "labels"
        assert "To print: hand-back. what to hand back, to whom" in desk.answer


async def test_borrowed_rolls_of_the_report_say_by_whom_and_until_when(school: School) -> None:
    lending.lend(school.file, school.hand(), filed(school), "friday", to="Ms Novak")
    async with archive(school.file.path, (120, 50)) as desk:
        await desk.enter("report")
        assert "Ms Novak, due Fri 20 Nov" in desk.page


async def test_in_the_last_week_the_archive_offers_the_hand_back_list(school: School) -> None:
    roll = filed(school)
    lending.lend(school.file, school.hand(), filed(school, OLU, 5), "friday", to="Ms Novak")
    (term,) = school.file.room().terms
    last = datetime(term.ends.year, term.ends.month, term.ends.day, 18, tzinfo=UTC)
    async with at_desk(school.file.path, now=last) as here:
        await here.say("archive")
        assert "Last week: “hand-back list”" in here.shown
        await here.say("hand-back list")
        assert "It is the last week" in here.shown
        assert school.roll(roll).number in here.shown
        assert "Ms Novak, overdue since Fri 20 Nov" in here.shown


def test_a_page_is_read_beside_the_desk_and_says_so_until_it_is_there(school: School) -> None:
    """Measured with 25,000 rolls the list takes seconds: it must not stand in the way of a scan."""
    filed(school)
    begun: list[Callable[[], None]] = []
    session = Session(school.file.path, lambda: TUESDAY_9_00)
    pages, now = TermPages(session, begun.append), session.look()

    def rows() -> str:
        lines = pages.lines(now, now.room.terms[0], (100, 20), PALETTES["dim"])
        return "\n".join(line.plain for line in lines)

    pages.lay("hand-back list")
    assert rows() == rows() == "Reading hand-back list of 26F, 0 s … Esc leaves it."
    assert len(begun) == 1
    begun[0]()
    assert "To hand back of 26F: 1 roll" in rows()
    session.acted()
    assert "To hand back of 26F: 1 roll" in rows()  # as it was, until the new one is there
    assert len(begun) == 2
    session.close()
