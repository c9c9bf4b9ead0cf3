"""The file and the clock under an open desk."""

from __future__ import annotations

import shutil
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import hanging
from filmrack.store import desks
from tests.conftest import MARA, TUESDAY_9_00, entries, open_school
from tests.desk.at_desk import at_desk


@pytest.mark.parametrize("swapped", [False, True])
async def test_a_file_that_goes_from_under_the_desk_is_told_and_nothing_is_done(
    db: Path, swapped: bool
) -> None:
    spare = db.with_name("spare.db")
    shutil.copy(db, spare)
    async with at_desk(db) as desk:
        db.rename(db.with_name("away.db"))
        if swapped:
            spare.rename(db)
        await desk.wait(seconds=1)
        what = "is another file now" if swapped else "is gone"
        assert what in desk.answer
        assert what in await desk.say("17 mara")
    assert entries(db.with_name("away.db")) == 0


async def test_a_desk_keeps_that_it_is_alive(db: Path) -> None:
    async with at_desk(db) as desk:
        await desk.wait(minutes=5)
        desk.app.rounds.beat()
        school = open_school(db)
        assert desks.last_beat(school.file.conn) == TUESDAY_9_00 + timedelta(minutes=5)
        school.file.close()


@pytest.fixture
def ahead(db: Path) -> Path:
    """Something was entered two hours from now, by a clock that was right or wrong."""
    school = open_school(db)
    school.now += timedelta(hours=2)
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    school.file.close()
    return db


async def test_a_clock_behind_the_record_is_asked_about_before_any_act(ahead: Path) -> None:
    before = entries(ahead)
    async with at_desk(ahead) as desk:
        assert "Is it Tue 17 Nov 2026 09:00?" in desk.answer
        assert "something was entered at 11:00" in desk.answer
        assert "neither yes nor no" in await desk.say("perhaps")
        await desk.press("escape")
        await desk.press("escape")
        assert "the clock is doubted" in await desk.say("30 olu")
    assert entries(ahead) == before


async def test_after_yes_the_desk_acts(ahead: Path) -> None:
    before = entries(ahead)
    async with at_desk(ahead) as desk:
        await desk.say("yes")
        assert "loaded" in await desk.say("30 olu")
    assert entries(ahead) > before


async def test_after_no_the_desk_acts_when_the_machines_clock_is_set(ahead: Path) -> None:
    async with at_desk(ahead) as desk:
        assert "set the machine's clock" in await desk.say("no")
        assert "doubted" in await desk.say("30 olu")
        await desk.wait(minutes=121)
        assert "loaded" in await desk.say("30 olu")


async def test_a_question_that_was_let_go_is_asked_again_by_its_word(ahead: Path) -> None:
    async with at_desk(ahead) as desk:
        await desk.press("escape")
        assert "Is it Tue" in await desk.say("clock")
        await desk.say("y")
        assert "not doubted" in await desk.say("clock")


async def test_a_desk_opened_the_next_morning_asks_nothing(db: Path) -> None:
    async with at_desk(db):
        pass
    async with at_desk(db, TUESDAY_9_00 + timedelta(days=1)) as desk:
        assert desk.app.question is None
