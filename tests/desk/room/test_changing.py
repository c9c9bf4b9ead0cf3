"""Changing the room at the desk: asked about before, whole or not at all, taken back by undo."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts.group import Hand
from filmrack.acts.hanging import hang
from filmrack.acts.locking import set_passphrase
from filmrack.acts.refitting import change_room, refit
from filmrack.desk.room.view import RoomView
from filmrack.domain.codes import clip_code
from filmrack.domain.refusal import Refused
from filmrack.store.file import open_file
from tests.conftest import IVO, TUESDAY_9_00, open_school
from tests.desk.at_desk import at_desk
from tests.desk.room.at_room import exported, select, sure, to_row


async def test_a_renamed_period_keeps_its_rod_box_and_classes(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "periods", "Period 2")
        await desk.press("enter")
        await select(desk, "name")
        await desk.press("enter", "ctrl+u")
        await desk.say("Evening class")
        assert "Period 2 → Evening class?. Nothing is changed yet" in desk.answer
        assert 'name = "Period 2"' in exported(db)
        await desk.press("enter")
    text = exported(db)
    assert 'number = 2, name = "Evening class"' in text
    assert '"Evening class 08:56-09:46"' in text
    assert '{ number = 2, period = "Evening class"}' in text


async def test_a_mistake_is_named_in_words_and_changes_nothing(db: Path) -> None:
    before = exported(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "rods", "rod 2")
        await desk.press("enter")
        await select(desk, "positions")
        assert "rod 2, positions: give a whole number from 1 to 99" in await desk.say("1000")
        await to_row(desk, "rules", "developing")
        assert "process_minutes: give a number from 1 to 600" in await desk.say("0")
        await to_row(desk, "timetable", "Monday")
        assert "falls into 2" in await desk.say("1 8:00-8:50, 2 11:00-12:00, lunch 11:30-12:10")
        assert "one of the periods" in await desk.say("9 8:00-8:50")
    assert exported(db) == before


async def test_a_rod_with_film_neither_goes_nor_shrinks(db: Path) -> None:
    school = open_school(db)
    numbers = [
        hang(school.file, school.hand(), person=IVO, clip=clip, rod=2).roll.number
        for clip in (5, 6, 7)
    ]
    school.file.close()
    before = exported(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "rods", "rod 2")
        refused = await desk.say("remove")
        for number in numbers:
            assert number in refused
        await desk.press("enter")
        await select(desk, "positions")
        assert numbers[2] in await sure(desk, "2")
        await desk.press("escape")
        await to_row(desk, "periods", "Period 2")
        assert "not sleeved yet" in await desk.say("remove")
    assert exported(db) == before


async def test_undo_gives_the_room_back_unless_it_was_changed_again(db: Path) -> None:
    before = exported(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "rules", "developing")
        await sure(desk, "40")
        assert "developing: 35 min again, it was 40 min" in await desk.say("undo")
        assert exported(db) == before
        await sure(desk, "41")
        with open_file(db, write=True) as other:
            room = other.room()
            refit(other, Hand(TUESDAY_9_00, TUESDAY_9_00), room._replace(name="Elsewhere"))
        assert "changed again since" in await desk.say("undo")
    assert "process_minutes = 41" in exported(db)


async def test_escape_leaves_a_form_and_nothing_is_half_done(db: Path) -> None:
    before = exported(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "rods", "add a rod …")
        await desk.press("enter", "enter", "enter")  # its number and its dryer, the usual ones
        assert "positions" in desk.answer
        assert "give a whole number from 1 to 99, or press Esc" in await desk.say("0")
        await desk.press("escape")
        assert desk.app.question is None
    assert exported(db) == before


async def test_a_section_and_a_row_can_be_clicked(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await desk.say("room")
        rules = next(n for n, line in enumerate(desk.app.view._lines) if "Rules" in line.plain)
        await desk.pilot.click(RoomView, offset=(6, rules))
        await desk.wait(seconds=1)
        desk.ticks += 5
        row = next(n for n, line in enumerate(desk.app.view._lines) if "35 min" in line.plain)
        await desk.pilot.click(RoomView, offset=(30, row), times=2)
        await desk.pilot.pause()
        assert "Developing?" in desk.answer
        assert "40 min" in await desk.say("40")


async def test_a_student_desk_changes_nothing_of_the_room(db: Path) -> None:
    school = open_school(db)
    set_passphrase(school.file, "three good words", None, school.now)
    school.file.close()
    before = exported(db)
    async with at_desk(db) as desk:
        await desk.say("room")
        assert desk.open != "room"
        assert "teacher" in await desk.say("clip 17 hook A lost")
        # Even with the screen in sight, by whatever way, nothing is changed there.
        desk.app.face.go("room")
        view = desk.app.view
        assert isinstance(view, RoomView)
        for word in ("rules", "remove", "40"):
            with pytest.raises(Refused, match="teacher"):
                view.take(word)
        with pytest.raises(Refused, match="teacher"):
            view.enter()
        hand = Hand(TUESDAY_9_00, TUESDAY_9_00, "desk", "student desk")
        with pytest.raises(Refused, match="not for a student desk"):
            change_room(desk.app.session.file, hand, lambda room: room._replace(name="Mine"))
    assert exported(db) == before


async def test_an_empty_binder_is_removed_and_undo_brings_it_back(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "binders", "add a binder …")
        await desk.press("enter", "enter", "enter", "enter")
        await select(desk, "binder 26F-01")
        assert "Binder 26F-01. removed" in await desk.say("remove")
        assert "▸ add a binder" in desk.screen
        assert "binder 26F-01 is there again" in await desk.say("undo")
        await select(desk, "binder 26F-01")


@pytest.mark.parametrize("ending", ["escape", "no", "17 mar", "scan", "down", "click"])
async def test_a_number_typed_at_a_rule_changes_it_only_with_one_more_enter(
    db: Path, ending: str
) -> None:
    school = open_school(db)
    hang(school.file, school.hand(), person=IVO, clip=17, rod=2)
    school.file.close()
    before = exported(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "rules", "developing")
        assert "Developing: 35 min → 17 min?. Nothing is changed yet" in await desk.say("17")
        assert "Enter: change it; Esc: leave it at 35 min" in desk.screen
        match ending:
            case "escape" | "down":
                await desk.press(ending)
            case "scan":
                await desk.scan(clip_code(17, "A"))
                assert "17 → Ivo" in desk.answer
            case "click":
                await desk.pilot.click(RoomView, offset=(30, 4))
                await desk.pilot.pause()
            case _:
                await desk.say(ending)
        await desk.press("escape")
        assert desk.app.question is None
    assert exported(db) == before


async def test_a_scanned_clip_is_no_name_of_anything(db: Path) -> None:
    before = exported(db)
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "this room", "name")
        await desk.press("enter", "ctrl+u")
        await desk.scan(clip_code(17, "A"))
        assert "is the code of something, not a setting" in desk.answer
        await desk.press("escape")
        await to_row(desk, "periods", "add a period …")
        await desk.press("enter", "enter")
        await desk.scan(clip_code(17, "A"))
        assert "not a setting" in desk.answer
    assert exported(db) == before


async def test_a_question_of_a_row_is_let_go_when_another_row_is_selected(db: Path) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "this room", "name")
        await desk.press("enter")
        assert desk.line.text == "Darkroom"
        await desk.press("down")
        assert desk.app.question is None
        assert desk.line.text == ""
        assert "“Name?” is left unanswered" in desk.answer
        await to_row(desk, "rods", "add a rod …")
        await desk.press("enter", "enter", "up")  # also behind the first answer of a new entry
        assert desk.app.question is None
        assert "is left unanswered" in desk.answer


async def test_what_is_typed_into_a_value_replaces_it_and_who_moves_in_it_changes_it(
    db: Path,
) -> None:
    async with at_desk(db, size=(80, 24)) as desk:
        await to_row(desk, "periods", "Period 2")
        await desk.press("enter")
        await select(desk, "name")
        await desk.press("enter")
        assert desk.line.text == "Period 2"
        assert "Typing replaces it, ← and → move in it, Esc goes back" in desk.answer
        await desk.type("First hour")
        assert desk.line.text == "First hour"
        await desk.press("enter", "enter")
        assert "First hour" in desk.answer
        await select(desk, "name")
        await desk.press("enter", "end", "backspace")
        await desk.type("rs")
        assert desk.line.text == "First hours"
        await desk.press("enter", "enter")
    assert 'number = 2, name = "First hours"' in exported(db)


@pytest.mark.parametrize(("section", "entry"), [("rods", "rod 3"), ("people", "Mara Okafor")])
async def test_a_room_of_blocks_is_asked_for_a_block(db: Path, section: str, entry: str) -> None:
    with open_file(db, write=True) as file:
        hand = Hand(TUESDAY_9_00, TUESDAY_9_00, "desk 1")
        change_room(file, hand, lambda room: room._replace(period_word="block"))
    async with at_desk(db) as desk:
        await to_row(desk, section, entry)
        await desk.press("enter")
        await select(desk, "block")
        await desk.press("enter")
        assert desk.app.question is not None
        assert desk.app.question.prompt.startswith("a block")
