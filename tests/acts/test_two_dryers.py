"""A room with two dryers: each has a fan of its own, and film is moved from one to the other."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from filmrack.acts.drying import turn_dial
from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.hanging import hang, move
from filmrack.acts.undoing import undo
from filmrack.domain.default_room import default_room
from filmrack.domain.names import Person
from filmrack.domain.roll import Roll
from filmrack.domain.room import Dryer, Rod
from filmrack.store import fan, people
from filmrack.store.standings import see
from tests.conftest import TUESDAY_9_00, School


@pytest.fixture
def school(tmp_path: Path) -> Iterator[School]:
    """Return a school whose rod 1 is in the first dryer and whose rod 2 is in the second."""
    room = default_room("America/Chicago", TUESDAY_9_00.date(), periods=1)
    room = room._replace(
        dryers=(*room.dryers, Dryer(2, "Second dryer")),
        rods=(*room.rods, Rod(2, 2, 10, None)),
    )
    with make_darkroom_file(tmp_path / "two.db", room, TUESDAY_9_00) as file:
        with file.writing() as conn:
            people.add(conn, Person(1, "Mara", "Okafor", None, None))
            people.enrol(conn, 1, "26F", 1)
        yield School(file, TUESDAY_9_00)


def minutes(school: School, roll: Roll) -> float:
    outlook = see(school.file, [school.roll(roll.id)], school.now).standings[0].outlook
    assert outlook is not None
    return outlook.dryer_minutes


def test_minutes_of_the_first_dryers_fan_still_count_in_the_second(school: School):
    wet = hang(school.file, school.hand(), person=1, clip=17).roll
    school.wait(6)
    before = minutes(school, wet)
    # Six minutes under the fan, never flipped: 6·(1−0.5)/(1−0.25) = 4.
    assert before == pytest.approx(4.0)
    move(school.file, school.hand(), wet.id, 2)
    assert minutes(school, wet) == pytest.approx(before)


def test_the_first_dryers_fan_does_nothing_for_film_that_hangs_in_the_second(school: School):
    turn_dial(school.file, school.hand(), 2, dryer=1)
    wet = hang(school.file, school.hand(), person=1, clip=17).roll
    school.wait(3)
    move(school.file, school.hand(), wet.id, 2)
    turn_dial(school.file, school.hand(), 0, dryer=2)
    school.wait(30)
    # 3 minutes under the fan and 30 without, each of these worth a tenth.
    assert minutes(school, wet) == pytest.approx(4.0)
    turn_dial(school.file, school.hand(), 1, dryer=2)
    school.wait(3)
    assert minutes(school, wet) == pytest.approx(6.0)


def test_a_dial_of_the_first_dryer_that_is_taken_back_turns_none_of_the_second(school: School):
    turn_dial(school.file, school.hand(desk="desk 2"), 2, dryer=1)
    school.wait(5)
    hang(school.file, school.hand(), person=1, clip=17, rod=2)
    turn_dial(school.file, school.hand(), 0, dryer=2)
    before = fan.runs(school.file.conn, TUESDAY_9_00).get(2)
    undo(school.file, school.hand(desk="desk 2"))
    runs = fan.runs(school.file.conn, TUESDAY_9_00)
    assert 1 not in runs
    assert runs.get(2) == before
