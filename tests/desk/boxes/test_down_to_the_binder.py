"""From the box to the binder in the words that card and answer say, without leaving Boxes."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.domain.roll import Roll
from filmrack.domain.room import Binder
from filmrack.store import rolls
from filmrack.store.binders import know_binder
from filmrack.store.file import open_file
from tests.desk.at_desk import at_desk
from tests.desk.boxes.at_boxes import LATER, go, marked


async def test_typed_words_go_on_with_the_roll_on_the_card_down_to_its_binder(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.say("sleeve")
        assert here.app.view.selected == boxed[1].id
        assert not marked(here)
        assert "is sleeved already" in await here.say("sleeve")
        assert boxed[1].number in await here.say("contact")
        assert "filed in binder 1" in await here.say("file 1")
        assert here.acts[-3:] == ["sleeve", "contact", "file"]
        assert rolls.by_id(here.app.session.file.conn, boxed[1].id).binder == 1
        assert here.rolls.keys() == {1, 3, 4}


async def test_a_roll_in_its_box_is_refused_a_binder_and_nothing_is_asked(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        why = f"{boxed[1].number} is not sleeved yet (in box 2): cut and sleeve it first"
        for line in ("file", "file 1", "2 file 1"):
            assert why in await here.say(line)
            assert here.app.question is None


async def test_behind_the_cut_card_and_refusal_say_how_the_roll_is_named_now(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.press("enter")
        assert "Sheet made? Type “contact”" in here.screen
        cut = boxed[1]
        said = await here.say("2 lend ivo")
        assert f"clip 2 is free since {cut.number} was cut: name that roll by its number" in said
        assert "contact sheet made on 8x10in: fits" in await here.say(f"{cut.serial:04d} contact")


async def test_a_contact_sheet_with_picks_is_typed_as_the_card_says_right_behind_the_cut(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.press("enter")
        assert "Sheet made? Type “contact”" in here.screen
        said = await here.say("contact 3 12")
        assert boxed[1].number in said
        assert "picks 3, 12" in said


async def test_the_clip_that_a_roll_was_just_cut_from_names_it_for_its_contact_sheet_and_binder(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.press("enter")
        assert "picks 3, 12" in await here.say("2 contact 3 12")
        assert "filed in binder 1" in await here.say("2 file 1")
        assert rolls.by_id(here.app.session.file.conn, boxed[1].id).binder == 1
        assert here.acts[-3:] == ["sleeve", "contact", "file"]


@pytest.mark.parametrize("word", ["contact", "contact sheet"])
async def test_a_clip_behind_contact_is_no_strangers_number_but_that_of_the_roll_just_cut(
    db: Path, boxed: list[Roll], word: str
):
    async with at_desk(db, now=LATER) as here:
        assert rolls.read(here.app.session.file.conn, "serial = 2"), "somebody's roll is 26F-0002"
        await go(here)
        said = await here.say("contact 2")
        assert "say first which roll you mean: for clip 2 “2 contact”" in said
        await here.say("2")
        await here.press("enter")
        number = f"{boxed[1].serial:04d}"
        said = await here.say(f"{word} 2")
        assert f"clip 2 is free since {boxed[1].number} was cut" in said
        assert f"by its number, {number}, as “{number} {word}”" in said
        assert f"for frame 2 “{word} picks 2”" in said
        assert (here.open, "contact" in here.acts) == ("boxes", False)
        assert "picks 2" in await here.say(f"{word} picks 2")
        assert boxed[1].number in here.answer


async def test_a_clip_that_carries_another_roll_by_now_names_that_one_alone(
    db: Path, boxed: list[Roll]
):
    async with at_desk(db, now=LATER) as here:
        await go(here)
        await here.say("2")
        await here.press("enter")
        await here.say("load ivo 2")
        assert "not sleeved yet" in await here.say("2 contact 3 12")
        assert "contact" not in here.acts


async def test_each_answer_and_enter_at_rest_say_the_word_that_goes_on_down_to_the_periods_binder(
    db: Path, boxed: list[Roll]
):
    """Olu's period has binder 2, whatever other periods have."""
    with open_file(db, write=True) as file, file.writing() as conn:
        for number, period in ((1, 1), (2, 2)):
            know_binder(conn, Binder("26F", number, period))
    async with at_desk(db, now=LATER) as here:
        assert "Enter: 2 → Olu A., it is cut and sleeved" in await here.say("box 2")
        await here.press("enter")
        assert "Sheet made? Type “contact”" in here.answer
        await here.press("enter")
        assert "Enter leaves it as it is. Sheet made? Type “contact”" in here.answer
        assert here.acts[-1] == "sleeve"
        assert "In binder 2? Type “file 2”" in await here.say("contact")
        await here.press("enter")
        assert "Enter leaves it as it is. In binder 2? Type “file 2”" in here.answer
        assert "In binder 2? Type “file 2”" in here.screen
        assert "filed in binder 2" in await here.say("file 2")
        assert rolls.by_id(here.app.session.file.conn, boxed[1].id).binder == 2


async def test_a_period_without_a_binder_is_told_the_first_number_that_is_free(
    db: Path, boxed: list[Roll]
):
    with open_file(db, write=True) as file, file.writing() as conn:
        know_binder(conn, Binder("26F", 1, 1))
    async with at_desk(db, now=LATER) as here:
        await here.say("box 2")
        await here.press("enter")
        assert "In binder 2? Type “file 2”" in await here.say("contact")
