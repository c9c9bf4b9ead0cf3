"""Film that was reported missing while it hung and turns up: wet film hangs on, dry film is boxed.

That film is dry after a night on the rod is common practice (12 h); film that is not must hang.
"""

from __future__ import annotations

import pytest

from filmrack.acts import drying, fetching, hanging, lending, undoing
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Place
from filmrack.store import checking
from tests.conftest import IVO, MARA, OLU, School


def _lost(school: School, person: int, clip: int, *, after: float = 1) -> int:
    """Hang a roll on rod 2 and report it missing some minutes later; return its number."""
    roll = hanging.hang(school.file, school.hand(), person=person, clip=clip, rod=2).roll.id
    school.wait(after)
    lending.missing(school.file, school.hand(), [roll])
    school.wait(1)
    return roll


def _found(school: School, roll: int) -> Place:
    place = lending.found(school.file, school.hand(), roll).place
    assert checking.problems(school.file) == []
    return place


def test_wet_film_that_turns_up_hangs_where_it_hung(school: School) -> None:
    roll = _lost(school, OLU, 17)
    assert _found(school, roll) == Place("rod", 2, 1)
    dried = school.roll(roll).stays
    assert [stay.until is None for stay in dried] == [False, True], (
        "no minutes while it was missing"
    )
    undoing.undo(school.file, school.hand())
    assert school.roll(roll).place.kind == "missing"


def test_it_hangs_there_again_however_often_it_is_lost(school: School) -> None:
    roll = _lost(school, OLU, 17)
    for _ in range(3):
        assert _found(school, roll) == Place("rod", 2, 1)
        lending.missing(school.file, school.hand(), [roll])
    hanging.hang(school.file, school.hand(), roll=roll, tacky=True)
    assert school.roll(roll).place == Place("rod", 2, 1)


def test_film_that_a_finger_found_tacky_hangs_again_too(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=OLU, clip=17, rod=2).roll.id
    school.wait(60)
    drying.touch(school.file, school.hand(), roll, dry=False)
    lending.missing(school.file, school.hand(), [roll])
    assert _found(school, roll).kind == "rod"


def test_where_something_else_hangs_by_now_it_hangs_beside_it(school: School) -> None:
    roll = _lost(school, OLU, 17)
    hanging.hang(school.file, school.hand(), person=IVO, clip=18, rod=2, position=1)
    assert _found(school, roll) == Place("rod", 2, 2)


def test_where_its_rod_is_full_by_now_it_hangs_on_another(school: School) -> None:
    roll = _lost(school, OLU, 17)
    for clip in (18, 19, 20):
        hanging.hang(school.file, school.hand(), person=IVO, clip=clip, rod=2)
    there = _found(school, roll)
    assert there.kind == "rod"
    assert there.number != 2


@pytest.mark.parametrize("felt", [True, False])
def test_dry_film_that_turns_up_is_in_its_box(school: School, felt: bool) -> None:
    roll = hanging.hang(school.file, school.hand(), person=OLU, clip=17, rod=2).roll.id
    if felt:
        drying.touch(school.file, school.hand(), roll, dry=True)
    else:
        school.wait(13 * 60)
    lending.missing(school.file, school.hand(), [roll])
    assert _found(school, roll) == Place("box", 2)


def test_film_that_was_lost_wet_is_dry_after_a_night_wherever_it_lay(school: School) -> None:
    roll = _lost(school, OLU, 17)
    school.wait(11 * 60)
    assert _found(school, roll).kind == "rod"
    lending.missing(school.file, school.hand(), [roll])
    school.wait(12 * 60)
    assert _found(school, roll) == Place("box", 2)


def test_film_that_lay_in_its_box_is_there_again_and_a_box_that_is_named_is_meant(
    school: School,
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=OLU, clip=17, rod=2).roll.id
    fetching.box(school.file, school.hand(), [roll])
    lending.missing(school.file, school.hand(), [roll])
    assert _found(school, roll) == Place("box", 2)
    wet = _lost(school, MARA, 18)
    assert lending.found(school.file, school.hand(), wet, box=2).place == Place("box", 2)


def test_where_film_from_the_tank_is_has_to_be_said(school: School) -> None:
    (roll,) = hanging.load(school.file, school.hand(), OLU, [17]).rolls
    lending.missing(school.file, school.hand(), [roll.id])
    with pytest.raises(Refused, match="in the tank when it was last seen and may be wet: say"):
        lending.found(school.file, school.hand(), roll.id)
    assert school.roll(roll.id).place.kind == "missing"
