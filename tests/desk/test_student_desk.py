"""A locked desk: every act, command, screen and scan that it takes, and all that it does not."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import archiving, hanging, refitting
from filmrack.acts.locking import set_passphrase
from filmrack.desk.registry import COMMANDS, ROOM_SECTIONS, SCREENS
from filmrack.domain.codes import action_code, clip_code, person_code, roll_code
from filmrack.domain.names import Person
from filmrack.store import people
from tests.conftest import IVO, MARA, OLU, School, open_school
from tests.desk.at_desk import at_desk

WORDS = "three dry clips"
TEACHERS_COMMANDS = [entry.words for entry in COMMANDS if entry.teacher]
TEACHERS_SCREENS = [entry.title for entry in SCREENS if entry.teacher]


@pytest.fixture
def locked(db: Path) -> Path:
    """Mara's roll hangs on clip 17 for twenty minutes, Ivo's is in its sleeve."""
    school = open_school(db)
    hanging.hang(school.file, school.hand(ago=20), person=MARA, clip=17)
    ivos = hanging.hang(school.file, school.hand(ago=500), person=IVO, clip=18).roll.id
    archiving.sleeve(school.file, school.hand(ago=400), ivos)
    set_passphrase(school.file, WORDS, None, school.now)
    school.file.close()
    return db


def with_helpers(db: Path) -> Path:
    school = open_school(db)
    room = school.file.room()
    changed = room._replace(rules=room.rules._replace(helpers_sweep=True))
    refitting.refit(school.file, school.hand(), changed)
    school.file.close()
    return db


def story(db: Path) -> list[str]:
    school: School = open_school(db)
    acts = [row[0] for row in school.file.conn.execute("SELECT act FROM ledger ORDER BY id")]
    school.file.close()
    return acts


async def test_a_room_without_a_passphrase_has_the_teachers_desk(db: Path) -> None:
    async with at_desk(db) as desk:
        assert desk.app.teacher
        assert "no passphrase is set" in await desk.say("teacher")


async def test_with_a_passphrase_a_desk_starts_as_a_student_desk(locked: Path) -> None:
    async with at_desk(locked) as desk:
        assert not desk.app.teacher


@pytest.mark.parametrize(
    ("lines", "act"),
    [
        (["30 olu"], "load"),
        ([person_code(OLU), clip_code(30, "A")], "load"),
        (["30 olu", ""], "hang"),
        (["31", "rod 3"], "hang"),
        (["17 rod 3"], "move"),
        (["17 flip"], "flip"),
        (["31", "rod 1", "rod 1 flip"], "flip"),
        ([clip_code(17, "B"), action_code("FLIP")], "flip"),
        (["17 dry"], "touch"),
        (["17 tacky"], "touch"),
        (["17 take"], "take"),
        (["17 flip", "undo"], "undo"),
        (["17 flip", "17 undo"], "undo"),
    ],
)
async def test_a_student_desk_takes(locked: Path, lines: list[str], act: str) -> None:
    before = len(story(locked))
    async with at_desk(locked) as desk:
        for line in lines:
            await desk.say(line)
    assert act in story(locked)[before:]


@pytest.mark.parametrize(
    "lines",
    [
        ["17 box"],
        [clip_code(17, "A"), action_code("BOX")],
        ["17", "box 1"],
        ["rod 1 box"],
        ["fan"],
        ["fan off"],
        [action_code("FAN")],
        ["undo"],
        ["17 undo"],
        ["binder 3"],
        ["17 binder 3"],
    ],
)
async def test_a_student_desk_refuses_and_changes_nothing(locked: Path, lines: list[str]) -> None:
    before = story(locked)
    async with at_desk(locked) as desk:
        for line in lines:
            answer = await desk.say(line)
    assert any(why in answer for why in ("teacher", "Scan the clip", "nothing to take back"))
    assert story(locked) == before


async def test_an_unknown_roll_is_taken_and_claimed_by_nobody_there(locked: Path) -> None:
    async with at_desk(locked) as desk:
        await desk.say("31")
        await desk.say("rod 3")
        before = story(locked)
        assert "ask the teacher" in await desk.say("31 take")
        assert "ask the teacher" in await desk.say("31 olu")
        assert story(locked) == before


@pytest.mark.parametrize("command", TEACHERS_COMMANDS)
async def test_a_teachers_command_does_nothing_there(locked: Path, command: str) -> None:
    before = story(locked)
    async with at_desk(locked) as desk:
        await desk.say(command)
        assert desk.app.is_running
        assert desk.app.question is None
        assert not desk.app.teacher
    assert story(locked) == before
    assert len(list(locked.parent.glob("darkroom-*.db"))) == 0


@pytest.mark.parametrize("title", TEACHERS_SCREENS)
async def test_a_teachers_screen_is_not_shown_there(locked: Path, title: str) -> None:
    async with at_desk(locked) as desk:
        await desk.say(title)
        assert desk.open in ("dryer", "board")


async def test_tab_goes_between_board_and_dryer_alone(locked: Path) -> None:
    async with at_desk(locked) as desk:
        seen = []
        for key in ("tab", "tab", "tab", "shift+tab"):
            await desk.press(key)
            seen.append(desk.open)
        assert set(seen) == {"board", "dryer"}


@pytest.mark.parametrize("key", ["ctrl+q", "ctrl+c"])
async def test_a_student_desk_is_not_left(locked: Path, key: str) -> None:
    async with at_desk(locked) as desk:
        await desk.press(key)
        assert desk.app.is_running
        assert "is not left" in desk.answer


async def test_enter_on_a_dry_roll_boxes_nothing_and_says_what_to_type(locked: Path) -> None:
    async with at_desk(locked) as desk:
        await desk.say("17 dry")
        await desk.wait(seconds=15)
        await desk.press("enter")
        assert "type “take”" in desk.answer
    assert "box" not in story(locked)


@pytest.mark.parametrize("word", ["found", "file", "lend", "discard"])
async def test_a_teachers_word_behind_a_clip_is_no_name_there(locked: Path, word: str) -> None:
    async with at_desk(locked) as desk:
        said = await desk.say(f"17 {word}")
        assert f"“{word}” is the teacher's: ask the teacher" in said
        assert "nobody here is called “zzz”" in await desk.say("17 zzz")


@pytest.mark.parametrize("line", ["26F-0002", roll_code("26F", 2), "0002"])
async def test_the_archive_is_closed_also_to_a_scan(locked: Path, line: str) -> None:
    async with at_desk(locked) as desk:
        assert "archive is the teacher's" in await desk.say(line)
        await desk.paste("ivo")
        assert "sleeve" not in desk.shown


@pytest.mark.parametrize("name", ["ivo", "olu"])
async def test_who_has_nothing_on_its_way_is_sent_to_the_teacher_whatever_is_filed(
    locked: Path, name: str
) -> None:
    """Ivo's roll is in its sleeve, Olu has none: anybody may type their names."""
    async with at_desk(locked) as desk:
        said = await desk.say(name)
        assert "None of theirs is in the dryer or a box" in said
        assert "the teacher finds what is sleeved" in said
        assert "0002" not in desk.shown
        await desk.press("escape")
        assert "the teacher finds" not in await desk.say("mar")
        assert "the teacher finds" not in await desk.say(person_code(IVO))


async def test_names_are_given_name_and_initial_and_twins_have_their_number(locked: Path) -> None:
    school = open_school(locked)
    with school.file.writing() as conn:
        twin = people.add(conn, Person(0, "Olu", "Adeleke"))
        people.enrol(conn, twin, "26F", 2)
    school.file.close()
    async with at_desk(locked) as desk:
        answer = await desk.say("30 olu")
        assert "Olu A. (person 2)" in answer
        assert f"Olu A. (person {twin})" in answer
        assert "Adeyemi" not in answer
        for text in ("mar", "okafor", "lindqvist", "olu"):
            await desk.paste(text)
            assert not {"Okafor", "Adeyemi", "Adeleke", "Lindqvist"} & set(desk.shown.split())
            await desk.press("escape")


async def test_one_letter_lists_nobody(locked: Path) -> None:
    async with at_desk(locked) as desk:
        await desk.paste("m")
        assert "Mara" not in "\n".join(str(hit) for hit in desk.app.query_one("#hits").hits)
        await desk.press("escape")
        await desk.paste("mar")
        assert "Mara O." in desk.shown


async def test_the_passphrase_unlocks_and_is_not_shown(locked: Path) -> None:
    async with at_desk(locked) as desk:
        await desk.say("teacher")
        await desk.paste(WORDS)
        assert WORDS not in desk.shown
        assert "•" * len(WORDS) in desk.shown
        await desk.press("enter")
        assert desk.app.teacher
        assert "in box 1" in await desk.say("17 box")
        await desk.say("lock")
        assert not desk.app.teacher
        assert "not for a student desk" in await desk.say("fan")


async def test_a_wrong_passphrase_is_asked_again_and_three_are_slowed(locked: Path) -> None:
    async with at_desk(locked) as desk:
        await desk.say("teacher")
        for _ in range(3):
            assert "not the passphrase" in await desk.say("guess")
        assert "wait 5 s" in await desk.say(WORDS)
        await desk.wait(seconds=6)
        await desk.say(WORDS)
        assert desk.app.teacher


async def test_an_idle_teachers_desk_locks_itself_and_leaves_its_screen(locked: Path) -> None:
    async with at_desk(locked) as desk:
        await desk.say("teacher")
        await desk.say(WORDS)
        await desk.say("room")
        assert desk.open == "room"
        await desk.wait(minutes=4)
        assert desk.app.teacher
        await desk.press("down")
        await desk.wait(minutes=4)
        assert desk.app.teacher
        await desk.wait(minutes=1.5)
        await desk.pilot.pause()
        assert not desk.app.teacher
        assert desk.open == "dryer"
        assert "locked" in desk.answer


async def test_a_passphrase_set_at_another_desk_locks_this_one(db: Path) -> None:
    async with at_desk(db) as desk:
        assert desk.app.teacher
        school = open_school(db)
        set_passphrase(school.file, WORDS, None, school.now)
        school.file.close()
        await desk.wait(seconds=1)
        assert not desk.app.teacher


async def test_a_passphrase_is_set_and_removed_from_the_line(db: Path) -> None:
    async with at_desk(db) as desk:
        await desk.say("passphrase")
        await desk.say(WORDS)
        assert "not the same" in await desk.say("something else")
        said = await desk.say(WORDS)
        assert "student desk now; this one stays the teacher's until you type “lock”" in said
        assert said.endswith("or leave it alone for 5 min")
        assert desk.app.teacher
        await desk.say("no passphrase")
        assert "every desk is the teacher's" in await desk.say(WORDS)
        assert "no passphrase" in await desk.say("lock")


async def test_helpers_sweep_and_box_where_the_room_says_so_but_do_no_more(locked: Path) -> None:
    async with at_desk(with_helpers(locked)) as desk:
        assert not desk.app.teacher
        assert "in box 1" in await desk.say("17 box")
        assert "not for a student desk" in await desk.say("fan")
        await desk.say("room")
        assert desk.open in ("board", "dryer", "boxes")


@pytest.mark.parametrize("by", ["student desk", "helper desk"])
@pytest.mark.parametrize(
    "line",
    [
        *[entry.words for entry in (*COMMANDS, *ROOM_SECTIONS) if entry.teacher],
        *[entry.title for entry in SCREENS if entry.teacher],
        "labels clips 1-3",
        "print sleeves 0142",
        "return 0191",
        "26F-0002 lend olu",
        "shelve 3",
        "close term 26F",
    ],
)
async def test_a_line_of_the_teachers_is_said_to_be_the_teachers(
    locked: Path, by: str, line: str
) -> None:
    path = with_helpers(locked) if by == "helper desk" else locked
    sweeps = ("boxes", "sweep")
    if by == "helper desk" and line.casefold() in sweeps:
        return
    before = story(path)
    async with at_desk(path) as desk:
        await desk.paste(line)
        assert "Nothing is called" not in desk.shown
        desk.ticks += 5
        await desk.press("enter")
        assert "teacher" in desk.answer, desk.answer
        assert "othing is called" not in desk.answer
        assert desk.open in ("board", "dryer")
    assert story(path) == before


async def test_who_is_called_like_a_teachers_word_is_found_there_too(locked: Path) -> None:
    school = open_school(locked)
    with school.file.writing() as conn:
        number = people.add(conn, Person(0, "Archive", "Weber"))
        people.enrol(conn, number, "26F", 1)
    hanging.hang(school.file, school.hand(), person=number, clip=30)
    school.file.close()
    async with at_desk(locked) as desk:
        assert "30 → Archive W." in await desk.say("archive")
