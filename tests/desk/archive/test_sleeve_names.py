"""What is typed for whose an old sleeve is, and is no name: orders, numbers, words for the end."""

from __future__ import annotations

import pytest

from filmrack.domain.names import Person
from filmrack.store import people, rolls
from tests.conftest import School
from tests.desk.archive.sleeves import archive, filed


async def test_a_word_that_means_something_else_is_no_owner_by_a_slip(school: School) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        for word, what in (
            ("help", "an order"),
            ("dryer", "the name of a screen"),
            ("2019", "a number"),
            ("rod 3", "a number or a place"),
            ("lend", "an order"),
            ("flip", "an order"),
            ("label", "an order"),
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


@pytest.mark.parametrize("typed", ["help shelve", "file all", "lend a hand", "find olu"])
async def test_a_line_that_begins_with_a_word_of_the_desk_is_no_owner_unless_it_is_quoted(
    school: School, typed: str
) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter(typed)
        assert f"“{typed}” is taken for no name" in desk.answer
        assert rolls.read(school.file.conn, "place = 'binder'") == []
        await desk.enter(f'"{typed}"')
        assert f"“{typed}”, kept as written" in desk.answer


async def test_whoever_is_called_like_a_word_for_the_return_of_film_owns_a_sleeve(
    school: School,
) -> None:
    async with archive(school.file.path) as desk:
        await desk.enter("shelve 3")
        await desk.enter("back, ida")
        assert "“back, ida”, kept as written" in desk.answer


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
