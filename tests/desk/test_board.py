"""The board answers "where is my roll, and is it dry?" without a key."""

from __future__ import annotations

import re
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import drying, fetching, hanging
from filmrack.domain.names import Person
from filmrack.store import people
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.at_desk import at_desk
from tests.desk.full_room import NOW


async def test_a_student_reads_clip_rod_and_state_without_a_key(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(6), person=OLU, clip=18)
    hanging.load(school.file, school.hand(2), IVO, [19])
    async with at_desk(db) as here:
        here.app.face.go("board")
        await here.wait(seconds=1)
        assert re.search(r"18  Olu A\. +rod 2 +flip", here.screen)
        assert re.search(r"19  Ivo L\. +in tank", here.screen)
        assert here.keys == 0


async def test_the_class_that_is_on_stands_before_the_last_one(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(9), person=MARA, clip=17)
    hanging.hang(school.file, school.hand(2), person=OLU, clip=18)
    async with at_desk(db) as here:
        here.app.face.go("board")
        await here.wait(seconds=1)
        now, last = here.screen.index("Period 2, now"), here.screen.index("Period 1, the last")
        assert now < here.screen.index("Olu A.") < last < here.screen.index("Mara O.")


async def test_a_roll_that_was_fetched_is_not_on_the_board(db: Path, school: School) -> None:
    roll = hanging.hang(school.file, school.hand(9), person=OLU, clip=18).roll
    fetching.take(school.file, school.hand(1), roll.id)
    async with at_desk(db) as here:
        here.app.face.go("board")
        await here.wait(seconds=1)
        assert "Olu A." not in here.screen


async def test_an_empty_board_says_what_to_do_first(db: Path) -> None:
    async with at_desk(db) as here:
        here.app.face.go("board")
        await here.wait(seconds=1)
        assert "scan or type its owner, then its clip" in here.screen


async def test_twins_are_told_apart_by_their_clips(db: Path, school: School) -> None:
    with school.file.writing() as conn:
        people.add(conn, Person(4, "Olu", "Abara", None, None))
        people.enrol(conn, 4, "26F", 2)
    for person, clip in ((OLU, 18), (4, 19)):
        hanging.hang(school.file, school.hand(1), person=person, clip=clip)
    async with at_desk(db) as here:
        here.app.face.go("board")
        await here.wait(seconds=1)
        assert re.search(r"18  Olu A\.", here.screen)
        assert re.search(r"19  Olu A\.", here.screen)


@pytest.mark.parametrize("size", [(80, 24), (120, 34), (200, 50)])
async def test_everybody_who_waits_is_on_the_board_of_a_full_room(
    full: Path, size: tuple[int, int]
) -> None:
    async with at_desk(full, NOW, size) as here:
        here.app.face.go("board")
        await here.wait(seconds=1)
        seen = set[int]()
        for _ in range(6):
            rows = re.findall(r"(\d+)  .{14,}?(?:rod \d|in tank)", here.screen)
            seen |= {int(clip) for clip in rows}
            await here.wait(seconds=8)
        waiting = [
            each.roll.clip
            for each in (*here.app.session.look().hanging, *here.app.session.look().tank)
            if each.state != "dry" or each.left_behind
        ]
        assert {clip for clip in waiting if clip} <= seen


async def test_film_that_was_left_behind_is_late_and_not_left_as_if_it_was_gone(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(), person=OLU, clip=17)
    async with at_desk(db, now=NOW + timedelta(days=1)) as here:
        here.app.face.go("board")
        await here.wait(seconds=1)
        assert re.search(r"17  Olu A\. .* late", here.screen)
        assert "1 left behind" in here.screen


async def test_film_left_behind_that_a_finger_found_wet_is_not_called_late(
    db: Path, school: School
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=OLU, clip=17).roll
    school.now = NOW + timedelta(days=1)
    drying.touch(school.file, school.hand(), roll.id, dry=False)
    async with at_desk(db, now=school.now + timedelta(minutes=1)) as here:
        here.app.face.go("board")
        await here.wait(seconds=1)
        assert re.search(r"17  Olu A\. .* wet", here.screen)
        assert "1 left behind" in here.screen


async def test_the_footer_offers_what_enter_does_to_a_roll_that_was_named_at_the_board(
    db: Path, school: School
) -> None:
    async with at_desk(db, now=school.now) as here:
        here.app.face.go("board")
        await here.wait()
        assert "Enter when it hangs on rod 1" in await here.say("mara 17")
        assert (here.open, "enter it hangs" in here.rows()[-1]) == ("board", True)
        await here.press("enter")
        assert str(here.on(17).place) == "rod 1, position 1"
        assert "enter" not in here.rows()[-1]
