"""What the desk says without being asked: once, calmly, and with no bell unless wanted."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import drying, hanging
from tests.conftest import MARA, open_school
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
