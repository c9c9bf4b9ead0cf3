"""The screen Room: what it says, and that a screen of any size holds it."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from filmrack.acts import archiving, drying, hanging, refitting
from filmrack.desk.room.sections import SECTIONS
from filmrack.domain.roomfields import RULE_FIELDS
from filmrack.shipped import shipped
from filmrack.store.file import open_file
from tests.conftest import MARA, School, open_school
from tests.desk.at_desk import AtDesk, at_desk


async def read_all(desk: AtDesk) -> str:
    """Return all that Room shows, section by section, scrolled to the end of each."""
    await desk.say("room")
    await desk.press("home")
    seen = ""
    for _ in SECTIONS:
        await desk.press("right")
        for _ in range(6):
            seen += desk.shown
            await desk.press("pagedown")
        seen += desk.shown
        await desk.press("left", "down")
    return seen


async def test_room_says_what_the_room_is(db: Path) -> None:
    async with at_desk(db, size=(120, 34)) as desk:
        said = await read_all(desk)
        for words in (
            "08:56 to 09:46 now",
            "Period 1, 3 from the left",
            "for anyone, 2 from the left",
            "3 people",
            "No clip is known yet",
            str(db)[:40],
            "“filmrack room export FILE”",
            "does not keep anybody from the command line",
            "35 min   from the first pour",
            "1 08:00-08:50, 2 08:56-09:46",
        ):
            assert words in said, words


async def test_room_says_what_the_dryer_has_taught_and_what_is_wanted(db: Path) -> None:
    school = open_school(db)
    for clip in (17, 18):
        roll = hanging.hang(school.file, school.hand(ago=12), person=MARA, clip=clip).roll.id
        drying.touch(school.file, school.hand(ago=2), roll, dry=clip == 17)
    school.file.close()
    async with at_desk(db, size=(160, 40)) as desk:
        shown = " ".join((await read_all(desk)).split())
        assert "2 touch checks on 2 rolls, 1 of them tacky." in shown
        assert "8 more checked rolls and" in shown
        assert "2 of 2 on a roll now" in shown


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_every_row_can_be_reached(db: Path, size: tuple[int, int]) -> None:
    async with at_desk(db, size=size) as desk:
        said = await read_all(desk)
        for section in SECTIONS:
            assert section.title in said, section.title
        for words in ("fan minutes, flipped", "helpers sweep", "add a paper", "machine's own"):
            assert words in said, words


@pytest.mark.parametrize("word", ["[/x]", "🎞️ لون", "x" * 36])
async def test_names_of_any_kind_break_nothing(db: Path, word: str) -> None:
    school = open_school(db)
    room = school.file.room()
    renamed = tuple(period._replace(name=f"{word} {period.number}") for period in room.periods)
    refitting.refit(school.file, school.hand(), room._replace(periods=renamed, name=word))
    school.file.close()
    async with at_desk(db, size=(80, 24)) as desk:
        assert word[:10] in await read_all(desk)


async def test_a_backup_is_a_whole_file_beside_the_first(db: Path) -> None:
    async with at_desk(db) as desk:
        answer = await desk.say("backup")
        assert "Backup made" in answer
    copy = db.with_name("darkroom-2026-11-17-090000.db")
    with open_file(copy, write=False) as file:
        assert file.conn.execute("SELECT count(*) FROM people").fetchone()[0] == 3


async def test_two_backups_in_one_second_are_refused_in_words(db: Path) -> None:
    async with at_desk(db) as desk:
        await desk.say("backup")
        assert "exists already" in await desk.say("backup")


async def test_a_school_of_blocks_reads_of_blocks_and_can_type_either_word(tmp_path: Path) -> None:
    path = Path(shutil.copy(shipped("demo.db"), tmp_path / "demo.db"))
    async with at_desk(path) as here:
        here.app.face.go("room")
        for word in ("periods", "blocks"):
            await here.type(word)
            await here.press("enter")
            assert "Blocks, boxes" in here.screen
            assert "add a block …" in here.screen
            await here.press("escape", "escape")


async def test_on_a_small_screen_the_selected_row_is_explained_below(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as here:
        await here.say("room")
        await here.say("rules")
        await here.press("home")
        seen = ""
        for _ in RULE_FIELDS:
            seen += " ".join(row[18:].strip() for row in here.rows()) + " "
            await here.press("down")
        for field in RULE_FIELDS:
            assert f"{field.name}: {field.ask}" in seen or f"   {field.ask}" in seen, field.name
        rows = here.rows()
        await here.press("up")  # and no row moves for it
        assert [row[22:40] for row in rows[3:12]] == [row[22:40] for row in here.rows()[3:12]]


async def test_every_rule_is_explained_beside_its_value_at_eighty_columns(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as here:
        await here.say("room")
        await here.say("rules")
        rows = here.rows()
        for field in RULE_FIELDS:
            row = next(row for row in rows if f" {field.name} " in row)
            assert row.endswith(f"   {field.ask}"), row


async def test_where_rows_do_not_fit_it_says_how_many_are_below(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as here:
        await here.say("room")
        await here.say("days off")
        for day in range(1, 15):
            await here.say(f"day off {day} dec")
        await here.say("timetable")
        await here.say("days off")
        assert "more below" in here.screen
        await here.press("end")
        assert "more below" not in here.screen
    async with at_desk(db, size=(80, 50)) as here:
        await here.say("room")
        await here.say("days off")
        assert "more below" not in here.screen


async def test_a_binder_that_filing_made_is_in_the_list_at_once(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll
    archiving.sleeve(school.file, school.hand(), roll.id)
    async with at_desk(school.file.path, size=(80, 24)) as desk:
        await desk.say("room")
        await desk.say("binders")
        assert "binder 26F-04" not in desk.shown
        await desk.say(f"file {roll.number} 4")
        await desk.say("")  # without a contact sheet
        await desk.say("room")
        assert "binder 26F-04" in desk.shown


@pytest.mark.parametrize("section", ["rules", "drying record"])
async def test_that_flipping_is_learned_and_not_set_stands_where_it_is_looked_for(
    db: Path, section: str
) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await desk.say("room")
        await desk.say(section)
        shown = " ".join(desk.shown.split())
        assert "When to flip" in shown
        assert "touch" in shown.partition("When to flip")[2]
