"""A plain question shows what it is about, on every screen, and nothing is done by asking."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import hanging, lending
from filmrack.acts.locking import set_passphrase
from filmrack.domain.codes import clip_code
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School
from tests.desk.at_desk import at_desk

LATER = TUESDAY_9_00 + timedelta(hours=2)


@pytest.fixture
def two_hang(db: Path, school: School) -> list[int]:
    """Mara's roll on clip 17 and Olu's on clip 18 hang since nine; Olu's other is in box 2."""
    boxed = school.boxed(OLU, 2)
    some = ((MARA, 17), (OLU, 18))
    hung = [
        hanging.hang(school.file, school.hand(), person=who, clip=clip).roll.id
        for who, clip in some
    ]
    return [*hung, boxed]


@pytest.mark.parametrize(
    "line",
    [
        *("who owns 17", "Who owns 17?", "whose is 17", "whose roll is 17", "who has 17"),
        *("where is mara", "where's mara", "where’s mara?", "is mara dry", "is mara's roll dry?"),
        *("is 17 dry", "Is 17 ready yet?", "when is 17 dry", "17 dry?", "17?"),
        *("can I take 17", "may I take mara's film", "find 17 dry"),
    ],
)
@pytest.mark.parametrize("screen", ["board", "dryer", "sweep", "archive", "room"])
async def test_a_question_about_a_roll_shows_it_and_does_nothing(
    db: Path, two_hang: list[int], line: str, screen: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        await desk.say(screen)
        before = desk.acts
        said = await desk.say(line)
        assert "17 → Mara O." in said
        assert "rod 1, position 1" in said
        assert desk.acts == before


@pytest.mark.parametrize("line", ["what is in box 2", "what's in the box 2?", "who is in box 2"])
@pytest.mark.parametrize("before", ["", "17", clip_code(17, "A")])
async def test_what_is_in_a_box_is_shown_and_the_roll_in_hand_stays(
    db: Path, two_hang: list[int], line: str, before: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        if before:
            await desk.say(before)
        acts = desk.acts
        assert "Box 2, Period 2. 1 roll" in await desk.say(line)
        assert desk.acts == acts


@pytest.mark.parametrize("line", ["what is on rod 1", "what hangs on rod 1?", "where is rod 1"])
async def test_what_is_on_a_rod_moves_no_roll_in_hand(
    db: Path, two_hang: list[int], line: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        await desk.say(clip_code(18, "A"))
        acts = desk.acts
        assert (await desk.say(line)).startswith("rod 1.")
        assert desk.acts == acts


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        *(("is 17 on rod 2", "17 on rod 2"), ("is 17 clip 4?", "17 clip 4")),
        *(("find 17 rod 2", "17 rod 2"), ("where is mara 9", "mara 9"), ("find undo", "undo")),
    ],
)
async def test_a_sentence_is_not_done_by_asking_for_it(
    db: Path, two_hang: list[int], asked: str, sentence: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        before = desk.acts
        assert f"“{sentence}” is not done by asking for it" in await desk.say(asked)
        assert desk.acts == before


@pytest.mark.parametrize("line", ["find 18", "who owns 18", "where is olu"])
async def test_who_asks_while_a_load_waits_for_its_clip_gives_no_clip_away(
    db: Path, two_hang: list[int], line: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        before = desk.acts
        await desk.say("load mara")
        said = await desk.say(line)
        assert "18 → Olu A." in said
        assert "Mara O.'s roll was not loaded" in said
        await desk.press("enter")
        assert "load" not in desk.acts[len(before) :]
        assert desk.rolls[18] != "the tank"


async def test_a_name_that_is_asked_for_loads_nothing_on_the_clip_in_hand(
    db: Path, two_hang: list[int]
) -> None:
    async with at_desk(db, now=LATER) as desk:
        before = desk.acts
        await desk.say("9")
        said = await desk.say("where is ivo")
        assert "Nothing was done to clip 9" in said or "nothing was done to clip 9" in said
        assert desk.acts == before


@pytest.mark.parametrize("line", ["can I take it", "Can I take it?", "is it dry", "where is it"])
@pytest.mark.parametrize("screen", ["board", "dryer"])
async def test_it_is_the_roll_that_is_seen(
    db: Path, two_hang: list[int], line: str, screen: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        await desk.say("18")
        await desk.say(screen)
        before = desk.acts
        await desk.wait(seconds=20)
        assert "18 → Olu A." in await desk.say(line)
        assert desk.acts == before


async def test_it_is_nothing_where_no_roll_is_seen(db: Path) -> None:
    async with at_desk(db) as desk:
        said = await desk.say("can I take it")
        assert "that names no roll: type its clip, or three letters of a name" in said


async def test_what_is_not_understood_is_refused_with_what_to_type(db: Path) -> None:
    async with at_desk(db) as desk:
        said = await desk.say("how long does a roll take")
        assert "type a clip, as “17”, three letters of a name, or “help”" in said
        assert "try fewer letters, or scan it" in await desk.say("where is xyzzy")


@pytest.mark.parametrize("line", ["box 2", "box of period 2", "what is in box 2"])
async def test_a_student_desk_says_which_clips_lie_in_a_box_and_no_names(
    db: Path, school: School, two_hang: list[int], line: str
) -> None:
    set_passphrase(school.file, "three dry clips", None, school.now)
    async with at_desk(db, now=LATER) as desk:
        before = desk.acts
        said = await desk.say(line)
        assert said == (
            "box 2. 1 roll in it: clip 2. Yours? Type its clip. The teacher notes what goes into it"
        )
        await desk.say("18")
        assert "Olu" not in (await desk.say(line)).split(".")[0]
        assert desk.acts == before
        assert "nothing lies in it" in await desk.say("box 1")


@pytest.fixture
def lent(school: School) -> list[str]:
    """A sleeve of Mara's is with Ms Novak and Ivo's with Olu; newer ones of Olu and Mara are at
    hand.
    """
    clips = ((MARA, 1), (IVO, 3), (OLU, 4), (MARA, 5))
    some = [school.sleeved(who, clip) for who, clip in clips]
    lending.lend(school.file, school.hand(), some[0], "4 dec", to="Ms Novak")
    lending.lend(school.file, school.hand(), some[1], "4 dec", to=OLU)
    return [school.roll(number).number for number in some]


@pytest.mark.parametrize(
    "line",
    [
        *("who has what", "Who has what?", "who has which rolls", "which rolls are lent"),
        *("what is on loan", "what is borrowed", "who has borrowed"),
    ],
)
@pytest.mark.parametrize("screen", ["board", "dryer", "archive"])
async def test_who_has_what_is_the_list_of_loans(
    db: Path, lent: list[str], line: str, screen: str
) -> None:
    async with at_desk(db, now=LATER) as desk:
        await desk.say(screen)
        await desk.say("clip 9")
        before = desk.acts
        said = await desk.say(line)
        assert ("othing was done to clip 9" in said, desk.acts, desk.open) == (
            True,
            before,
            "archive",
        )
        assert "Ms Novak, due Fri 4 Dec" in desk.page
        assert "Olu Adeyemi, due Fri 4 Dec" in desk.page
        assert lent[2] not in desk.page


async def test_who_has_what_is_the_teachers_to_ask(
    db: Path, school: School, lent: list[str]
) -> None:
    set_passphrase(school.file, "three dry clips", None, school.now)
    async with at_desk(db, now=LATER) as desk:
        for line in ("who has what", "what is borrowed", "what keeps the term from closing"):
            assert f"“{line}” is the teacher's" in await desk.say(line)


@pytest.mark.parametrize(
    ("line", "which"),
    [
        *(("who has mara", 0), ("what does Ms Novak have", 0), ("what has ms novak borrowed?", 0)),
        *(("what does novak have on loan", 0), ("who has ivo", 1), ("who has ivo's roll", 1)),
        *(("what does olu have", 1), ("which rolls does olu have", 1), ("what has olu", 1)),
        *(("where is olu", 2), ("who has olu", 1), ("olu", 2), ("mara", 3)),
    ],
)
async def test_who_has_somebodys_roll_and_what_they_have_is_what_is_lent(
    db: Path, lent: list[str], line: str, which: int
) -> None:
    async with at_desk(db, now=LATER) as desk:
        before = desk.acts
        assert (await desk.say(line)).startswith(f"{lent[which]} → ")
        if which < 2:
            assert "borrowed by" in desk.answer
            await desk.press("enter")  # a loan is not ended by asking about it
            assert desk.acts == before


@pytest.mark.parametrize("line", ["what keeps the term from closing", "what is not put away?"])
async def test_what_keeps_a_term_open_is_counted_first_in_its_report(
    db: Path, two_hang: list[int], line: str
) -> None:
    async with at_desk(db, now=LATER, size=(80, 24)) as desk:
        await desk.enter(line)
        assert "Keeps it from closing: 2 on rods, 1 in boxes" in desk.page
