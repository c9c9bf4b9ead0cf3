"""Old sleeves shelved one after the other, whose each is, and terms that are opened for them."""

from __future__ import annotations

from datetime import date

from filmrack.domain.names import Person
from filmrack.domain.roll import Place
from filmrack.store import labelling, people, rolls
from tests.conftest import MARA, School
from tests.desk.archive.sleeves import archive, filed, scan_of, sleeved


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
        assert "“ada” can be" in desk.answer
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


async def test_somebodys_sleeve_that_waits_to_be_filed_is_asked_about_before_it_is_shelved_twice(
    school: School,
) -> None:
    waits = school.roll(sleeved(school, MARA, 17))
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("mara okafor")
        assert f"Is it {waits.number}?" in desk.answer
        assert rolls.read(school.file.conn, "place = 'binder'") == []
        await desk.enter("olu adeyemi")
        assert "Olu Adeyemi: in binder 3" in desk.answer
        await desk.enter("mara")
        await desk.enter(str(waits.serial))
        assert f"{waits.number} → Mara Okafor. filed in binder 3" in desk.answer
        assert school.roll(waits.id).place == Place("binder", 3)
        await desk.enter("undo")
        assert school.roll(waits.id).place.kind == "sleeve"
        await desk.enter("mara")
        await desk.scan(scan_of(school, waits.id))
        await desk.press("escape")
        assert "2 sleeves shelved in binder 3" in desk.answer
    assert school.roll(waits.id).place == Place("binder", 3)


async def test_who_has_said_that_it_is_another_old_sleeve_is_not_asked_again(
    school: School,
) -> None:
    first, second = (school.roll(sleeved(school, MARA, clip)) for clip in (17, 18))
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("mara okafor")
        assert f"Is it one of {second.number}, {first.number}?" in desk.answer
        await desk.enter()
        assert "Mara Okafor: in binder 3" in desk.answer
        await desk.enter("mara okafor")
        assert "Mara Okafor: in binder 3" in desk.answer
    assert len(rolls.read(school.file.conn, "place = 'binder'")) == 2


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


async def test_shelving_says_its_term_and_how_another_one_is_meant(school: School) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        assert "binder 3 of 26F: whose is the next sleeve?" in desk.line.hint
        assert "Another term: Esc, then “shelve 25F 3”" in desk.answer
        await desk.press("escape")
        await desk.enter("shelve 26F 3")
        assert "Another term" not in desk.answer


async def test_an_order_that_names_its_roll_ends_the_shelving_and_tells_its_sum(
    school: School,
) -> None:
    known = school.roll(filed(school))
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("nobody")
        await desk.enter(f"lend {known.number} Ms Novak")
        assert "1 sleeve shelved in binder 3" in desk.answer
        await desk.enter()
    assert school.roll(known.id).place.kind == "out"


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
