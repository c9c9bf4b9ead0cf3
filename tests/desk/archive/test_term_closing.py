"""Closing and reopening a term at the desk: what keeps it open, what it costs."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest

from filmrack.acts import closing, hanging, lending, locking
from filmrack.desk.archive.term_closing import Closing, TermClosing, close_term
from filmrack.desk.archive.term_words import what_is_open
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.taking_back import undo
from filmrack.domain.refusal import Refused
from filmrack.domain.termreport import ACCOUNTED_FOR, KINDS_OF_PLACE
from filmrack.store import people, rolls, terms
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School
from tests.desk.archive.sleeves import archive, closed, filed
from tests.desk.at_desk import at_desk, opened_on

SIZES = [(120, 34), (80, 24)]


def why_closed(school: School) -> str:
    (entry,) = terms.closings(school.file.conn, "26F")
    note = entry.detail["note"]
    return people.read_notes(school.file.conn, [note])[note]


def test_every_place_that_keeps_a_term_open_has_its_words() -> None:
    for kind in set(KINDS_OF_PLACE) - ACCOUNTED_FOR:
        assert what_is_open({kind: 3}).startswith("3 ")
    for kind in ACCOUNTED_FOR:
        assert what_is_open({kind: 3}) == ""


@pytest.mark.parametrize("size", SIZES)
async def test_what_keeps_the_term_from_closing_stands_in_words(
    school: School, size: tuple[int, int]
) -> None:
    filed(school)
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    lending.missing(school.file, school.hand(), [filed(school, IVO, 9)])
    async with archive(school.file.path, size) as desk:
        assert "Keeps it from closing" not in desk.page
        await desk.enter("26f")
        assert "Keeps it from closing: 1 on rods, 1 missing." in desk.page


async def test_close_alone_is_the_terms_in_the_archive_and_else_the_dryers(school: School) -> None:
    filed(school)
    async with archive(school.file.path) as desk:
        await desk.enter("close")
        assert "Close term 26F?" in desk.answer
        await desk.press("escape")
        await desk.enter("dryer")
        await desk.enter("close")
        assert desk.open == "sweep"
        assert not closed(school)


async def test_a_term_is_closed_by_one_enter_that_names_its_price(school: School) -> None:
    filed(school)
    async with archive(school.file.path) as desk:
        assert "Every roll is accounted for: “close term” closes it." in desk.page
        await desk.enter("close term")
        assert "Close term 26F?" in desk.answer
        assert "From then on its 1 roll cannot be changed" in desk.answer
        assert "A copy of the file is made first" in desk.answer
        assert not closed(school)
        await desk.enter()
        assert closed(school)
        assert "Closed since Tue 17 Nov, so nothing of it changes" in desk.page
        await desk.enter("reopen term")
        assert not closed(school)


async def test_undo_behind_closing_a_term_says_that_the_term_is_open_again(school: School) -> None:
    filed(school)
    async with archive(school.file.path) as desk:
        await desk.enter("close term")
        await desk.enter()
        await desk.enter("undo")
        assert "taken back: close term 26F, so it is open again" in desk.answer
        await desk.enter("close term")
        await desk.enter()
        await desk.enter("reopen term")
        await desk.enter("undo")
        assert "taken back: reopen term 26F, so it is closed again." in desk.answer


def test_undo_while_a_term_is_being_closed_takes_nothing_back_that_was_done_before(
    school: School,
) -> None:
    session = Session(school.file.path, lambda: school.now)
    try:
        roll = hanging.hang(session.file, session.hand(), person=MARA, clip=17).roll
        works: list[Callable[[], None]] = []
        told: list[str] = []
        going = TermClosing(session, works.append, lambda said, _: told.append(said.words))
        asked = going.ask("26F")
        for answer_ in ("1", "taken home"):
            assert isinstance(asked, Question)
            asked = asked.answer(answer_)
        with pytest.raises(Refused, match="term 26F is being closed: wait for it, then undo"):
            undo(session, None)
        assert rolls.by_id(session.file.conn, roll.id).place.kind == "rod"
        works[0]()
        assert "closed, 1 roll left open" in told[0]
        assert "close term 26F, so it is open again" in undo(session, None).words
    finally:
        session.close()


async def test_escape_leaves_the_term_open(school: School) -> None:
    filed(school)
    async with archive(school.file.path) as desk:
        await desk.enter("close term 26f")
        await desk.press("escape")
        await desk.enter()
    assert not closed(school)


async def test_a_term_with_rolls_unaccounted_for_asks_why_they_are_left(school: School) -> None:
    lending.missing(school.file, school.hand(), [filed(school)])
    async with archive(school.file.path) as desk:
        await desk.enter("term close")
        assert "1 roll not put away yet?" in desk.answer
        assert "1 missing" in desk.answer
        await desk.enter()
        assert not closed(school)
        for no_reason in ("y", "Yes", "ok"):
            await desk.enter(no_reason)
            assert "does not say why rolls are left" in desk.answer
            assert not closed(school)
        await desk.enter("holidays")
        assert closed(school)
        assert "1 roll left open" in desk.answer
    assert why_closed(school) == "holidays"


async def test_film_that_hangs_is_taken_down_before_a_term_is_closed(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    hanging.load(school.file, school.hand(), MARA, [17])
    lending.missing(school.file, school.hand(), [filed(school, IVO, 9)])
    async with archive(school.file.path) as desk:
        await desk.enter("close term")
        assert "Film first: 1 in tanks, 1 on rods" in desk.answer
        assert "nobody can flip it, touch it or take it down" in desk.answer
        assert "Also not put away: 1 missing" in desk.answer
        for other in ("", "holidays", "1"):
            await desk.enter(other)
            assert "not put away yet" not in desk.answer, other
        await desk.press("escape")
        assert not closed(school)


async def test_who_closes_over_film_counts_it_and_the_record_says_so(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    hanging.load(school.file, school.hand(), MARA, [17])
    async with archive(school.file.path) as desk:
        await desk.enter("close term")
        await desk.enter("2")
        assert "2 rolls not put away yet?" in desk.answer
        assert not closed(school)
        await desk.enter("flood")
        assert closed(school)
    assert why_closed(school) == "1 in tanks, 1 on rods: flood"


async def test_report_line_and_question_tell_alike_that_a_loan_keeps_no_term_from_closing(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    lending.missing(school.file, school.hand(), [filed(school, IVO, 9)])
    lending.lend(school.file, school.hand(), filed(school), "friday", to="Ms Novak")
    told = "1 missing; 1 still borrowed keeps no term from closing"
    async with archive(school.file.path) as desk:
        await desk.enter("26f")
        assert f"Keeps it from closing: 1 on rods, {told}." in " ".join(desk.page.split())
        await desk.enter("term report")
        assert f"Keeps it from closing: 1 on rods, {told}" in " ".join(desk.page.split())
        await desk.enter("close term")
        assert f"Also not put away: {told.replace(';', '.')}. Who: “term report”" in desk.answer
    assert not closed(school)


async def test_closing_is_said_on_any_screen_and_shown_in_the_archive(school: School) -> None:
    filed(school)
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter("close term")
        await desk.enter()
        assert closed(school)
        assert desk.app.query_one(ArchiveView).display


async def test_what_is_still_borrowed_is_counted_and_named_before_a_term_is_closed(
    school: School,
) -> None:
    lending.lend(school.file, school.hand(), filed(school), "friday", to="Ms Novak")
    lending.lend(school.file, school.hand(), filed(school, OLU, 5), "friday", to=IVO)
    async with archive(school.file.path) as desk:
        assert "Every roll is accounted for; 2 still borrowed: “close term”" in desk.page
        await desk.enter("close term")
        assert "2 rolls are still borrowed, by Ms Novak, Ivo Lindqvist" in desk.answer
        assert "end these loans first, or “reopen term 26F” when they come back" in desk.answer
        await desk.enter()
        assert "closed; 2 still borrowed" in desk.answer
        await desk.enter("term report")
        assert "Closed; 2 still borrowed" in desk.page


@pytest.mark.parametrize("size", SIZES)
async def test_why_a_term_was_closed_with_rolls_left_is_found_again(
    school: School, size: tuple[int, int]
) -> None:
    lending.missing(school.file, school.hand(), [filed(school)])
    closing.close_term(school.file, school.hand(), "26F", "taken home")
    async with archive(school.file.path, size) as desk:
        assert "(“taken home”)" in " ".join(desk.page.split())
        await desk.enter("term report")
        assert "Closed with 1 missing (“taken home”)" in " ".join(desk.page.split())


def test_a_term_is_closed_beside_the_desk(school: School) -> None:
    filed(school)
    begun: list[Closing] = []
    session = Session(school.file.path, lambda: TUESDAY_9_00)
    asked = close_term(session, "26F", begun.append)
    said = asked.answer("")
    session.close()
    assert isinstance(said, Said)
    assert "is being closed" in said.words
    assert not closed(school)
    assert "a copy of the file is made first, 3 s" in begun[0].goes_on(
        TUESDAY_9_00 + timedelta(seconds=3)
    )
    told, refused = begun[0].done()
    assert (told.done, refused) == (True, False)
    assert closed(school)
    told, refused = begun[0].done()
    assert refused
    assert "closed already" in told.words


async def test_the_words_of_a_term_are_the_teachers(school: School) -> None:
    roll = filed(school)
    locking.set_passphrase(school.file, "three dry clips", None, school.now)
    number = school.roll(roll).number
    async with at_desk(school.file.path) as here:
        for typed in ("close term", "term report", "figures", "shelve 3", f"lend {number} olu"):
            await here.say(typed)
            await here.press("enter", "escape")
            assert "Term 26F" not in here.shown
    assert not closed(school)
    assert school.roll(roll).place.kind == "binder"
