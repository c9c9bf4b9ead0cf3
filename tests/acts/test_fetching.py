from __future__ import annotations

import pytest

from filmrack.acts.archiving import sleeve
from filmrack.acts.fetching import box, take
from filmrack.acts.hanging import hang, load
from filmrack.domain.refusal import Refused
from tests.conftest import MARA, OLU, School


def test_a_dry_roll_goes_to_its_own_periods_box_with_its_clip(school: School):
    roll = hang(school.file, school.hand(), person=MARA, clip=17, rod=2).roll
    (boxed,) = box(school.file, school.hand(), [roll.id])
    assert (str(boxed.place), boxed.clip) == ("box 1", 17)


def test_a_roll_goes_where_a_hand_put_it(school: School):
    roll = hang(school.file, school.hand(), person=MARA, clip=17).roll
    assert str(box(school.file, school.hand(), [roll.id], period=2)[0].place) == "box 2"
    assert str(box(school.file, school.hand(), [roll.id], box_number=1)[0].place) == "box 1"
    with pytest.raises(Refused, match="there is no box 7: this room has the boxes 1, 2"):
        box(school.file, school.hand(), [roll.id], box_number=7)


def test_one_roll_taken_down_counts_as_dry_and_several_teach_nothing(school: School):
    one, two, three = (
        hang(school.file, school.hand(), person=OLU, clip=clip).roll.id for clip in (1, 2, 3)
    )
    box(school.file, school.hand(), [one])
    box(school.file, school.hand(), [two, three])
    assert [len(school.roll(number).checks) for number in (one, two, three)] == [1, 0, 0]


def test_an_unknown_roll_goes_to_the_box_of_the_rod_it_hangs_on(school: School):
    school.wait(600)  # no class is on
    roll = hang(school.file, school.hand(), clip=17, rod=1).roll
    assert str(box(school.file, school.hand(), [roll.id])[0].place) == "box 1"


def test_a_roll_of_nobody_on_nobodys_rod_needs_a_period(school: School):
    school.wait(600)
    roll = hang(school.file, school.hand(), clip=17, rod=3).roll
    with pytest.raises(Refused, match="so it is not clear where it goes: name the period"):
        box(school.file, school.hand(), [roll.id])


def test_a_roll_nobody_said_was_hung_can_be_boxed_and_taken(school: School):
    one, two = load(school.file, school.hand(), OLU, [1, 2]).rolls
    assert box(school.file, school.hand(), [one.id])[0].place.kind == "box"
    assert take(school.file, school.hand(), two.id).place.kind == "owner"


def test_a_sleeved_roll_goes_to_no_box(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    other = hang(school.file, school.hand(), person=OLU, clip=18).roll
    sleeve(school.file, school.hand(), roll.id)
    before = school.dump()
    with pytest.raises(Refused, match="is sleeved already"):
        box(school.file, school.hand(), [other.id, roll.id])
    assert school.dump() == before


def test_a_roll_boxed_late_was_in_its_box_since(school: School):
    roll = hang(school.file, school.hand(30), person=OLU, clip=17).roll
    hang(school.file, school.hand(), person=OLU, clip=18)
    (boxed,) = box(school.file, school.hand(10), [roll.id])
    assert boxed.since == school.hand(10).at
