"""On the screen Room the words that stand on its rows are found by typing them."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.store import people
from filmrack.store.file import open_file
from tests.desk.at_desk import AtDesk, at_desk
from tests.desk.room.at_room import exported, select, to_row


async def in_room(desk: AtDesk) -> None:
    await desk.say("room")
    await desk.wait()


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("loan", "A loan?"),
        ("a loan", "A loan?"),
        ("loa", "A loan?"),
        ("names are kept", "Names are kept?"),
        ("loan 15", "A loan: 10 school days → 15 school days?. Nothing is changed yet"),
        ("set developing 40", "Developing: 35 min → 40 min?. Nothing is changed yet"),
        ("rename Period 2 First hour", "Period 2, name: Period 2 → First hour?"),
        ("Period 2 First hour", "Period 2, name: Period 2 → First hour?"),
        ("change rod 1 positions 12", "Rod 1, positions: 3 → 12?"),
        ("add a person", "A new person, 1 of 5: given name?"),
        ("add person", "A new person, 1 of 5: given name?"),
        ("add clips", "Which clip"),
        ("add a rod", "A new rod: number?"),
        ("take in a roster", "Which roster?"),
    ],
)
async def test_what_stands_on_a_row_opens_its_question(db: Path, line: str, asked: str) -> None:
    before = exported(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await in_room(desk)
        await desk.type(line)
        assert desk.app.face.over == ""
        await desk.press("enter")
        assert asked in desk.answer, desk.answer
    assert exported(db) == before


async def test_what_is_typed_behind_an_adding_rows_words_stands_in_its_question(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await in_room(desk)
        await desk.say("add clips 161-180")
        assert desk.line.text == "161-180"
        await desk.press("enter")
        assert "Wrong? Type “undo”" in desk.answer


async def test_a_term_typed_in_room_opens_it(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await in_room(desk)
        await desk.say("term 26F")
        assert "first day" in desk.screen
        assert desk.open == "room"


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("add", "can be several rows: type one of them whole: add a plan, add a day off"),
        ("add Lena Brook", "says not what is to be added: type “add a person”"),
        ("rename the big one Upstairs", "select the row, and press Enter"),
        ("rename rod", "can be several rows: type one of them whole: rod 1, rod 2"),
    ],
)
async def test_a_line_that_names_no_row_says_what_to_select(db: Path, line: str, why: str) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await in_room(desk)
        assert why in await desk.say(line)


async def test_a_name_still_finds_and_only_a_whole_word_of_a_row_comes_before_it(db: Path) -> None:
    with open_file(db, write=True) as file, file.writing() as conn:
        one = people.read_people(conn, [1])[1]
        number = people.add(
            conn, one._replace(given="Loan", family="Develo", called=None, school_id=None)
        )
        people.enrol(conn, number, "26F", 1)
    async with at_desk(db, size=(80, 24)) as desk:
        await in_room(desk)
        assert "A loan?" in await desk.say("loan")
        await desk.press("escape")
        await desk.say("develo")
        assert "Developing" not in desk.answer
        assert "Loan D." in desk.answer
        assert "unknown roll, hung on rod 3, position 1" in await desk.say("17 rod 3")
        assert "hangs on rod 3, position 1 already" in await desk.say("rod 3")
        assert await desk.say("days off") == ""
        assert "Enter: add a day off; ← goes back" in desk.screen
        assert "Clip 17. A has no hook" in await desk.say("clip 17 hook A lost")


async def test_a_name_typed_at_a_name_is_asked_about_and_one_that_opens_something_says_so(
    db: Path,
) -> None:
    before = exported(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "periods", "Period 2")
        await desk.press("enter")
        await select(desk, "name")
        assert "Period 2 → First hour?. Nothing is changed yet" in await desk.say("First hour")
        await desk.press("escape")
        assert exported(db) == before
        await desk.press("enter", "ctrl+u")
        said = await desk.say("drying record")
        assert "Nothing is changed yet. “drying record” typed alone opens drying record" in said
        await desk.press("escape")
    assert exported(db) == before


async def test_scrolling_is_offered_only_where_there_is_more_than_is_seen(db: Path) -> None:
    async with at_desk(db, size=(120, 60)) as desk:
        await in_room(desk)
        await desk.say("student desk")
        await desk.wait()
        assert "← goes back; backup" in desk.screen
        assert "scroll" not in desk.screen
