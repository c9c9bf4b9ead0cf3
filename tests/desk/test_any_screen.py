"""Words of the archive on any screen: said of a clip, or of the roll that is selected."""

from __future__ import annotations

import pytest

from filmrack.acts import locking
from filmrack.desk.registry import ROOM_SECTIONS
from filmrack.desk.room.sections import section_called
from filmrack.domain.names import Person
from filmrack.store import people
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import at_desk


@pytest.mark.parametrize("line", ["15 sleeve", "15 cut", "clip 15 cut and sleeve", "15 sleeve 36"])
@pytest.mark.parametrize("screen", ["boxes", "dryer", "board", "labels", "archive"])
async def test_a_roll_is_cut_by_its_clip_on_any_screen(
    school: School, line: str, screen: str
) -> None:
    roll = school.boxed(MARA, 15)
    async with at_desk(school.file.path) as desk:
        await desk.say(screen)
        assert "sleeve" in await desk.say(line)
    assert school.roll(roll).place.kind == "sleeve"


async def test_who_cuts_at_the_boxes_stays_there(school: School) -> None:
    school.boxed(MARA, 15)
    school.boxed(OLU, 5)
    async with at_desk(school.file.path) as desk:
        await desk.say("boxes")
        await desk.say("15 cut")
        assert desk.open == "boxes"
        await desk.press("tab")
        assert desk.open == "sweep"


@pytest.mark.parametrize(
    ("line", "place"), [("15 missing", "missing"), ("15 discard blank film", "discarded")]
)
async def test_other_words_take_the_clip_first_too(school: School, line: str, place: str) -> None:
    roll = school.boxed(MARA, 15)
    async with at_desk(school.file.path) as desk:
        await desk.say(line)
    assert school.roll(roll).place.kind == place


async def test_a_word_alone_is_for_the_roll_that_is_selected(school: School) -> None:
    roll = school.boxed(MARA, 15)
    async with at_desk(school.file.path) as desk:
        await desk.say("boxes")
        await desk.paste("sleeve")
        assert "Nothing is called" not in desk.shown
        await desk.press("enter")
        assert "sleeve" in desk.answer
        assert desk.open == "boxes"
        assert school.roll(roll).place.kind == "sleeve"
        await desk.say("board")
        assert "sleeve what? Select a roll, or name it: “17 sleeve”" in await desk.say("sleeve")
        assert "lend what? Select a roll, or name it: “26F-0142 lend juniper”" in await desk.say(
            "lend"
        )


async def test_a_number_behind_the_word_is_no_guess(school: School) -> None:
    roll = school.boxed(MARA, 15)
    async with at_desk(school.file.path) as desk:
        await desk.say("boxes")
        said = await desk.say("sleeve 15")
        assert "15 → Mara O." in said
        assert "Enter: it is cut and sleeved" in said
    assert school.roll(roll).place.kind == "box"


async def test_whoever_is_called_like_a_word_is_found_first(school: School) -> None:
    roll = school.boxed(MARA, 15)
    with school.file.writing() as conn:
        people.add(conn, Person(0, "Note", "Hale"))
    async with at_desk(school.file.path) as desk:
        await desk.say("boxes")
        assert "Note H." in await desk.say("note")
    assert school.roll(roll).place.kind == "box"


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("days off", "Days off"),
        ("timetable", "day letters"),
        ("lunch", "day letters"),
        ("rules", "loan"),
        ("people", "add a person"),
        ("clips", "clip"),
        ("film", "135-36"),
        ("time zone", "America/Chicago"),
        ("today", "now"),
    ],
)
async def test_a_section_of_room_opens_from_every_screen(
    school: School, typed: str, shown: str
) -> None:
    async with at_desk(school.file.path) as desk:
        await desk.say(typed)
        assert desk.open == "room"
        assert shown in desk.screen


def test_every_section_that_is_offered_is_there(school: School) -> None:
    names = [name for entry in ROOM_SECTIONS for name in entry.names]
    lost = [name for name in names if section_called(name, school.file.room()) is None]
    assert lost == []


async def test_a_word_of_another_screen_opens_no_section_of_room(school: School) -> None:
    async with at_desk(school.file.path) as desk:
        await desk.say("rods")
        assert desk.open == "dryer"
        await desk.say("binders")
        assert desk.open == "archive"


async def test_a_student_desk_is_offered_no_section_of_room(school: School) -> None:
    locking.set_passphrase(school.file, "three dry words", None, school.now)
    async with at_desk(school.file.path) as desk:
        await desk.say("people")
        assert desk.open == "dryer"
