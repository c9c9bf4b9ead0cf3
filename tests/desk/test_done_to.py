"""A verb with a name or alone: Enter does it, not the next step; and names that are only near."""

from __future__ import annotations

import pytest

from filmrack.acts import drying, hanging, locking
from filmrack.domain.names import Person
from filmrack.store import people
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.at_desk import at_desk


def dry(school: School, person: int = MARA, clip: int = 17) -> int:
    roll = hanging.hang(school.file, school.hand(60), person=person, clip=clip).roll.id
    drying.touch(school.file, school.hand(1), roll, dry=True)
    return roll


@pytest.mark.parametrize("line", ["take mar", "mar take", "take okafor"])
async def test_a_verb_with_a_name_is_what_enter_does(school: School, line: str) -> None:
    roll = dry(school)
    async with at_desk(school.file.path) as here:
        said = await here.say(line)
        assert "17 → Mara O." in said
        assert "Enter: it is with its owner" in said
        assert "enter it is with its owner" in here.rows()[-1]
        assert "Enter  it is with its owner" in here.screen
        assert school.roll(roll).place.kind == "rod"
        await here.press("enter")
    assert school.roll(roll).place.kind == "owner"


@pytest.mark.parametrize("line", ["mara", "17"])
async def test_who_reads_a_while_what_was_found_still_takes_it_by_one_word(
    school: School, line: str
) -> None:
    roll = dry(school)
    dry(school, OLU, 18)
    async with at_desk(school.file.path) as here:
        await here.say(line)
        await here.wait(seconds=40)
        assert "with its owner" in await here.say("take")
        assert school.roll(roll).place.kind == "owner"


@pytest.mark.parametrize("seconds", [1, 40])
async def test_a_touch_of_who_was_found_is_asked_for_however_long_the_card_is_read(
    school: School, seconds: int
) -> None:
    dry(school)
    async with at_desk(school.file.path) as here:
        await here.say("mara")
        await here.wait(seconds=seconds)
        await here.say("touch")
        assert here.app.question is not None
        assert "dry or tacky" in here.line.hint


async def test_a_verb_alone_asks_about_a_roll_that_an_arrow_marked_or_was_named_long_ago(
    school: School,
) -> None:
    roll, other = dry(school), dry(school, OLU, 18)
    async with at_desk(school.file.path) as here:
        await here.say("mara")
        await here.wait(seconds=61)
        assert "Enter: it is with its owner" in await here.say("take")
        await here.press("escape", "right", "left")
        assert "Enter: it is with its owner" in await here.say("take")
        assert [school.roll(each).place.kind for each in (roll, other)] == ["rod", "rod"]


async def test_a_verb_that_is_forgotten_leaves_enter_at_rest(school: School) -> None:
    roll = dry(school)
    async with at_desk(school.file.path) as here:
        await here.say("take mar")
        await here.wait(seconds=11)
        await here.press("enter")
    assert school.roll(roll).place.kind == "rod"


async def test_a_verb_means_the_roll_that_it_can_be_done_to(school: School) -> None:
    roll = dry(school)
    hanging.load(school.file, school.hand(), MARA, [18])
    async with at_desk(school.file.path) as here:
        assert "Enter: it is dry at both ends" in await here.say("mar dry")
        assert here.app.view.selected == roll


@pytest.mark.parametrize("line", ["take mara", "Mara take", "take Mara Okafor", "okafor mara take"])
@pytest.mark.parametrize("by", ["teacher", "student"])
async def test_a_whole_name_with_one_roll_that_the_verb_fits_is_as_sure_as_its_clip(
    school: School, line: str, by: str
) -> None:
    roll = dry(school)
    if by == "student":
        locking.set_passphrase(school.file, "red lamp at noon", None, school.now)
    async with at_desk(school.file.path) as here:
        said = await here.say(line)
        assert "17 → Mara O." in said
        assert "Wrong? Type “undo”" in said
        assert school.roll(roll).place.kind == "owner"
        await here.press("enter")
        assert here.acts[-1] == "take"


async def test_a_whole_name_is_asked_about_where_another_person_or_roll_could_be_meant(
    school: School,
) -> None:
    roll = dry(school)
    with school.file.writing() as conn:
        people.add(conn, Person(0, "Margaret", "Ode", "Mara"))
    async with at_desk(school.file.path) as here:
        assert "Enter: it is with its owner" in await here.say("mara take")
        await here.press("escape")
        assert "17 → Mara O." in await here.say("mara okafor take")
        assert school.roll(roll).place.kind == "owner"
        await here.say("undo")
        other = dry(school, clip=18)
        assert "which of these" in await here.say("mara okafor take")
        assert {school.roll(each).place.kind for each in (roll, other)} == {"rod"}


async def test_a_student_boxes_nobodys_roll_by_a_whole_name(school: School) -> None:
    roll = dry(school)
    locking.set_passphrase(school.file, "red lamp at noon", None, school.now)
    async with at_desk(school.file.path) as here:
        assert "not for a student desk" in await here.say("mara box")
    assert school.roll(roll).place.kind == "rod"


@pytest.mark.parametrize("line", ["touch 17", "17 touch", "touch mara", "mara touch", "touch"])
async def test_a_touch_without_what_was_felt_is_asked_about(school: School, line: str) -> None:
    dry(school)
    async with at_desk(school.file.path) as here:
        await here.say(line)
        assert "17 → Mara O.: dry or tacky?" in here.screen
        assert "still tacky" in await here.say("tacky")


async def test_a_move_without_its_rod_leaves_enter_at_rest(school: School) -> None:
    roll = dry(school)
    async with at_desk(school.file.path) as here:
        assert "Type the rod where it hangs now" in await here.say("move 17")
        assert "enter" not in here.rows()[-1]
        assert "what of clip 17" in await here.say("")
        assert school.roll(roll).place.kind == "rod"
        await here.say("move 17")
        await here.say("rod 3")
    assert school.roll(roll).place.number == 3


async def test_after_a_refusal_a_verb_alone_is_about_the_roll_on_the_card(school: School) -> None:
    roll = dry(school)
    async with at_desk(school.file.path) as here:
        assert "clip 99 is noted on no roll" in await here.say("99 flip")
        assert "Mara O." in here.screen
        assert "17 → Mara O.. rod 1, position 1. Enter: it is with its owner" in await here.say(
            "take"
        )
        assert school.roll(roll).place.kind == "rod"
        await here.press("enter")
    assert school.roll(roll).place.kind == "owner"


async def test_who_is_only_nearly_called_so_is_chosen_by_the_arrows_alone(school: School) -> None:
    dry(school, OLU, 18)
    roll = dry(school, IVO, 17)
    async with at_desk(school.file.path) as here:
        await here.type("ivu")
        assert "Nobody is called “ivu”. These are near: choose with the arrows." in here.screen
        assert "▸" not in here.screen
        await here.press("enter")
        assert "nobody is called “ivu”: choose one of these with the arrows" in here.answer
        await here.press("enter")
        assert "Ivo L." in here.screen
        await here.press("down", "enter")
        assert "17 → Ivo L." in here.answer
        assert here.app.view.selected == roll
        await here.press("enter")
        assert school.roll(roll).place.kind == "rod"
        await here.say("take")
    assert school.roll(roll).place.kind == "owner"


async def test_a_list_of_near_names_is_left_by_esc_and_by_a_scan(school: School) -> None:
    dry(school)
    async with at_desk(school.file.path) as here:
        for line in ("marra", "marra"):
            await here.say(line)
            assert here.app.face.over == "hits"
            await here.press("escape")
            assert here.app.face.over == ""
        await here.say("marra")
        assert "17 → Mara O." in await here.say("17")
        assert here.app.face.over == ""


async def test_whoever_is_called_quite_so_comes_before_who_is_nearly(school: School) -> None:
    dry(school, OLU, 18)
    async with at_desk(school.file.path) as here:
        await here.type("mara")
        row = next(row for row in here.rows() if "▸" in row)
        assert "Mara O." in row


@pytest.mark.parametrize("line", ["mara missing", "missing mara", "mara is missing"])
async def test_missing_with_the_beginning_of_a_name_is_what_enter_does_on_any_screen(
    school: School, line: str
) -> None:
    roll = dry(school)
    with school.file.writing() as conn:
        people.add(conn, Person(0, "Margaret", "Ode", "Mara"))
    async with at_desk(school.file.path) as here:
        assert "Enter: it is missing. Esc leaves it" in await here.say(line)
        assert school.roll(roll).place.kind == "rod"
        assert "missing, last seen rod 1" in await here.say("")
        assert school.roll(roll).place.kind == "missing"
        assert "missing already, last seen rod 1" in await here.say(line)
        await here.press("escape")
        await here.say("undo")
    assert school.roll(roll).place.kind == "rod"


@pytest.mark.parametrize("felt", ["wet", "still wet", "damp", "not dry"])
async def test_what_a_finger_felt_is_said_of_a_name_in_as_many_words_as_of_a_clip(
    school: School, felt: str
) -> None:
    roll = dry(school)
    async with at_desk(school.file.path) as here:
        assert "Enter: it is still wet" in await here.say(f"mar {felt}")
        await here.press("escape")
        assert "Enter: it is still wet" in await here.say(f"{felt} mar")
        told = await here.say("")
        why = "turn the dial again, for the fan stops before it is dry"  # it hung a night already
        assert told == f"17 → Mara O.. still wet: {why}. Wrong? Type “undo”"
    assert school.roll(roll).checks[-1].dry is False


async def test_missing_with_a_whole_name_that_one_person_has_is_done_at_once(
    school: School,
) -> None:
    roll = dry(school)
    async with at_desk(school.file.path) as here:
        assert "missing, last seen rod 1" in await here.say("mara okafor missing")
    assert school.roll(roll).place.kind == "missing"


@pytest.mark.parametrize("found", ["mara", "17"])
async def test_missing_alone_asks_about_who_was_found_just_now_and_else_shows_what_is_missing(
    school: School, found: str
) -> None:
    dry(school, OLU, 18)
    roll = dry(school)
    async with at_desk(school.file.path) as here:
        await here.say(found)
        asked = await here.say("missing")
        assert asked == "17 → Mara O.. rod 1, position 1. Enter: it is missing. Esc leaves it"
        assert school.roll(roll).place.kind == "rod"
        await here.press("enter")
        assert school.roll(roll).place.kind == "missing"
        await here.say("missing")
        assert here.open == "archive"


async def test_missing_alone_says_how_one_is_reported_where_there_is_no_archive(
    school: School,
) -> None:
    dry(school)
    locking.set_passphrase(school.file, "red lamp at noon", None, school.now)
    async with at_desk(school.file.path) as here:
        here.app.face.go("board")
        await here.pilot.pause()
        assert "which roll is missing? Type its clip, as “17 missing”" in await here.say("missing")


@pytest.mark.parametrize("line", ["17 missing", "mara missing", "missing"])
async def test_what_is_missing_is_the_teachers_to_say(school: School, line: str) -> None:
    roll = dry(school)
    locking.set_passphrase(school.file, "red lamp at noon", None, school.now)
    async with at_desk(school.file.path) as here:
        await here.say("mara")
        assert "teacher" in await here.say(line)
    assert school.roll(roll).place.kind == "rod"
