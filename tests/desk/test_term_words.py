"""The end of a term at the desk: what keeps it open, closing, reopening, shelving, its pages."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from functools import partial

import pytest

from filmrack.acts import archiving, closing, fetching, hanging, lending, locking, shelving
from filmrack.desk.archive.term_closing import TermClosing
from filmrack.desk.archive.term_pages import TermPages
from filmrack.desk.archive.term_words import Closing, close_term, what_is_open
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.card import Card
from filmrack.desk.deeds import Deeds
from filmrack.desk.hits import Hits
from filmrack.desk.question import Question
from filmrack.desk.said import Said
from filmrack.desk.session import Session
from filmrack.desk.themes import PALETTES
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.termreport import ACCOUNTED_FOR, KINDS_OF_PLACE
from filmrack.store import labelling, people, rolls, terms
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School
from tests.desk.at_desk import at_desk, opened_on

archive = partial(opened_on, "archive")
SIZES = [(120, 34), (80, 24)]


def filed(school: School, person: int = MARA, clip: int = 17) -> int:
    roll = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id
    fetching.take(school.file, school.hand(), roll)
    archiving.sleeve(school.file, school.hand(), roll)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    return roll


def entries(school: School) -> int:
    count: int = school.file.conn.execute("SELECT count(*) FROM ledger").fetchone()[0]
    return count


def closed(school: School) -> bool:
    return "26F" in terms.closed(school.file.conn)


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
        assert "taken back: close term 26F, so it is open again." in desk.answer
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
        deeds = Deeds(session)
        works: list[Callable[[], None]] = []
        told: list[str] = []
        going = TermClosing(session, works.append, lambda said, _: told.append(said.words))
        asked = going.ask("26F")
        for answer_ in ("1", "taken home"):
            assert isinstance(asked, Question)
            asked = asked.answer(answer_)
        with pytest.raises(Refused, match="term 26F is being closed: wait for it, then undo"):
            deeds.undo(None)
        assert rolls.by_id(session.file.conn, roll.id).place.kind == "rod"
        works[0]()
        assert "closed, 1 roll left open" in told[0]
        assert "close term 26F, so it is open again" in deeds.undo(None).words
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


async def test_closing_is_said_on_any_screen_and_shown_in_the_archive(school: School) -> None:
    filed(school)
    async with opened_on("dryer", school.file.path) as desk:
        await desk.enter("close term")
        await desk.enter()
        assert closed(school)
        assert desk.app.query_one(ArchiveView).display


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
    before = entries(school)
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
        assert entries(school) == before
        await desk.press("escape")
        await desk.enter("term reopen 26f")
        await desk.enter("hand back")
    assert school.roll(roll).place.kind == "handed_back"


async def test_sleeves_are_shelved_one_after_the_other_with_their_labels(school: School) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        assert "whose is the next sleeve?" in desk.line.hint
        await desk.enter("mara okafor")
        assert "26F-0001-44" in desk.answer
        assert "Mara Okafor: in binder 3. 1 label in the queue" in desk.answer
        await desk.enter("the tall one")
        assert (
            "“the tall one”, kept as written, for nobody of the roster is called so" in desk.answer
        )
        await desk.enter()
        assert "nothing is shelved: type what the sleeve says, “nobody”" in desk.answer
        assert "“nobody”" in desk.line.hint
        await desk.enter("nobody")
        assert "nobody known: in binder 3. 3 labels in the queue" in desk.answer
        await desk.enter("undo")
        assert "taken back" in desk.answer
        await desk.press("escape")
        assert "Mara Okafor" in desk.page
        assert "“the tall one”" in desk.page
    assert len(labelling.queued_sleeves(school.file.conn)) == 2
    assert [roll.person for roll in rolls.read(school.file.conn, "place = 'binder'")] == [1, None]


async def test_sleeves_from_before_the_record_are_shelved_where_one_stands(school: School) -> None:
    for typed in ("shelve 19S-01", "shelve 1 of 19s", "shelve 19S 1"):
        async with archive(school.file.path) as desk:
            await desk.enter(typed)
            assert "Open term 19S, Tue 1 Jan 2019 to Sun 30 Jun 2019?" in desk.answer, typed
            assert "19S" not in {term.code for term in school.file.room().terms}
            await desk.press("escape")
    async with archive(school.file.path) as desk:
        await desk.enter("shelve")
        await desk.enter()
        assert "type the number of the binder" in desk.answer
        await desk.enter("19s-01")
        await desk.enter("someday")
        assert "is no first and last day" in desk.answer
        await desk.enter("2019-01-14 to 2019-06-07")
        assert "binder 19S-01: whose is the next sleeve?" in desk.line.hint
        await desk.enter("nobody")
        assert "19S-0001" in desk.answer
    (term,) = [term for term in school.file.room().terms if term.code == "19S"]
    assert (term.starts, term.ends) == (date(2019, 1, 14), date(2019, 6, 7))


async def test_part_of_a_name_is_its_owners_where_one_person_of_the_term_fits(
    school: School,
) -> None:
    with school.file.writing() as conn:
        for family in ("Stone", "Reed"):
            people.add(conn, Person(0, "Ada", family, None))
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("oka")
        assert "Mara Okafor, the only “oka” of the roster: in binder 3" in desk.answer
        await desk.enter('"oka"')
        assert "“oka”, kept as written: in binder 3" in desk.answer
        await desk.enter("ada")
        assert "'ada' can be" in desk.answer
        assert "in “quotes” to keep it" in desk.answer
    assert [roll.person for roll in rolls.read(school.file.conn, "place = 'binder'")] == [1, None]


async def test_an_old_sleeve_is_nobodys_of_today_by_a_guess(school: School) -> None:
    with school.file.writing() as conn:
        new = people.add(conn, Person(0, "Rosalind", "Quist", None))
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("rosalind")
        assert "Is “rosalind” Rosalind Quist?" in desk.answer
        assert rolls.read(school.file.conn, "place = 'binder'") == []
        await desk.enter('"Rosalind"')
        assert "“Rosalind”, kept as written" in desk.answer
        await desk.enter("rosalind")
        await desk.enter()
        assert "Rosalind Quist: in binder 3" in desk.answer
    assert [roll.person for roll in rolls.read(school.file.conn, "place = 'binder'")] == [None, new]


async def test_a_term_is_opened_where_a_refusal_says_so(school: School) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("term open 24F")
        await desk.enter()
        assert "Term 24F" in desk.answer
        await desk.enter("open term 24f")
        assert "term 24F is there already" in desk.answer
        await desk.enter("open term")
        await desk.enter("24Q")
        await desk.enter()
        assert "type its first and last day" in desk.answer
    assert "24F" in {term.code for term in school.file.room().terms}


async def test_a_word_that_means_something_else_is_no_owner_by_a_slip(school: School) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        for word, what in (
            ("help", "an order"),
            ("dryer", "the name of a screen"),
            ("2019", "a number"),
            ("rod 3", "a number or a place"),
            ("lend olu", "an order"),
            ("flip", "an order"),
        ):
            await desk.enter(word)
            assert f"“{word}” is {what}" in desk.answer
        await desk.enter("undo")
        assert "no sleeve was shelved here yet" in desk.answer
        assert rolls.read(school.file.conn, "place = 'binder'") == []
        await desk.enter("2019")
        await desk.enter()
        assert "“2019”, kept as written" in desk.answer
        await desk.enter("help")
        await desk.enter("olu adeyemi")
        assert "Olu Adeyemi: in binder 3" in desk.answer


@pytest.mark.parametrize("word", ["esc", "Done", "finish", "stop", "end"])
async def test_a_word_for_the_end_ends_the_shelving_and_shelves_nothing(
    school: School, word: str
) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("olu adeyemi")
        await desk.enter(word.lower())
        assert "1 sleeve shelved in binder 3" in desk.answer
        assert desk.line.hint.startswith("← → which rolls")
    assert len(rolls.read(school.file.conn, "place = 'binder'")) == 1


@pytest.mark.parametrize("word", ["close", "back"])
async def test_a_word_for_going_back_is_asked_about_before_a_sleeve_is_called_so(
    school: School, word: str
) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter(word)
        assert f"Does the sleeve say “{word}”?" in desk.answer
        await desk.enter("done")
        assert "nothing was shelved" in desk.answer
    assert rolls.read(school.file.conn, "place = 'binder'") == []


async def test_whoever_is_called_like_an_order_is_no_slip(school: School) -> None:
    with school.file.writing() as conn:
        people.add(conn, Person(0, "Box", "Lock", None))
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("box lock")
        assert "Box Lock: in binder 3" in desk.answer


async def test_leaving_the_shelving_tells_the_sum(school: School) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.press("escape")
        assert "shelved" not in desk.answer
        await desk.enter("shelve 3")
        for owner in ("mara okafor", "the tall one", "nobody"):
            await desk.enter(owner)
        await desk.enter("undo")
        await desk.press("escape")
        assert "2 sleeves shelved in binder 3" in desk.answer
        assert "26F-0001-44, 26F-0002-" in desk.answer
        assert "2 labels in the queue" in desk.answer


async def test_a_film_and_another_terms_binder_are_named_with_shelve(school: School) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 26f-04 120-6x6")
        await desk.enter("nobody")
        await desk.press("escape")
        await desk.enter("shelve 26s-01")
        assert "Open term 26S" in desk.answer
    (shelved,) = rolls.read(school.file.conn, "place = 'binder'")
    assert (shelved.film, shelved.binder) == ("120-6x6", 4)


async def test_rolls_without_an_owner_are_offered_for_claiming(school: School) -> None:
    first = shelving.shelve(school.file, school.hand(), 3, owner="the tall one").id
    second = shelving.shelve(school.file, school.hand(), 3).id
    async with archive(school.file.path) as desk:
        assert "2 no owner" in desk.page
        await desk.enter("without an owner")
        assert "Enter say whose it is" in desk.part(Card)
        await desk.enter()
        assert "whose is it?" in desk.line.hint
        await desk.enter("olu")
        assert "claimed by Olu Adeyemi" in desk.answer
        await desk.enter("claim mara")
        assert "Every roll has its owner." in desk.page
    assert [school.roll(roll).person for roll in (first, second)] == [OLU, MARA]


@pytest.mark.parametrize("size", SIZES)
async def test_the_report_says_where_all_rolls_are_and_what_is_owed(
    school: School, size: tuple[int, int]
) -> None:
    filed(school)
    hanging.hang(school.file, school.hand(), person=OLU, clip=5)
    lending.lend(school.file, school.hand(), filed(school, IVO, 9), "friday", name="Ms Novak")
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


async def test_what_is_asked_for_old_sleeves_and_loans_is_whole_at_80_columns(
    school: School,
) -> None:
    number = school.roll(filed(school)).number
    async with archive(school.file.path, (80, 24)) as desk:
        line = desk.line
        for typed in ("shelve", "shelve 24F", "shelve 24F-01", "shelve 24Q-01", f"lend {number}"):
            await desk.enter(typed)
            asked = line.hint
            assert asked
            assert asked in " ".join(line.render_line(0).text.split()), typed
            await desk.press("escape")


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


async def test_borrowed_rolls_of_the_report_say_by_whom_and_until_when(school: School) -> None:
    lending.lend(school.file, school.hand(), filed(school), "friday", name="Ms Novak")
    async with archive(school.file.path, (120, 50)) as desk:
        await desk.enter("report")
        assert "Ms Novak, due Fri 20 Nov" in desk.page


async def test_in_the_last_week_the_archive_offers_the_hand_back_list(school: School) -> None:
    roll = filed(school)
    lending.lend(school.file, school.hand(), filed(school, OLU, 5), "friday", name="Ms Novak")
    (term,) = school.file.room().terms
    last = datetime(term.ends.year, term.ends.month, term.ends.day, 18, tzinfo=UTC)
    async with at_desk(school.file.path, now=last) as here:
        await here.say("archive")
        assert "Last week: “hand-back list”" in here.shown
        await here.say("hand-back list")
        assert "It is the last week" in here.shown
        assert school.roll(roll).number in here.shown
        assert "Ms Novak, overdue since Fri 20 Nov" in here.shown


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


async def test_shelving_says_its_term_and_how_another_one_is_meant(school: School) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        assert "binder 3 of 26F: whose is the next sleeve?" in desk.line.hint
        assert "Another term: esc, then “shelve 25F 3”" in desk.answer
        await desk.press("escape")
        await desk.enter("shelve 26F 3")
        assert "Another term" not in desk.answer


async def test_what_looks_like_a_rolls_number_is_nobodys_name(school: School) -> None:
    known = school.roll(filed(school))
    wrong = known.number[:-2] + ("00" if known.number[-2:] != "00" else "01")
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter(wrong)
        assert f"{known.number} is a roll that is kept already (binder" in desk.answer
        assert f"“{known.number.rpartition('-')[0]} file”" in desk.answer
        await desk.enter("26f-0777-1")
        assert "looks like a roll's number and is nobody's name" in desk.answer
        assert len(rolls.read(school.file.conn, "place = 'binder'")) == 1
        await desk.enter('"26f-0777-1"')
        assert "kept as written" in desk.answer


async def test_an_order_that_names_its_roll_ends_the_shelving_and_tells_its_sum(
    school: School,
) -> None:
    known = school.roll(filed(school))
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("nobody")
        await desk.enter(f"lend {known.number} Ms Novak")
        assert "1 sleeve shelved in binder 3" in desk.answer
    assert school.roll(known.id).place.kind == "out"


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


async def test_what_is_still_borrowed_is_counted_and_named_before_a_term_is_closed(
    school: School,
) -> None:
    lending.lend(school.file, school.hand(), filed(school), "friday", name="Ms Novak")
    lending.lend(school.file, school.hand(), filed(school, OLU, 5), "friday", person=IVO)
    async with archive(school.file.path) as desk:
        assert "Every roll is accounted for; 2 still borrowed: “close term”" in desk.page
        await desk.enter("close term")
        assert "2 rolls are still borrowed, by Ms Novak, Ivo Lindqvist" in desk.answer
        assert "end these loans first, or “reopen term 26F” when they come back" in desk.answer
        await desk.enter()
        assert "closed; 2 still borrowed" in desk.answer
        await desk.enter("term report")
        assert "Closed; 2 still borrowed" in desk.page
