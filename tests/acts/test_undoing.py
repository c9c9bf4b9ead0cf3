from __future__ import annotations

import pytest

from filmrack.acts.archiving import file_in_binder, sleeve
from filmrack.acts.drying import flip, touch, turn_dial
from filmrack.acts.fetching import box, take
from filmrack.acts.hanging import hang, load
from filmrack.acts.sweeping import sweep
from filmrack.acts.undoing import undo
from filmrack.domain.refusal import Refused
from filmrack.store import checking, fan, ledger, sweeps
from tests.conftest import IVO, OLU, School


def test_undo_takes_back_the_last_key_press_of_this_desk(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    flip(school.file, school.hand(), [roll.id])
    load(school.file, school.hand(desk="desk 2"), IVO, [18])
    assert undo(school.file, school.hand()).acts == (("flip", roll.id),)
    assert not school.roll(roll.id).flipped


def test_undo_again_goes_one_further_back(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    touch(school.file, school.hand(), roll.id, dry=False)
    undo(school.file, school.hand())
    assert [act for act, _ in undo(school.file, school.hand()).acts] == ["load", "hang", "fan"]
    with pytest.raises(Refused, match="nothing to take back"):
        undo(school.file, school.hand())


def test_an_undone_number_stays_void_and_its_clip_is_free(school: School):
    (first,) = load(school.file, school.hand(), OLU, [17]).rolls
    undo(school.file, school.hand())
    assert school.roll(first.id).place.kind == "void"
    (second,) = load(school.file, school.hand(), OLU, [17]).rolls
    assert (second.serial, checking.problems(school.file)) == (2, [])


def test_what_a_later_act_depends_on_is_not_taken_back(school: School):
    (roll,) = load(school.file, school.hand(), OLU, [17]).rolls
    school.wait(1)
    hang(school.file, school.hand(desk="desk 2"), roll=roll.id)
    before = school.dump()
    with pytest.raises(Refused, match=r"has “hung” at 09:01 on its ledger"):
        undo(school.file, school.hand())
    assert school.dump() == before


def test_a_position_given_away_since_keeps_a_boxing_from_being_taken_back(school: School):
    first = hang(school.file, school.hand(30), person=OLU, clip=17).roll
    box(school.file, school.hand(20), [first.id])
    second = hang(school.file, school.hand(10), person=IVO, clip=18, rod=2, position=1).roll
    with pytest.raises(
        Refused, match=f"rod 2, position 1 has been given to {second.number} by “hung” at 08:50"
    ):
        undo(school.file, school.hand(), first.id)


def test_a_clip_given_away_since_keeps_a_sleeving_from_being_taken_back(school: School):
    first = hang(school.file, school.hand(30), person=OLU, clip=17).roll
    sleeve(school.file, school.hand(20), first.id)
    load(school.file, school.hand(10), IVO, [17])
    with pytest.raises(Refused, match="clip 17 has been given to"):
        undo(school.file, school.hand(), first.id)


def test_who_was_displaced_is_back_when_the_act_is_taken_back(school: School):
    first = hang(school.file, school.hand(10), person=OLU, clip=17, rod=2, position=1).roll
    second = hang(school.file, school.hand(), person=IVO, clip=18, rod=2, position=1).roll
    undo(school.file, school.hand())
    assert str(school.roll(first.id).place) == "rod 2, position 1"
    assert school.roll(second.id).place.kind == "void"


def test_undo_of_the_displaced_roll_takes_back_what_displaced_it(school: School):
    first = hang(school.file, school.hand(10), person=OLU, clip=17, rod=2, position=1).roll
    hang(school.file, school.hand(), person=IVO, clip=18, rod=2, position=1)
    undone = undo(school.file, school.hand(), first.id)
    assert ("missing", first.id) in undone.acts
    assert str(school.roll(first.id).place) == "rod 2, position 1"


def test_a_displaced_roll_that_was_boxed_since_stays_in_its_box(school: School):
    first = hang(school.file, school.hand(10), person=OLU, clip=17, rod=2, position=1).roll
    hang(school.file, school.hand(5), person=IVO, clip=18, rod=2, position=1)
    box(school.file, school.hand(desk="desk 2"), [first.id])
    undo(school.file, school.hand())
    assert str(school.roll(first.id).place) == "box 2"


def test_an_undone_hanging_takes_its_assumed_fan_along(school: School):
    hang(school.file, school.hand(), person=OLU, clip=17)
    undo(school.file, school.hand())
    assert fan.runs(school.file.conn, school.now) == {}


def test_film_that_relied_on_an_undone_fan_is_taken_to_have_turned_the_dial(school: School):
    first = hang(school.file, school.hand(), person=OLU, clip=17).roll
    school.wait(5)
    second = hang(school.file, school.hand(), person=IVO, clip=18)
    assert second.dial_hours is None
    school.wait(1)
    undo(school.file, school.hand(), first.id)
    (run,) = fan.runs(school.file.conn, school.now)[1]
    assert (run.starts, run.assumed) == (second.roll.hung_at, True)
    # The undo itself is no act to take back.
    assert [act for act, _ in undo(school.file, school.hand()).acts] == ["load", "hang"]


def test_a_dial_that_was_not_turned_after_all_is_assumed_for_what_hung_then(school: School):
    turn_dial(school.file, school.hand(desk="desk 2"), 2)
    school.wait(5)
    hung = hang(school.file, school.hand(), person=OLU, clip=17)
    undo(school.file, school.hand(desk="desk 2"))
    (run,) = fan.runs(school.file.conn, school.now)[1]
    assert (run.starts, run.assumed) == (hung.roll.hung_at, True)


def test_a_fan_found_off_by_mistake_runs_on(school: School):
    hang(school.file, school.hand(10), person=OLU, clip=17)
    turn_dial(school.file, school.hand(), 0)
    assert fan.runs(school.file.conn, school.now) == {}
    undo(school.file, school.hand())
    (run,) = fan.runs(school.file.conn, school.now)[1]
    assert not run.refuted


def test_a_box_of_several_is_taken_back_whole(school: School):
    numbers = [hang(school.file, school.hand(), person=OLU, clip=clip).roll.id for clip in (1, 2)]
    box(school.file, school.hand(), numbers)
    undo(school.file, school.hand(), numbers[0])
    assert {school.roll(number).place.kind for number in numbers} == {"rod"}


def test_a_sweep_taken_back_is_not_taken_up_again(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    sweep(school.file, school.hand(), period=2, counts={2: 1})
    undo(school.file, school.hand())
    assert str(school.roll(roll.id).place) == "rod 2, position 1"
    assert sweeps.going_on(school.file.conn) is None
    assert set(sweep(school.file, school.hand()).hanging) == {1, 2, 3}


def test_a_finished_sweep_goes_on_when_its_end_is_taken_back(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    school.wait(1)
    sweep(school.file, school.hand(), counts={2: 0})
    assert sweep(school.file, school.hand(), finish=True).missing == [roll.id]
    undo(school.file, school.hand())
    assert sweeps.going_on(school.file.conn) is not None
    assert str(school.roll(roll.id).place) == "rod 2, position 1"


def test_filing_sleeving_and_taking_are_taken_back_one_by_one(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    take(school.file, school.hand(), roll.id)
    sleeve(school.file, school.hand(), roll.id)
    file_in_binder(school.file, school.hand(), [roll.id], 3)
    places = []
    for _ in range(3):
        undo(school.file, school.hand(), roll.id)
        places.append(str(school.roll(roll.id).place))
    assert places == ["in its sleeve", "with its owner", "rod 2, position 1"]
    assert school.roll(roll.id).clip == 17


def test_what_was_undone_stays_on_the_ledger_marked(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    flip(school.file, school.hand(), [roll.id])
    undo(school.file, school.hand())
    story = ledger.whole_story(school.file.conn, roll.id)
    assert [(entry.act, undone) for entry, undone in story] == [
        ("load", False),
        ("hang", False),
        ("flip", True),
        ("undo", False),
    ]
