"""A desk that finds no sign of life before it asks once whether the power was out."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts.hanging import hang
from filmrack.acts.locking import set_passphrase
from filmrack.store import desks, fan
from tests.conftest import OLU, TUESDAY_9_00, open_school
from tests.desk.at_desk import AtDesk, at_desk

LATER = TUESDAY_9_00 + timedelta(minutes=30)


@pytest.fixture
def dead(db: Path) -> Path:
    """Olu's roll hangs since nine; the only desk was last alive then."""
    school = open_school(db)
    hang(school.file, school.hand(), person=OLU, clip=17)
    with school.file.writing() as conn:
        desks.beat(conn, "desk 1", TUESDAY_9_00 - timedelta(hours=1), TUESDAY_9_00 + _MINUTE)
    school.file.close()
    return db


_MINUTE = timedelta(minutes=1)


def fan_is_on(desk: AtDesk) -> bool:
    runs = fan.runs(desk.app.session.file.conn, desk.now).get(1, [])
    return any(run.starts <= desk.now < run.ends for run in runs)


async def test_the_desk_asks_and_yes_leaves_the_fan_stopped(dead: Path):
    async with at_desk(dead, LATER) as desk:
        await desk.pilot.pause()
        assert "Was the power out? No desk was alive from 09:01 to 09:30" in desk.answer.replace(
            "?.", "?"
        )
        assert not fan_is_on(desk)
        assert "turn the dial again" in await desk.say("yes")
        assert not fan_is_on(desk)


async def test_no_lets_the_fan_run_on(dead: Path):
    async with at_desk(dead, LATER) as desk:
        await desk.pilot.pause()
        assert "neither yes nor no" in await desk.say("perhaps")
        assert "running on" in await desk.say("n")
        assert fan_is_on(desk)


async def test_a_student_desk_tells_of_it_and_asks_when_the_teacher_is_there(dead: Path):
    school = open_school(dead)
    set_passphrase(school.file, "three dry clips", None, school.now)
    school.file.close()
    async with at_desk(dead, LATER) as desk:
        await desk.pilot.pause()
        assert "the teacher says whether it ran on" in desk.answer
        assert desk.app.question is None
        await desk.say("no")
        assert not fan_is_on(desk)
        await desk.press("escape")
        await desk.say("teacher")
        assert "Was the power out?" in await desk.say("three dry clips")
        assert "running on" in await desk.say("no")
        assert fan_is_on(desk)


async def test_it_is_asked_once_also_when_nobody_answers(dead: Path):
    async with at_desk(dead, LATER) as desk:
        await desk.pilot.pause()
        assert "Was the power out?" in desk.answer
    async with at_desk(dead, LATER + 5 * _MINUTE) as desk:
        await desk.pilot.pause()
        assert desk.answer == ""


async def test_a_desk_left_and_opened_again_asks_nothing(db: Path):
    async with at_desk(db) as desk:
        await desk.say("17 olu")
        await desk.press("enter")
    async with at_desk(db, LATER) as desk:
        await desk.pilot.pause()
        assert desk.answer == ""
        assert fan_is_on(desk)
