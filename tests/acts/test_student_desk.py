"""What a hand at a student desk may do, act by act, whatever screen it came from."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from filmrack.acts import (
    archiving,
    drying,
    fetching,
    hanging,
    owning,
    reclipping,
    sweeping,
    undoing,
)
from filmrack.acts.group import Hand
from filmrack.domain.refusal import Refused
from filmrack.domain.student_desk import By
from tests.conftest import IVO, MARA, OLU, School

Act = Callable[[School, Hand, int], object]


def at_desk(school: School, by: By = "student desk") -> Hand:
    return replace(school.hand(), by=by)


def hung(school: School, clip: int = 17) -> int:
    return hanging.hang(school.file, school.hand(ago=20), person=MARA, clip=clip).roll.id


STUDENTS: dict[str, Act] = {
    "load": lambda s, h, _: hanging.load(s.file, h, OLU, [30]),
    "load on a clip that is taken": lambda s, h, _: hanging.load(s.file, h, OLU, [17]),
    "hang": lambda s, h, _: hanging.hang(s.file, h, person=OLU, clip=31),
    "hang an unknown roll": lambda s, h, _: hanging.hang(s.file, h, clip=32, rod=3),
    "move": lambda s, h, r: hanging.move(s.file, h, r, 3),
    "put a clip right": lambda s, h, r: reclipping.reclip(s.file, h, r, 62),
    "flip": lambda s, h, r: drying.flip(s.file, h, [r]),
    "touch": lambda s, h, r: drying.touch(s.file, h, r, dry=False),
    "take": lambda s, h, r: fetching.take(s.file, h, r),
}
TEACHERS: dict[str, Act] = {
    "the dial": lambda s, h, _: drying.turn_dial(s.file, h),
    "the fan off": lambda s, h, _: drying.turn_dial(s.file, h, 0),
    "sleeve": lambda s, h, r: archiving.sleeve(s.file, h, r),
    "claim": lambda s, h, r: owning.claim(s.file, h, r, IVO),
    "note": lambda s, h, r: owning.note(s.file, h, r, "bicycle"),
}
HELPERS: dict[str, Act] = {
    "box": lambda s, h, r: fetching.box(s.file, h, [r]),
    "sweep": lambda s, h, _: sweeping.sweep(s.file, h, counts={1: 1}, finish=True),
}


@pytest.mark.parametrize("act", STUDENTS.values(), ids=STUDENTS)
def test_a_student_may(school: School, act: Act) -> None:
    act(school, at_desk(school), hung(school))


@pytest.mark.parametrize("act", [*TEACHERS.values(), *HELPERS.values()], ids=[*TEACHERS, *HELPERS])
def test_a_student_may_not_and_nothing_is_changed(school: School, act: Act) -> None:
    roll = hung(school)
    before = school.dump()
    with pytest.raises(Refused, match="ask the teacher"):
        act(school, at_desk(school), roll)
    assert school.dump() == before


@pytest.mark.parametrize("act", [*STUDENTS.values(), *HELPERS.values()], ids=[*STUDENTS, *HELPERS])
def test_a_helper_may(school: School, act: Act) -> None:
    act(school, at_desk(school, "helper desk"), hung(school))


@pytest.mark.parametrize("act", TEACHERS.values(), ids=TEACHERS)
def test_a_helper_may_not(school: School, act: Act) -> None:
    with pytest.raises(Refused, match="ask the teacher"):
        act(school, at_desk(school, "helper desk"), hung(school))


def test_a_student_takes_back_what_was_just_done_here(school: School) -> None:
    hand = at_desk(school)
    roll = hung(school)
    drying.flip(school.file, hand, [roll])
    undoing.undo(school.file, hand, roll)
    assert not school.roll(roll).flipped


def test_a_student_names_what_is_taken_back(school: School) -> None:
    hand = at_desk(school)
    drying.flip(school.file, hand, [hung(school)])
    with pytest.raises(Refused, match="not said: scan its clip first, then undo"):
        undoing.undo(school.file, hand)


@pytest.mark.parametrize("by", ["student desk", "helper desk"])
def test_what_the_teacher_did_is_taken_back_by_no_student(school: School, by: By) -> None:
    roll = hung(school)
    with pytest.raises(Refused, match="not done by a student"):
        undoing.undo(school.file, at_desk(school, by), roll)


def test_what_another_desk_did_is_not_taken_back_here(school: School) -> None:
    roll = hung(school)
    drying.flip(school.file, replace(at_desk(school), desk="desk 2"), [roll])
    with pytest.raises(Refused, match="not done by a student at this desk"):
        undoing.undo(school.file, at_desk(school), roll)


def test_the_ledger_knows_whose_desk_it_was(school: School) -> None:
    hanging.hang(school.file, at_desk(school), person=OLU, clip=31)
    by = {row[0] for row in school.file.conn.execute("SELECT by FROM ledger")}
    assert by == {"student desk"}
