from __future__ import annotations

import pytest

from filmrack.acts.archiving import contact, file_in_binder, picks, sleeve, unpick
from filmrack.acts.hanging import hang, load
from filmrack.acts.undoing import undo
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.store import checking, labelling
from tests.conftest import OLU, School


@pytest.fixture
def roll(school: School) -> Roll:
    return hang(school.file, school.hand(), person=OLU, clip=17).roll


def test_36_frames_on_a_page_of_7_by_5_need_a_second_sleeve(school: School, roll: Roll):
    # Common practice: seven strips of five hold 35.
    sleeved = sleeve(school.file, school.hand(), roll.id)
    assert len(sleeved.roll.pages) == 2
    assert sum(map(sum, sleeved.roll.pages)) == 36
    assert min(min(page) for page in sleeved.roll.pages) >= 3
    assert labelling.queued_sleeves(school.file.conn) == [(roll.id, 1), (roll.id, 2)]


def test_a_sleeving_taken_back_prints_no_label(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id)
    undo(school.file, school.hand())
    assert labelling.queued_sleeves(school.file.conn) == []


def test_sleeving_frees_the_clip_at_once(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id)
    assert load(school.file, school.hand(), OLU, [17]).displaced == ()


@pytest.mark.parametrize("frames", [0, -1, 40, 10**9])
def test_more_frames_than_film_are_refused(school: School, roll: Roll, frames: int):
    with pytest.raises(Refused, match=r"1 to 39 frames"):
        sleeve(school.file, school.hand(), roll.id, "7x5", frames)


def test_a_roll_in_the_tank_is_not_cut(school: School):
    (tank,) = load(school.file, school.hand(), OLU, [18]).rolls
    with pytest.raises(Refused, match="still in the tank: hang it and let it dry first"):
        sleeve(school.file, school.hand(), tank.id)


def test_picks_are_frames_of_the_roll_each_once(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id, "7x5", 30)
    made = contact(school.file, school.hand(), roll.id, "8x10in", [11, 4, 4])
    assert made.sheets[0].picks == (4, 11)
    with pytest.raises(Refused, match="has no frame 31: name frames from 1 to 30"):
        contact(school.file, school.hand(), roll.id, "8x10in", [31])


def test_frames_are_picked_on_the_sheet_that_is_there_and_taken_back(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id, "7x5", 30)
    contact(school.file, school.hand(), roll.id, "8x10in", [4])
    assert picks(school.file, school.hand(), roll.id, [14, 12, 4]).sheets[0].picks == (4, 12, 14)
    before = school.dump()
    for frames, why in (
        ([31], "has no frame 31"),
        ([], "not said"),
        ([4, 12], "picked already: pick others"),
    ):
        with pytest.raises(Refused, match=why):
            picks(school.file, school.hand(), roll.id, frames)
    assert school.dump() == before
    undo(school.file, school.hand())
    assert school.roll(roll.id).sheets[0].picks == (4,)
    assert checking.problems(school.file) == []


def test_wrong_picks_are_taken_back_and_the_others_stay(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id)
    contact(school.file, school.hand(), roll.id, "8x10in", [4])
    picks(school.file, school.hand(), roll.id, [12, 14])
    before = school.dump()
    for frames, why in (
        ([], "which picks of .* are taken back is not said: name some of 4, 12, 14"),
        ([12, 13], "has no pick 13 to take back: name some of 4, 12, 14"),
    ):
        with pytest.raises(Refused, match=why):
            unpick(school.file, school.hand(), roll.id, frames)
    assert school.dump() == before
    assert unpick(school.file, school.hand(), roll.id, [12, 4, 12]).picks == (14,)
    undo(school.file, school.hand())
    assert school.roll(roll.id).picks == (4, 12, 14)
    assert checking.problems(school.file) == []


def test_no_pick_is_taken_back_where_none_is(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id)
    with pytest.raises(Refused, match="has no picks to take back: look at its card"):
        unpick(school.file, school.hand(), roll.id, [4])
    contact(school.file, school.hand(), roll.id)
    with pytest.raises(Refused, match="has no picks to take back: look at its card"):
        unpick(school.file, school.hand(), roll.id, [4])


def test_frames_are_picked_on_no_sheet_that_was_not_made(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id)
    with pytest.raises(Refused, match="no contact sheet yet to pick frames on"):
        picks(school.file, school.hand(), roll.id, [4])
    contact(school.file, school.hand(), roll.id)
    assert picks(school.file, school.hand(), roll.id, [4]).picks == (4,)


def test_a_contact_sheet_comes_after_the_cut(school: School, roll: Roll):
    with pytest.raises(
        Refused, match=r"is not sleeved yet \(on rod 2, .*\): cut and sleeve it first"
    ):
        contact(school.file, school.hand(), roll.id)


def test_a_binder_is_made_when_first_named_and_is_of_the_rolls_period(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id)
    (filed,) = file_in_binder(school.file, school.hand(), [roll.id], 3)
    assert str(filed.place) == "binder 3"
    row = school.file.conn.execute("SELECT term, number, period FROM binders").fetchone()
    assert tuple(row) == ("26F", 3, 2)


@pytest.mark.parametrize("binder", [0, 100, -3])
def test_a_binder_out_of_range_is_refused(school: School, roll: Roll, binder: int):
    sleeve(school.file, school.hand(), roll.id)
    with pytest.raises(Refused, match="numbered from 1 to 99"):
        file_in_binder(school.file, school.hand(), [roll.id], binder)


def test_when_one_is_not_sleeved_none_is_filed_and_no_binder_made(school: School, roll: Roll):
    other = hang(school.file, school.hand(), person=OLU, clip=18).roll
    sleeve(school.file, school.hand(), roll.id)
    before = school.dump()
    with pytest.raises(Refused):
        file_in_binder(school.file, school.hand(), [roll.id, other.id], 3)
    assert school.dump() == before


def test_contact_and_filing_come_in_either_order(school: School, roll: Roll):
    sleeve(school.file, school.hand(), roll.id)
    file_in_binder(school.file, school.hand(), [roll.id], 3)
    assert str(contact(school.file, school.hand(), roll.id).place) == "binder 3"
