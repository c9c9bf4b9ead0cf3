"""What the desk says without being asked: once, calmly, and with no bell unless wanted."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import drying, hanging, lending
from filmrack.acts.locking import set_passphrase
from tests.conftest import MARA, OLU, School, open_school
from tests.desk.at_desk import AtDesk, at_desk


@pytest.fixture
def wet(db: Path) -> Path:
    """Mara's roll was hung just now, and the dial turned to an hour."""
    school = open_school(db)
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    school.file.close()
    return db


async def answers(desk: AtDesk, minutes: int) -> list[str]:
    """Let minutes pass one by one; return what was said, each as often as it was."""
    heard = []
    for _ in range(minutes):
        await desk.wait(minutes=1)
        if desk.answer:
            heard.append(desk.answer)
    return heard


async def test_a_flip_that_comes_due_is_said_once(wet: Path) -> None:
    async with at_desk(wet) as desk:
        heard = await answers(desk, 9)
    assert heard == ["Time to flip. 17 Mara O., on rod 1: end for end"]


async def test_the_fan_that_stops_over_wet_film_is_said_once(wet: Path) -> None:
    school = open_school(wet)
    school.wait(1)
    drying.turn_dial(school.file, school.hand(), 2 / 60)
    school.file.close()
    async with at_desk(wet) as desk:
        desk.now = school.now
        heard = await answers(desk, 6)
    assert [each for each in heard if "fan" in each] == [
        "The fan has stopped. 1 roll is not dry yet: turn the dial again"
    ]


async def test_what_was_so_at_the_start_is_not_said(wet: Path) -> None:
    school = open_school(wet)
    school.wait(7)
    school.file.close()
    async with at_desk(wet, school.now) as desk:
        assert desk.answer == ""
        assert await answers(desk, 1) == []


async def test_the_bell_is_off_until_it_is_wanted(
    wet: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rung = []
    async with at_desk(wet) as desk:
        monkeypatch.setattr(desk.app, "bell", lambda: rung.append(1))
        assert "on" in await desk.say("bell")
        await desk.wait(seconds=20)
        await answers(desk, 9)
        assert rung == [1]
    async with at_desk(wet) as desk:
        monkeypatch.setattr(desk.app, "bell", lambda: rung.append(2))
        await answers(desk, 9)
    assert rung == [1]


async def test_a_notice_waits_until_a_question_is_answered(wet: Path) -> None:
    async with at_desk(wet) as desk:
        await desk.say("passphrase")
        await answers(desk, 8)
        assert "A passphrase for the teacher's desk" in desk.answer


async def test_a_notice_waits_until_the_answer_that_is_read_has_gone(wet: Path) -> None:
    async with at_desk(wet) as desk:
        await desk.wait(minutes=5)
        while "Flip it now" not in await desk.say("17"):
            await desk.wait(seconds=5)
        await desk.wait(seconds=10)
        assert "Flip it now" in desk.answer
        await desk.wait(seconds=5)
        assert desk.answer == "Time to flip. 17 Mara O., on rod 1: end for end"


async def test_a_refused_reply_fades_and_the_question_is_read_again(wet: Path) -> None:
    async with at_desk(wet) as desk:
        asked = await desk.say("passphrase")
        assert "is not kept" in await desk.say("clip")
        await desk.wait(seconds=20)
        assert desk.answer == asked


@pytest.fixture
def lost(db: Path, school: School) -> Path:
    """Mara's and Olu's rolls hung on clips 17 and 18 and are missing."""
    for clip, person in ((17, MARA), (18, OLU)):
        hung = hanging.hang(school.file, school.hand(), person=person, clip=clip)
        lending.missing(school.file, school.hand(), [hung.roll.id])
    return db


async def test_a_teacher_who_opens_the_desk_is_told_what_is_missing_and_how_to_see_it(
    lost: Path,
) -> None:
    async with at_desk(lost) as desk:
        assert "2 rolls of this term are missing: “missing” lists them" in desk.screen
        await desk.say("missing")
        assert desk.open == "archive"
        assert "Mara Okafor" in desk.screen
        await desk.say("18 found")
    async with at_desk(lost) as desk:
        assert "1 roll of this term is missing: “missing” shows it" in desk.screen
        await desk.wait(seconds=30)
        assert desk.answer == ""


async def test_on_a_low_screen_the_card_stays_and_nothing_takes_its_place_at_the_start(
    lost: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=19)
    async with at_desk(lost, size=(80, 24)) as desk:
        assert desk.answer == ""
        assert "clip 19" in desk.screen


async def test_a_locked_desk_tells_what_is_missing_to_the_teacher_alone(
    lost: Path, school: School
) -> None:
    set_passphrase(school.file, "three dry clips", None, school.now)
    async with at_desk(lost) as desk:
        assert desk.answer == ""
        await desk.say("teacher")
        told = await desk.say("three dry clips")
        assert "2 rolls of this term are missing: “missing” lists them" in told
