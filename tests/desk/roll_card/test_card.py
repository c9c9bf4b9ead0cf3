"""What the card says of a roll, and which words it says for what comes next."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import archiving, drying, fetching, hanging
from filmrack.acts.locking import set_passphrase
from filmrack.desk.roll_card.card import Card
from tests.conftest import MARA, OLU, School
from tests.desk.at_desk import at_desk


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_the_card_of_film_found_tacky_does_not_call_its_ends_done(
    db: Path, school: School, size: tuple[int, int]
) -> None:
    hung = hanging.hang(school.file, school.hand(40), person=MARA, clip=17).roll
    async with at_desk(db, size=size) as here:
        assert "100%" in here.screen
    drying.touch(school.file, school.hand(1), hung.id, dry=False)
    async with at_desk(db, size=size) as here:
        assert "Tacky: longer than usual." in here.screen
        assert "100%" not in here.screen


async def test_the_card_says_how_a_roll_that_is_not_there_is_marked_and_found_again(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(5), person=MARA, clip=17)
    async with at_desk(db) as here:
        assert "Not there? Type “17 missing”" in here.part(Card)
        await here.say("17 missing")
        assert here.on(17).place.kind == "missing"
        assert here.open == "dryer"
        assert "Turned up? Type “found”" in here.part(Card)
        await here.press("enter")
        assert here.on(17).place.kind == "missing"
        assert "17 → Mara O." in await here.say("found")
        assert here.on(17).place.kind != "missing"


@pytest.mark.parametrize("size", [(80, 24), (120, 34)])
async def test_where_a_missing_roll_was_seen_last_stands_on_its_card_once_and_whole(
    db: Path, school: School, size: tuple[int, int]
) -> None:
    hanging.hang(school.file, school.hand(5), person=MARA, clip=17)
    async with at_desk(db, size=size) as here:
        await here.say("17 missing")
        await here.say("archive")
        await here.say("missing")
        await here.wait(seconds=15)
        assert "Look for it: last seen 08:55, rod 1, position 1." in here.part(Card)
        assert here.part(Card).count("last seen") == 1


async def test_a_student_desk_is_told_of_no_word_that_is_the_teachers(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(5), person=MARA, clip=17)
    set_passphrase(school.file, "three dry clips", None, school.now)
    async with at_desk(db) as here:
        assert "clip 17" in here.part(Card)
        assert "missing" not in here.part(Card)


async def test_a_roll_named_with_its_word_is_the_one_that_marker_card_and_answer_are_about(
    db: Path, school: School
) -> None:
    for person, clip in ((MARA, 17), (OLU, 18)):
        hanging.hang(school.file, school.hand(5), person=person, clip=clip)
    async with at_desk(db) as here:
        await here.say("18 missing")
        await here.say("17")
        assert "clip 17" in here.part(Card)
        assert "18 → Olu A.. found" in await here.say("18 found")
        assert "clip 18" in here.part(Card)
        assert here.app.view.selected == here.on(18).id


async def test_a_low_card_tells_of_as_many_other_rolls_as_have_room_and_counts_the_rest(
    school: School,
) -> None:
    file, hand = school.file, school.hand
    some = [hanging.hang(file, hand(), person=MARA, clip=clip).roll.id for clip in range(1, 9)]
    fetching.box(file, hand(), some[:7])
    for kept in some[2:7]:
        archiving.sleeve(file, hand(), kept)
    archiving.file_in_binder(file, hand(), some[4:7], 2)
    async with at_desk(file.path, school.now, size=(80, 24)) as here:
        await here.say("boxes")
        await here.say("1")
        await here.wait(seconds=15)
        (row,) = [row.strip() for row in here.rows() if " Also " in row]
        assert row.startswith("Cut and sleeve.   Also clip 8 ")
        assert row.endswith(", clip 2 in box 1 and 5 more")
        assert len(row) <= 76
    async with at_desk(file.path, school.now, size=(120, 34)) as here:
        await here.say("boxes")
        await here.say("1")
        assert "clip 2 in box 1, 3 filed in binder 2, 2 sleeved, not filed." in here.part(Card)
