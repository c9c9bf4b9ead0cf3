from __future__ import annotations

import pytest

from filmrack.acts.drying import flip, turn_dial
from filmrack.acts.fetching import box, take
from filmrack.acts.hanging import hang, load, move
from filmrack.acts.undoing import undo
from filmrack.domain.refusal import Refused
from filmrack.store import checking, fan, ledger, terms
from tests.conftest import IVO, MARA, OLU, School


def place(school: School, roll: int) -> str:
    return str(school.roll(roll).place)


def test_a_loaded_roll_hangs_on_its_owners_rod(school: School):
    (roll,) = load(school.file, school.hand(), OLU, [17]).rolls
    assert (str(roll.place), roll.clip, roll.period) == ("in the tank", 17, 2)
    school.wait(5)
    hung = hang(school.file, school.hand(), person=OLU)
    assert hung.roll.id == roll.id
    assert str(hung.roll.place) == "rod 2, position 1"
    assert not hung.roll.assumed


def test_two_rolls_of_a_double_tank_are_two_rolls_of_one_person(school: School):
    rolls = load(school.file, school.hand(), OLU, [17, 18]).rolls
    assert [(roll.clip, roll.serial) for roll in rolls] == [(17, 1), (18, 2)]
    with pytest.raises(
        Refused, match="2 rolls of that person are loaded: say which one of clip 17, clip 18"
    ):
        hang(school.file, school.hand(), person=OLU)
    assert hang(school.file, school.hand(), person=OLU, clip=18).roll.id == rolls[1].id
    assert hang(school.file, school.hand(), person=OLU).roll.id == rolls[0].id


def test_a_clip_named_twice_is_named_in_the_refusal(school: School):
    with pytest.raises(Refused, match="clip 18 is named twice"):
        load(school.file, school.hand(), OLU, [17, 18, 18])


@pytest.mark.parametrize("clip", [0, 1000, -1])
def test_a_clip_that_no_room_has_is_refused(school: School, clip: int):
    with pytest.raises(Refused, match="clips are numbered from 1 to 999"):
        load(school.file, school.hand(), OLU, [clip])


def test_wet_film_hangs_without_having_been_loaded(school: School):
    hung = hang(school.file, school.hand(), person=OLU, clip=17)
    assert hung.roll.assumed == {"load"}
    assert hung.roll.person == OLU


def test_a_roll_without_an_owner_is_of_the_rods_period(school: School):
    hung = hang(school.file, school.hand(), clip=17, rod=1, clue="bicycle, first frame")
    assert (hung.roll.person, hung.roll.period) == (None, 1)
    assert hung.roll.clue is not None


def test_who_has_loaded_nothing_is_asked_for_the_clip(school: School):
    with pytest.raises(Refused, match="say which clip pair it hangs on"):
        hang(school.file, school.hand(), person=OLU)


@pytest.mark.parametrize(
    ("where", "why"),
    [
        ({"rod": 4}, "there is no rod 4: this room has the rods 1, 2, 3"),
        ({"rod": 3, "position": 3}, "rod 3 has no position 3: it has the positions 1 to 2"),
        ({"position": 0}, "rod 2 has no position 0"),
        ({"position": 99}, "rod 2 has no position 99"),
    ],
)
def test_a_place_that_does_not_exist_is_refused_and_changes_nothing(
    school: School, where: dict[str, int], why: str
):
    before = school.dump()
    with pytest.raises(Refused, match=why):
        hang(school.file, school.hand(), person=OLU, clip=17, **where)
    assert school.dump() == before


def test_a_full_rod_sends_film_to_a_rod_that_nobody_needs(school: School):
    for clip in (1, 2, 3):
        hang(school.file, school.hand(), person=OLU, clip=clip)
    sent = hang(school.file, school.hand(), person=OLU, clip=4).roll
    assert (str(sent.place), sent.sent) == ("rod 3, position 1", True)
    with pytest.raises(Refused, match="rod 2 is noted as full: hang it on rod 3, or name"):
        hang(school.file, school.hand(), person=OLU, clip=5, rod=2)


def test_a_full_dryer_still_takes_film_where_somebody_says_it_hangs(school: School):
    for clip in range(1, 9):
        hang(school.file, school.hand(), person=OLU, clip=clip)
    with pytest.raises(Refused, match="every rod is noted as full"):
        hang(school.file, school.hand(), person=OLU, clip=9)
    hung = hang(school.file, school.hand(), person=OLU, clip=9, rod=2, position=1)
    assert place(school, hung.displaced[0]) == "missing"


# The hand beats the record.


def test_a_clip_used_for_another_roll_leaves_its_old_roll_not_seen_since(school: School):
    first = hang(school.file, school.hand(), person=OLU, clip=17).roll
    school.wait(10)
    loaded = load(school.file, school.hand(), IVO, [17])
    assert loaded.displaced == (first.id,)
    old = school.roll(first.id)
    assert (old.place.kind, old.clip, str(old.seen)) == ("missing", None, "rod 2, position 1")
    assert old.seen_at == first.hung_at


def test_a_clip_taken_from_the_box_names_the_roll_that_lay_there(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    box(school.file, school.hand(), [roll.id])
    assert load(school.file, school.hand(), IVO, [17]).displaced == (roll.id,)


@pytest.mark.parametrize("minutes_ago", [0, 5])
def test_the_clip_of_a_roll_that_its_owner_took_serves_another_and_nothing_is_missing(
    school: School, minutes_ago: float
):
    roll = hang(school.file, school.hand(30), person=OLU, clip=17).roll
    take(school.file, school.hand(20), roll.id)
    hang(school.file, school.hand(), person=MARA, clip=9)
    assert load(school.file, school.hand(minutes_ago), IVO, [17]).displaced == ()
    assert (place(school, roll.id), school.roll(roll.id).clip) == ("with its owner", None)
    assert checking.problems(school.file) == []
    undo(school.file, school.hand())
    assert (place(school, roll.id), school.roll(roll.id).clip) == ("with its owner", 17)


def test_the_clip_of_a_missing_roll_serves_another_at_once(school: School):
    first = hang(school.file, school.hand(), person=OLU, clip=17).roll
    hang(school.file, school.hand(), person=IVO, clip=18, rod=2, position=1)
    assert (place(school, first.id), school.roll(first.id).clip) == ("missing", 17)
    school.wait(1)
    loaded = load(school.file, school.hand(), MARA, [17])
    assert loaded.displaced == (first.id,)
    assert school.roll(first.id).clip is None
    assert checking.problems(school.file) == []


def test_film_on_the_clip_and_at_the_position_of_one_roll_displaces_it_once(school: School):
    first = hang(school.file, school.hand(), person=OLU, clip=17, rod=2, position=1).roll
    school.wait(1)
    hung = hang(school.file, school.hand(), person=IVO, clip=17, rod=2, position=1)
    assert hung.displaced == (first.id,)


def test_the_same_told_late_displaces_too(school: School):
    first = hang(school.file, school.hand(30), person=OLU, clip=17, rod=2, position=1).roll
    load(school.file, school.hand(), MARA, [9])
    hung = hang(school.file, school.hand(10), person=IVO, clip=17, rod=2, position=1)
    assert set(hung.displaced) == {first.id}
    assert (place(school, first.id), school.roll(first.id).clip) == ("missing", None)


def test_two_acts_in_one_second_are_in_the_order_in_which_they_were_told(school: School):
    first = hang(school.file, school.hand(), person=OLU, clip=17, rod=2, position=1).roll
    hung = hang(school.file, school.hand(), person=IVO, clip=18, rod=2, position=1)
    assert hung.displaced == (first.id,)
    assert place(school, hung.roll.id) == "rod 2, position 1"


def test_two_rolls_that_are_boxed_and_swapped_on_the_rod_never_meet(school: School):
    one = hang(school.file, school.hand(), person=OLU, clip=17, rod=2, position=1).roll
    two = hang(school.file, school.hand(), person=OLU, clip=18, rod=2, position=2).roll
    assert move(school.file, school.hand(), one.id, 2, 2).displaced == (two.id,)
    assert place(school, two.id) == "missing"
    hang(school.file, school.hand(), roll=two.id, rod=2, position=1)
    assert (place(school, one.id), place(school, two.id)) == (
        "rod 2, position 2",
        "rod 2, position 1",
    )


# What hangs already.


def test_hanging_what_hangs_is_a_move_when_a_place_is_named(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    flip(school.file, school.hand(), [roll.id])
    school.wait(3)
    moved = hang(school.file, school.hand(), roll=roll.id, rod=3)
    assert (str(moved.roll.place), moved.roll.flipped) == ("rod 3, position 1", True)
    assert moved.roll.hung_at == roll.hung_at
    assert [entry.act for entry in ledger.of_roll(school.file.conn, roll.id)][-1] == "move"


def test_hanging_what_hangs_needs_a_place(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    with pytest.raises(Refused, match="hangs already on rod 2, position 1: say where it hangs now"):
        hang(school.file, school.hand(), roll=roll.id)


def test_naming_the_rod_where_it_hangs_leaves_it_in_its_position(school: School):
    hang(school.file, school.hand(), person=OLU, clip=16)
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    assert str(move(school.file, school.hand(), roll.id, 2).roll.place) == "rod 2, position 2"


def test_a_person_and_the_clip_of_their_hanging_roll_mean_that_roll(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    moved = hang(school.file, school.hand(), person=OLU, clip=17, rod=3)
    assert (moved.roll.id, moved.displaced) == (roll.id, ())


def test_a_hanging_roll_on_other_clips_keeps_the_new_ones(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    assert hang(school.file, school.hand(), roll=roll.id, clip=18, rod=2).roll.clip == 18


def test_what_does_not_hang_cannot_be_moved(school: School):
    (roll,) = load(school.file, school.hand(), OLU, [17]).rolls
    with pytest.raises(Refused, match=r"does not hang \(in the tank\): hang it first"):
        move(school.file, school.hand(), roll.id, 2)


def test_a_roll_put_back_tacky_hangs_as_long_as_before(school: School):
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    school.wait(8)
    take(school.file, school.hand(), roll.id)
    school.wait(1)
    back = hang(school.file, school.hand(), roll=roll.id, tacky=True).roll
    assert back.hung_at == roll.hung_at
    assert [check.dry for check in back.checks] == [False]


def test_a_roll_put_back_tacky_goes_where_it_hung_while_that_is_free(school: School):
    hang(school.file, school.hand(), person=OLU, clip=16)
    roll = hang(school.file, school.hand(), person=OLU, clip=17, rod=3, position=2).roll
    for _ in range(2):
        box(school.file, school.hand(), [roll.id])
        back = hang(school.file, school.hand(), roll=roll.id, tacky=True).roll
        assert str(back.place) == "rod 3, position 2"
    box(school.file, school.hand(), [roll.id])
    hang(school.file, school.hand(), person=IVO, clip=18, rod=3, position=2)
    back = hang(school.file, school.hand(), roll=roll.id, tacky=True)
    assert (str(back.roll.place), back.displaced) == ("rod 2, position 2", ())


# Told late.


def test_a_late_roll_takes_a_position_that_was_free_then(school: School):
    early = hang(school.file, school.hand(60), person=OLU, clip=17).roll
    take(school.file, school.hand(20), early.id)
    late = hang(school.file, school.hand(40), person=IVO, clip=18)
    assert (str(late.roll.place), late.displaced) == ("rod 2, position 2", ())
    assert place(school, early.id) == "with its owner"


def test_a_late_entry_that_makes_a_later_one_nonsense_is_refused_and_names_it(school: School):
    roll = hang(school.file, school.hand(30), person=OLU, clip=17).roll
    flip(school.file, school.hand(10), [roll.id])
    before = school.dump()
    with pytest.raises(
        Refused, match=r"has “flipped” at 08:50 on its ledger, which would make no sense"
    ):
        take(school.file, school.hand(20), roll.id)
    assert school.dump() == before


def test_a_late_roll_can_have_been_displaced_since(school: School):
    later = hang(school.file, school.hand(10), person=OLU, clip=17, rod=2, position=1).roll
    late = hang(school.file, school.hand(30), person=IVO, clip=18, rod=2, position=1)
    assert late.displaced == (late.roll.id,)
    lost = school.roll(late.roll.id)
    assert (lost.place.kind, lost.since) == ("missing", later.hung_at)


def test_what_was_not_there_yet_cannot_have_been_hung(school: School):
    (roll,) = load(school.file, school.hand(10), OLU, [17]).rolls
    with pytest.raises(Refused, match="was not there yet at 08:40: give a later time"):
        hang(school.file, school.hand(20), roll=roll.id)


def test_a_time_to_come_is_refused(school: School):
    with pytest.raises(Refused, match="that time is still to come"):
        school.hand(-1)


def test_before_the_first_term_nothing_is_loaded(school: School):
    with pytest.raises(Refused, match="no term has begun by 2025-11-17"):
        load(school.file, school.hand(60 * 24 * 365), OLU, [17])


def test_nothing_is_loaded_in_a_closed_term(school: School):
    school.file.conn.execute("UPDATE terms SET closed_at = '2026-11-01T00:00:00Z'")
    assert "26F" in terms.closed(school.file.conn)
    with pytest.raises(Refused, match="term 26F is closed: reopen it, or open the next one"):
        hang(school.file, school.hand(), person=OLU, clip=17)


def test_a_refused_act_leaves_no_gap_in_the_numbers(school: School):
    with pytest.raises(Refused):
        hang(school.file, school.hand(), person=OLU, clip=17, rod=9)
    assert hang(school.file, school.hand(), person=OLU, clip=17).roll.serial == 1


# The fan.


def test_hanging_says_to_turn_the_dial_and_takes_it_as_done(school: School):
    assert hang(school.file, school.hand(), person=OLU, clip=17).dial_hours == 1.0
    (run,) = fan.runs(school.file.conn, school.now)[1]
    assert (run.starts, run.assumed) == (school.now, True)
    assert hang(school.file, school.hand(), person=OLU, clip=18).dial_hours is None


def test_a_fan_that_is_on_for_long_enough_is_left_alone(school: School):
    turn_dial(school.file, school.hand(), 4)
    school.wait(60)
    assert hang(school.file, school.hand(), person=OLU, clip=17).dial_hours is None
    school.wait(175)
    assert hang(school.file, school.hand(), person=OLU, clip=18).dial_hours == 1.0


@pytest.mark.parametrize(
    ("minutes", "fits"), [(0, "yes"), (4, "tight"), (34, "tight"), (36, "no"), (600, None)]
)
def test_before_the_bell_is_answered_while_a_class_is_on(
    school: School, minutes: int, fits: str | None
):
    # It is nine, the bell rings at 09:46 and three minutes are for leaving. A dryer that has taught
    # nothing yet says "dry" after 40 fan minutes, and even chances come after 8.036 (prior).
    school.wait(minutes)
    assert hang(school.file, school.hand(), person=OLU, clip=17).before_bell == fits
