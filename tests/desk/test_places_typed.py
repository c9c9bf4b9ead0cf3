"""A box, a binder or what rolls owe, typed by itself: its screen says which, nothing is done."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import archiving, fetching, hanging, lending
from filmrack.desk.archive.view import ArchiveView
from filmrack.desk.places_typed import box_typed
from filmrack.domain.codes import box_code, clip_code
from filmrack.domain.names import Person
from filmrack.store import people
from tests.conftest import MARA, OLU, TUESDAY_9_00, School
from tests.desk.at_desk import at_desk

LATER = TUESDAY_9_00 + timedelta(hours=1)
EVENING = TUESDAY_9_00 + timedelta(hours=7)


@pytest.fixture
def two_in_box_2(school: School) -> list[int]:
    """Two of Olu's rolls in box 2, Mara's in box 1, another of hers on a rod, on clip 17."""
    boxed = []
    for clip, person in ((1, OLU), (2, OLU), (3, MARA)):
        boxed.append(hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id)
        school.wait(1)
        fetching.box(school.file, school.hand(), [boxed[-1]])
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    return boxed


SCREENS = ["board", "dryer", "boxes", "sweep", "archive", "labels", "room"]


@pytest.mark.parametrize("screen", SCREENS)
@pytest.mark.parametrize("line", ["box 2", "BOX 02"])
async def test_a_typed_box_is_opened_on_every_screen_and_says_what_lies_in_it(
    db: Path, two_in_box_2: list[int], screen: str, line: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        await desk.say(screen)
        before = desk.acts
        said = await desk.say(line)
        assert desk.open == "boxes"
        assert "Box 2, Period 2. 2 rolls to cut and sleeve" in said
        assert "Enter: 1 → Olu A., it is cut and sleeved" in said
        assert "Box 2, Period 2   2 rolls" in desk.screen
        assert desk.app.view.selected == two_in_box_2[0]
        assert desk.acts == before


@pytest.mark.parametrize(
    "line", ["box 1", "boxes 1", "the box of period 1", "box of period 1", "period 1"]
)
async def test_a_box_is_typed_by_its_number_or_its_period(
    db: Path, two_in_box_2: list[int], line: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        said = await desk.say(line)
        assert desk.open == "boxes"
        assert "Box 1, Period 1. 1 roll to cut and sleeve" in said


async def test_a_typed_box_that_is_empty_says_so_and_enter_does_nothing(school: School) -> None:
    async with at_desk(school.file.path) as desk:
        assert "Box 2, Period 2. Nothing lies in it" in await desk.say("box 2")
        await desk.press("enter")
        assert desk.acts == []


def test_only_a_box_of_this_room_is_one(school: School) -> None:
    room = school.file.room()
    lines = ("box 99", "box", "boxes", "2", "period 9", "box mara", "17 box 2", "box 2 flip")
    assert [line for line in lines if box_typed(line, room) is not None] == []


@pytest.mark.parametrize("looked_up", ["17", "mara", "3", "olu"])
async def test_a_box_that_is_typed_moves_no_roll_that_was_but_looked_up(
    db: Path, two_in_box_2: list[int], looked_up: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        await desk.say(looked_up)
        before = desk.rolls
        await desk.say("box 2")
        assert (desk.open, desk.rolls) == ("boxes", before)


def test_a_lettered_period_names_its_box_by_its_letter(school: School) -> None:
    room = school.file.room()
    first, *others = room.periods
    lettered = room._replace(period_word="block", periods=(first._replace(name="Block B"), *others))
    box = room.box_of(first.number)
    assert box is not None
    assert [box_typed(line, lettered) for line in ("box b", "boxes B", "box x", "b")] == [
        box.number,
        box.number,
        None,
        None,
    ]


async def test_a_box_in_one_line_with_a_clip_or_scanned_behind_it_is_where_that_roll_went(
    db: Path, two_in_box_2: list[int]
) -> None:
    async with at_desk(db, now=LATER) as desk:
        assert "in box 2, not in box 1" in await desk.say("17 box 2")
        await desk.scan(clip_code(17, "A"))
        await desk.scan(box_code(1))
        assert desk.rolls[17] == "box 1"


async def test_a_scanned_box_waits_for_the_clip_that_went_into_it(
    db: Path, two_in_box_2: list[int]
) -> None:
    async with at_desk(db, now=LATER) as desk:
        await desk.scan(box_code(1))
        assert "now the clip that went into it" in desk.answer
        await desk.say("17")
        assert desk.rolls[17] == "box 1"


async def test_a_box_typed_in_a_sweep_leaves_the_sweep_as_it_is(school: School) -> None:
    for clip in (1, 2):
        hanging.hang(school.file, school.hand(), person=MARA, clip=clip, rod=1)
    hanging.hang(school.file, school.hand(), person=OLU, clip=3, rod=2)
    async with at_desk(school.file.path, now=EVENING) as desk:
        await desk.say("sweep")
        await desk.say("count 2")
        said = await desk.say("box 2")
        assert desk.open == "boxes"
        assert "The sweep stays as it is: “sweep” goes back to it" in said
        await desk.say("sweep")
        assert "Rod 2" in desk.screen


async def test_a_box_typed_while_the_strips_of_a_rod_are_scanned_is_looked_through(
    school: School,
) -> None:
    for clip in (1, 2):
        hanging.hang(school.file, school.hand(), person=MARA, clip=clip, rod=1)
    async with at_desk(school.file.path, now=EVENING) as desk:
        await desk.say("sweep")
        await desk.say("count 1")
        await desk.say("box 2")
        assert desk.open == "sweep"
        assert "found in it" in desk.screen


@pytest.mark.parametrize("screen", SCREENS)
async def test_a_typed_binder_is_in_hand_in_the_archive_and_says_how_much_stands_in_it(
    school: School, two_in_box_2: list[int], screen: str
) -> None:
    archiving.sleeve(school.file, school.hand(), two_in_box_2[0])
    archiving.file_in_binder(school.file, school.hand(), [two_in_box_2[0]], 2)
    async with at_desk(school.file.path, now=LATER) as desk:
        await desk.say(screen)
        before = desk.acts
        said = await desk.say("binder 2")
        assert desk.open == "archive"
        assert "binder 2. in hand, with 1 roll in it" in said
        assert desk.acts == before


@pytest.mark.parametrize("screen", [each for each in SCREENS if each != "archive"])
@pytest.mark.parametrize(
    ("line", "which"),
    [
        ("not sleeved", "sleeve"),
        ("Not Filed", "file"),
        ("in binders", "binder"),
        ("borrowed", "out"),
        ("loans", "out"),
        ("lent", "out"),
        ("no contact sheet", "contact"),
        ("without an owner", "owner"),
        ("gone", "gone"),
    ],
)
async def test_the_words_of_the_archives_counts_open_it_with_just_those_rolls(
    db: Path, two_in_box_2: list[int], screen: str, line: str, which: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        await desk.say(screen)
        before = desk.acts
        await desk.say(line)
        view = desk.app.view
        assert isinstance(view, ArchiveView)
        assert view.which_rolls == which
        assert desk.acts == before


async def test_what_was_selected_elsewhere_does_not_put_the_rolls_away_that_were_asked_for(
    db: Path, school: School, two_in_box_2: list[int]
) -> None:
    archiving.sleeve(school.file, school.hand(), two_in_box_2[2])
    async with at_desk(db, now=LATER) as desk:
        await desk.say("boxes")
        await desk.press("enter")  # the card has a sleeve then, which is not lent
        await desk.say("loans")
        view = desk.app.view
        assert isinstance(view, ArchiveView)
        assert view.which_rolls == "out"


async def test_somebody_who_is_called_like_a_count_is_looked_for(db: Path, school: School) -> None:
    with school.file.writing() as conn:
        lent = people.add(conn, Person(0, "Lent", "Ode"))
    roll = hanging.hang(school.file, school.hand(), person=lent, clip=17).roll.id
    async with at_desk(db) as desk:
        await desk.say("lent")
        assert desk.open == "dryer"
        assert desk.app.view.selected == roll


async def test_unknown_hangs_a_roll_and_opens_no_list(db: Path) -> None:
    async with at_desk(db) as desk:
        await desk.say("unknown")
        assert desk.open == "dryer"


@pytest.mark.parametrize("line", ["who has {}", "Who has {}?", "where is {}", "find {}"])
async def test_who_has_a_roll_is_answered_with_whoever_borrowed_it(
    db: Path, school: School, line: str
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    fetching.box(school.file, school.hand(), [roll])
    archiving.sleeve(school.file, school.hand(), roll)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    lending.lend(school.file, school.hand(), roll, "4 dec", to="Ms Novak")
    async with at_desk(db) as desk:
        said = await desk.say(line.format(school.roll(roll).number))
        assert "→ Mara O." in said
        assert "Ms Novak" in said
        assert desk.app.view.selected == roll


@pytest.mark.parametrize("line", ["tank", "tanks", "who is in the tank", "what is in the tanks?"])
async def test_a_typed_tank_tells_what_is_loaded_and_does_not_hang_yet(
    db: Path, school: School, line: str
) -> None:
    async with at_desk(db) as desk:
        assert "nothing is loaded" in (await desk.say(line)).casefold()
        hanging.load(school.file, school.hand(), MARA, [17])
        assert "17 Mara O." in await desk.say(line)


@pytest.mark.parametrize("line", ["label 1", "label clip 1", "print label 1", "clip 1 label"])
async def test_the_label_of_a_clip_is_that_of_the_roll_just_cut_from_it(
    db: Path, school: School, two_in_box_2: list[int], line: str
) -> None:
    number = school.roll(two_in_box_2[0]).number
    async with at_desk(db, now=LATER) as desk:
        assert f"{number} is not cut, so it has no sleeve yet and no label" in await desk.say(line)
        assert "clip 9 is on no roll" in await desk.say("label 9")
        await desk.say("1 cut")
        await desk.say(line)
        assert desk.open == "labels"
        assert f"sleeves {number}" in desk.screen
