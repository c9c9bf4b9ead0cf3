"""The teacher with binders at the end of the term."""

from __future__ import annotations

import re
from datetime import date
from functools import partial

import pytest
from stdnum.iso7064 import mod_97_10

from filmrack.acts import archiving, fetching, hanging, lending
from filmrack.acts.terms import open_term
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.card import Card
from filmrack.desk.line import Line
from filmrack.desk.view import View
from filmrack.domain.codes import binder_code
from filmrack.domain.names import Person
from filmrack.store import ledger, people
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.at_desk import AtDesk, at_desk, opened_on

archive = partial(opened_on, "archive")


def sleeved(school: School, person: int, clip: int, *, contact: bool = False) -> int:
    roll = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id
    fetching.take(school.file, school.hand(), roll)
    archiving.sleeve(school.file, school.hand(), roll)
    if contact:
        archiving.contact(school.file, school.hand(), roll)
    return roll


async def drawn_anew(desk: AtDesk) -> None:
    desk.app.query_one(ArchiveView).post_message(View.Laid())
    await desk.pilot.pause()


def scan_of(school: School, roll: int) -> str:
    """Return what a scanner reads from a sleeve; check digits by python-stdnum."""
    there = school.roll(roll)
    body = f"R{there.term}{there.serial:04d}"
    return body + mod_97_10.calc_check_digits(body)


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
        parts, beside = " ".join(desk.page.split()).split(" also: ")
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


async def test_enter_makes_contact_sheet_after_contact_sheet(school: School) -> None:
    some = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5), (IVO, 9))]
    async with archive(school.file.path) as desk:
        await desk.enter("no contact sheet")
        for _ in some:
            await desk.enter()
        assert all(len(school.roll(roll).sheets) == 1 for roll in some)
        assert "Every sleeve has its contact sheet." in desk.page
        await desk.enter()
        assert all(len(school.roll(roll).sheets) == 1 for roll in some)


async def test_which_binder_is_the_same_question_each_time_and_enter_alone_answers_it(
    school: School,
) -> None:
    mara = [sleeved(school, MARA, clip, contact=True) for clip in (17, 18, 19)]
    olu = sleeved(school, OLU, 5, contact=True)
    async with archive(school.file.path) as desk:
        line = desk.line
        await desk.enter("not filed")
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
            assert "binder of this term: 2 (Period 1)" in desk.answer
            await desk.press("escape")


async def test_after_a_typed_act_in_a_list_that_it_leaves_enter_rests(school: School) -> None:
    some = [sleeved(school, person, clip) for person, clip in ((MARA, 17), (OLU, 5), (IVO, 9))]
    for roll in some:
        lending.lend(school.file, school.hand(), roll, "2026-11-20", name="Ms Novak")
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


async def test_a_term_that_is_typed_is_shown_whole(school: School) -> None:
    older(school)
    sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("26s")
        await desk.enter("borrowed")
        await desk.enter("26f")
        assert "Mara Okafor" in desk.page


async def test_frames_are_read_before_a_second_contact_sheet_is_asked_about(
    school: School,
) -> None:
    roll = school.roll(sleeved(school, MARA, 17, contact=True))
    async with archive(school.file.path) as desk:
        await desk.enter(f"{roll.number} contact 3 99")
        assert f"{roll.number} has no frame 99" in desk.answer
        assert desk.app.question is None


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


async def test_what_only_enter_answers_takes_no_other_word_for_yes(school: School) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    async with archive(school.file.path) as desk:
        await desk.enter("contact")
        await desk.enter("hmm")
        assert "“hmm” does nothing here: Enter keeps a second contact sheet" in desk.answer
        assert len(school.roll(roll).sheets) == 1
        await desk.enter("undo")
        assert "is not answered" in desk.answer
        assert len(school.roll(roll).sheets) == 1
        await desk.enter("contact")
        await desk.enter("yes")
        assert len(school.roll(roll).sheets) == 2


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
    lending.lend(school.file, school.hand(), roll, "2026-11-20", person=OLU)
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
    lending.lend(school.file, school.hand(), roll, "2026-11-20", person=OLU)
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter(binder_code("26F", 4))
        await desk.enter(scan_of(school, roll))
        assert "end loan” first" in desk.answer
    assert school.roll(roll).place.kind == "out"


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


async def test_a_sleeve_of_another_term_does_not_go_in_this_terms_binder(school: School) -> None:
    older(school)
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        body = "A26S01"
        await desk.enter(body + mod_97_10.calc_check_digits(body))
        await desk.enter(scan_of(school, roll))
        assert "another term" in desk.answer
    assert school.roll(roll).place.kind == "sleeve"


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


async def test_every_loan_of_the_list_reads_alike_with_its_day_whole(school: School) -> None:
    long = "Bartholomew Featherstonehaugh"
    for person, clip, name, day in (
        (MARA, 17, "Ms Novak", "2026-11-20"),
        (OLU, 5, long, "2026-11-20"),
    ):
        lending.lend(school.file, school.hand(), sleeved(school, person, clip), day, name=name)
    async with archive(school.file.path, (80, 24)) as desk:
        loans = [row.partition("◇ ")[2].strip() for row in desk.page.splitlines() if "◇ " in row]
        assert loans[0] == "Ms Novak, due Fri 20 Nov"
        assert re.fullmatch(r"Bartholomew F\w*…, due Fri 20 Nov", loans[1]), loans[1]


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


async def test_picks_and_a_page_are_typed_behind_the_word(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    fetching.take(school.file, school.hand(), roll)
    async with archive(school.file.path) as desk:
        await desk.enter("sleeve 6x6 35")
        await desk.enter("contact 4, 11")
        await desk.enter("note scratched")
    there = school.roll(roll)
    assert (there.page_name, there.frames, there.sheets[0].picks) == ("6x6", 35, (4, 11))


def older(school: School) -> None:
    """Give the school an earlier term."""
    first, last = date(2026, 1, 6), date(2026, 6, 5)
    open_term(school.file, school.hand(), "26S", starts=first, ends=last)


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
        assert view.owed == "contact"


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


async def test_a_serial_number_alone_names_its_roll_behind_and_before_a_word(
    school: School,
) -> None:
    mine, other = sleeved(school, MARA, 17), sleeved(school, OLU, 5)
    serial = school.roll(other).number.split("-")[1]
    async with archive(school.file.path) as desk:
        await desk.enter(f"lend {serial} Ms Novak 4 dec")
        assert "Lent to Ms Novak" in desk.answer or "lent to Ms Novak" in desk.answer
    assert (school.roll(other).place.kind, school.roll(mine).place.kind) == ("out", "sleeve")


async def test_wet_film_is_cut_only_when_enter_says_so(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(1), person=MARA, clip=17).roll
    async with archive(school.file.path) as desk:
        await desk.enter(f"sleeve {roll.number} 7x5")
        assert "wet by the clock" in desk.answer
        assert school.roll(roll.id).place.kind == "rod"
        await desk.enter()
        assert school.roll(roll.id).place.kind == "sleeve"


async def test_a_paper_that_is_none_is_answered_with_those_there_are(school: School) -> None:
    roll = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        await desk.enter(f"contact {roll.number} 5x7")
        assert "no paper here and no frame: the papers are" in desk.answer


async def test_a_second_contact_sheet_is_asked_about(school: School) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    async with archive(school.file.path) as desk:
        await desk.enter("contact")
        assert "it has a contact sheet, 09:00 on" in desk.answer
        assert len(school.roll(roll).sheets) == 1
        await desk.press("escape")
        await desk.enter("contact 4, 11")
        assert len(school.roll(roll).sheets) == 1
        await desk.enter()
        assert "picks 4, 11. Wrong? Type undo" in desk.answer
        assert len(school.roll(roll).sheets) == 2


async def test_enter_files_in_the_binder_of_the_rolls_own_period(school: School) -> None:
    first = sleeved(school, MARA, 5, contact=True)
    archiving.file_in_binder(school.file, school.hand(), [first], 2)
    roll = sleeved(school, MARA, 17, contact=True)
    async with archive(school.file.path) as desk:
        await desk.enter(f"file {school.roll(roll).number}")
        assert "Enter: 2" in desk.line.hint
        await desk.enter()
    assert school.roll(roll).place.number == 2


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


async def test_enter_is_about_the_marked_roll_of_the_list_that_was_typed(school: School) -> None:
    mine, other = (school.roll(sleeved(school, MARA, clip)) for clip in (17, 18))
    async with at_desk(school.file.path) as here:
        await here.say(f"lend {other.number} Ms Novak")
        await here.say("archive")
        await here.say(other.number)
        await here.say("not filed")
        marked = next(row for row in here.rows() if "▸" in row)
        assert mine.number in marked
        assert mine.number in here.part(Card)
        await here.press("enter")
        assert school.roll(other.id).loan is not None


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


async def test_file_asks_first_where_there_is_no_contact_sheet(school: School) -> None:
    roll = sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        await desk.enter("file")
        assert "no contact sheet yet" in desk.answer
        assert "Enter files it without one" in desk.line.hint
        await desk.enter()
        await desk.enter("1")
        assert str(school.roll(roll).place) == "binder 1"


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


@pytest.mark.parametrize(
    "line", ["contact picks 3 and 12", "contact 3, 12", "contact 3 and 12", "contact frames 3 & 12"]
)
async def test_picks_are_read_however_they_are_said(school: School, line: str) -> None:
    roll = sleeved(school, MARA, 17)
    async with at_desk(school.file.path) as here:
        await here.say(school.roll(roll).number)
        assert "picks 3, 12" in await here.say(line)


async def test_the_story_of_a_roll_says_who_had_borrowed_it_as_long_as_the_name_is_known(
    school: School,
) -> None:
    roll = sleeved(school, MARA, 17, contact=True)
    for who in ({"name": "Ms Novak"}, {"person": OLU}):
        lending.lend(school.file, school.hand(), roll, "4 dec", **who)
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


async def test_a_roll_that_waits_for_its_contact_sheet_says_how_frames_are_kept_with_it(
    school: School,
) -> None:
    sleeved(school, MARA, 17)
    async with archive(school.file.path) as desk:
        assert "contact 3 12" in desk.part(Card)


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
    older(school)
    sleeved(school, MARA, 17)
    there = sleeved(school, OLU, 5)
    with school.file.writing() as conn:
        conn.execute("UPDATE rolls SET term = '26S' WHERE id = ?", (there,))
    async with archive(school.file.path) as desk:
        await desk.enter("26s")
        assert desk.app.view.selected == there
        await desk.press("escape")
        assert desk.app.view.selected == there
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
        assert "Wrong? Type undo" in desk.answer
        await desk.press("up")
        assert "Wrong? Type undo" in desk.answer, "the marker cannot go further up"
        await desk.press("right", "right")
        assert desk.app.view.selected != done
        assert desk.answer == ""


async def test_who_is_marked_next_is_named_where_the_roll_done_leaves_the_list(
    school: School,
) -> None:
    sleeved(school, MARA, 17)
    sleeved(school, MARA, 18)
    after = sleeved(school, OLU, 5)
    async with archive(school.file.path) as desk:
        await desk.enter("no contact")
        await desk.enter("contact")
        assert "Marked is now" not in desk.answer
        await desk.press("down", "up")
        await desk.enter("contact")
        assert desk.app.view.selected == after
        assert f"Marked is now another's: {school.roll(after).number} → Olu" in desk.answer
