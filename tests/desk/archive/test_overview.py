"""What a term owes and its rolls in rows, as the screen Archive shows them."""

from __future__ import annotations

import re

import pytest

from filmrack.acts import archiving, fetching, hanging, lending
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.line import Line
from filmrack.desk.roll_card.card import Card
from filmrack.domain.names import Person
from filmrack.store import people
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.archive.sleeves import archive, drawn_anew, older, sleeved


async def test_a_term_without_rolls_says_what_will_stand_here(school: School) -> None:
    async with archive(school.file.path) as desk:
        assert "Nothing of 26F yet." in desk.page
        await desk.enter()
        assert desk.app.view.screen_id == "archive"


async def test_what_the_term_still_owes_stands_at_the_top(school: School) -> None:
    sleeved(school, MARA, 17)
    sleeved(school, OLU, 5, contact=True)
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    lending.missing(school.file, school.hand(), [sleeved(school, IVO, 11)])
    async with archive(school.file.path) as desk:
        rows = desk.page
        assert "4 rolls" in rows
        assert "nothing is owed" not in rows
        for owed in (
            "1 not sleeved",
            "1 sleeved, no contact sheet",
            "2 not filed",
            "0 borrowed",
            "1 missing",
        ):
            assert owed in rows


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_the_counts_above_the_rolls_add_up_and_say_which_count_a_roll_once_more(
    school: School, size: tuple[int, int]
) -> None:
    for person, clip in ((MARA, 17), (OLU, 5)):
        archiving.file_in_binder(
            school.file, school.hand(), [sleeved(school, person, clip, contact=True)], 2
        )
    lending.release(school.file, school.hand(), [sleeved(school, MARA, 18)])
    lending.missing(school.file, school.hand(), [sleeved(school, IVO, 11)])
    sleeved(school, OLU, 6)
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    async with archive(school.file.path, size) as desk:
        parts, beside = " ".join(desk.page.split()).split(" of these ")
        told = re.findall(
            r"(\d+) (not sleeved|not filed|in binders|borrowed|missing|handed back or discarded)",
            parts,
        )
        assert len(told) == 6
        assert sum(int(number) for number, _ in told) == 6
        assert beside.startswith("1 sleeved, no contact sheet 0 no owner")
        await desk.enter("gone")
        assert "Mara Okafor" in desk.page
        assert "Ivo Lindqvist" not in desk.page
        await desk.enter("in binders")
        assert "Olu Adeyemi" in desk.page
        assert "Ivo Lindqvist" not in desk.page


async def test_a_term_with_all_in_its_binders_owes_nothing(school: School) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    async with archive(school.file.path) as desk:
        assert "nothing is owed" in desk.page
        assert "● filed             binder 2" in desk.page


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_a_row_says_in_whole_words_what_a_roll_owes_next_and_where_it_is(
    school: School, size: tuple[int, int]
) -> None:
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    sleeved(school, MARA, 17)
    sleeved(school, OLU, 5, contact=True)
    lending.missing(school.file, school.hand(), [sleeved(school, IVO, 11)])
    async with archive(school.file.path, size) as desk:
        rows = [" ".join(row.split()) for row in desk.page.splitlines()]
        for told in (
            "○ no contact sheet not filed",
            "○ not filed in its sleeve",
            "○ not sleeved rod 2",
            "× missing",
        ):
            assert any(row.endswith(told) for row in rows), told


async def test_rolls_stand_by_period_and_family_name(school: School) -> None:
    for person, clip in ((IVO, 9), (MARA, 17), (OLU, 5)):
        sleeved(school, person, clip)
    async with archive(school.file.path) as desk:
        rows = desk.page
        order = [rows.index(n) for n in ("Mara Okafor", "Olu Adeyemi", "Ivo Lindqvist")]
        assert order == sorted(order)
        assert rows.index("Period 1") < order[0] < rows.index("Period 2") < order[1]


async def test_every_loan_of_the_list_reads_alike_with_its_day_whole(school: School) -> None:
    long = "Bartholomew Featherstonehaugh"
    for person, clip, name, day in (
        (MARA, 17, "Ms Novak", "2026-11-20"),
        (OLU, 5, long, "2026-11-20"),
    ):
        lending.lend(school.file, school.hand(), sleeved(school, person, clip), day, to=name)
    async with archive(school.file.path, (80, 24)) as desk:
        loans = [row.partition("◇ ")[2].strip() for row in desk.page.splitlines() if "◇ " in row]
        assert loans[0] == "Ms Novak, due Fri 20 Nov"
        assert re.fullmatch(r"Bartholomew F\w*…, due Fri 20 Nov", loans[1]), loans[1]


async def test_between_two_sizes_names_stay_readable_and_nothing_owed_is_lost(
    school: School,
) -> None:
    sleeved(school, MARA, 17)
    async with archive(school.file.path, (100, 30)) as desk:
        assert "Mara Okafor" in desk.page
        assert "○ no contact sheet" in desk.page
        assert "0 missing" in desk.page


@pytest.mark.parametrize("size", [(80, 24), (100, 30), (120, 34), (200, 50)])
async def test_odd_names_break_no_row(school: School, size: tuple[int, int]) -> None:
    names = ["[/x]", "[bold red]", "🎞️ Film", "مريم", "N" * 60, "Zoë\u0301"]
    with school.file.writing() as conn:
        numbers = [people.add(conn, Person(0, name, "Long Family", None, None)) for name in names]
        for number in numbers:
            people.enrol(conn, number, "26F", 1)
    for clip, number in enumerate(numbers, 30):
        sleeved(school, number, clip)
    async with archive(school.file.path, size) as desk:
        view = desk.app.query_one(ArchiveView)
        for row in range(view.size.height):
            assert view.render_line(row).cell_length == view.size.width
        assert "[/x]" in desk.page
        for _ in names:
            await desk.press("down")


async def test_a_roll_that_waits_for_its_contact_sheet_says_how_frames_are_kept_with_it(
    school: School,
) -> None:
    sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        assert "contact 3 12" in desk.part(Card)


async def test_the_empty_line_of_the_archive_names_the_report_whole_at_80_columns(
    school: School,
) -> None:
    older(school)
    async with archive(school.file.path, (80, 24)) as desk:
        line = desk.app.query_one(Line)
        for term in ("26f", "26s"):
            await desk.enter(term)
            assert desk.app.view.hint().startswith("26f goes back; ") == (term == "26s")
            assert "term report" in line.hint, term
            assert line.hint in line.render_line(0).text, term


async def test_the_story_of_a_roll_says_who_had_borrowed_it_as_long_as_the_name_is_known(
    school: School,
) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    for who in ("Ms Novak", OLU):
        lending.lend(school.file, school.hand(), roll, "4 dec", to=who)
        lending.back(school.file, school.hand(), [roll])
    async with archive(school.file.path) as desk:
        card = " ".join(desk.part(Card).split())
        assert "lent to Ms Novak, due on" in card
        assert "lent to Olu Adeyemi, due on" in card
        with school.file.writing() as conn:
            conn.execute("DELETE FROM notes WHERE text = 'Ms Novak'")
        await drawn_anew(desk)
        card = " ".join(desk.part(Card).split())
        assert "lent to somebody whose name is wiped, due on" in card


@pytest.mark.parametrize("size", [(80, 24), (104, 34), (120, 34)])
async def test_what_is_not_sleeved_says_where_the_film_is(
    school: School, size: tuple[int, int]
) -> None:
    hanging.load(school.file, school.hand(), MARA, [3, 4])
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    boxed = hanging.hang(school.file, school.hand(), person=OLU, clip=5).roll.id
    fetching.box(school.file, school.hand(), [boxed])
    lending.missing(school.file, school.hand(), [sleeved(school, IVO, 11)])
    async with archive(school.file.path, size) as desk:
        assert "Not sleeved:" not in desk.page
        await desk.enter("not sleeved")
        assert "Not sleeved: 2 in tanks, 1 on rods, 1 in boxes." in desk.page
        for place in ("in the tank", "rod 2", "box 2"):
            assert re.search(rf"○ (not sleeved +)?{place}", desk.page), place
