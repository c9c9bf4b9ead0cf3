from __future__ import annotations

import pytest

from filmrack.acts.drying import enough_hours, flip, flip_rod, touch, turn_dial
from filmrack.acts.fetching import box
from filmrack.acts.hanging import hang, load
from filmrack.acts.undoing import undo
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.roll import Roll
from filmrack.domain.touch import TimedCheck
from filmrack.store import fan, folding, teaching
from filmrack.store.checking import problems
from filmrack.store.lessons import learned_by
from filmrack.store.lessons_told import checks_told
from filmrack.store.standings import see
from tests.conftest import OLU, School


@pytest.fixture
def wet(school: School) -> Roll:
    return hang(school.file, school.hand(), person=OLU, clip=17).roll


def state(school: School, roll: Roll) -> str | None:
    return see(school.file, [school.roll(roll.id)], school.now).standings[0].state


def test_a_roll_flipped_halfway_is_worth_a_touch_and_dry_when_the_finger_says_so(
    school: School, wet: Roll
):
    seen = see(school.file, [wet], school.now).standings[0]
    assert seen.outlook is not None
    assert seen.outlook.flip_at is not None
    assert seen.state == "wet"
    school.now = seen.outlook.flip_at
    assert state(school, wet) == "flip"
    flip(school.file, school.hand(), [wet.id])
    assert state(school, wet) == "wet"
    school.wait(5)
    assert state(school, wet) == "touch"
    touch(school.file, school.hand(), wet.id, dry=True)
    assert state(school, wet) == "dry"


def test_a_rod_is_flipped_where_its_strips_are_wet_and_not_where_they_are_dry(school: School):
    dry = hang(school.file, school.hand(), person=OLU, clip=17, rod=1).roll
    school.wait(400)
    turned, waiting = (
        hang(school.file, school.hand(), person=OLU, clip=clip, rod=1).roll for clip in (18, 19)
    )
    flip(school.file, school.hand(), [turned.id])
    flipped, left, early = flip_rod(school.file, school.hand(), 1)
    assert [roll.id for roll in flipped] == [waiting.id]
    assert [roll.id for roll in early] == [waiting.id]
    assert left == ("clip 17 is dry", "clip 18 is flipped already")
    assert [school.roll(roll.id).flipped for roll in (dry, turned)] == [False, True]
    with pytest.raises(
        Refused, match=r"no strip on rod 1 wants flipping \(clip 17 is dry, clips 18 19 are flipped"
    ):
        flip_rod(school.file, school.hand(), 1)
    flip(school.file, school.hand(), [dry.id])
    assert school.roll(dry.id).flipped


def test_a_tacky_finger_beats_a_dry_one_before(school: School, wet: Roll):
    school.wait(9)
    touch(school.file, school.hand(), wet.id, dry=True)
    school.wait(1)
    touch(school.file, school.hand(), wet.id, dry=False)
    assert state(school, wet) != "dry"


def test_film_hung_overnight_is_dry(school: School, wet: Roll):
    # Common practice: what hung for twelve hours is dry.
    school.wait(12 * 60)
    assert state(school, wet) == "dry"


def test_when_one_of_several_does_not_hang_none_is_flipped(school: School, wet: Roll):
    (tank,) = load(school.file, school.hand(), OLU, [18]).rolls
    before = school.dump()
    with pytest.raises(Refused, match=r"does not hang \(in the tank\): hang it first"):
        flip(school.file, school.hand(), [wet.id, tank.id])
    assert school.dump() == before


def test_the_dial_is_turned_to_the_rooms_hours_or_to_those_named(school: School):
    run = turn_dial(school.file, school.hand())
    assert run is not None
    assert (run.ends - run.starts).total_seconds() == 3600
    run = turn_dial(school.file, school.hand(), 2.5)
    assert run is not None
    assert (run.ends - run.starts).total_seconds() == 9000


@pytest.mark.parametrize("hours", [-1, 24.5, float("nan"), float("inf")])
def test_no_dial_goes_so_far(school: School, hours: float):
    with pytest.raises(Refused, match="give hours from 0 to 24"):
        turn_dial(school.file, school.hand(), hours)


def test_an_unknown_dryer_is_refused_with_those_there_are(school: School):
    with pytest.raises(Refused, match=r"name one of 1 \(Dryer\)"):
        turn_dial(school.file, school.hand(), 1, 7)


def test_a_fan_found_off_late_stops_from_then_on(school: School, wet: Roll):
    school.wait(20)
    assert turn_dial(school.file, school.hand(10), 0) is None
    (run,) = fan.runs(school.file.conn, wet.since)[1]
    assert (run.ends, run.refuted) == (school.hand(10).at, True)


@pytest.mark.parametrize("minutes", [0, 20])
def test_a_check_under_a_fan_that_is_found_off_later_teaches_nothing_more(
    school: School, wet: Roll, minutes: float
):
    school.wait(30)
    touch(school.file, school.hand(), wet.id, dry=True)
    assert checks_told(school.file.conn, 1) == [[TimedCheck(30.0, 0.0, dry=True)]]
    school.wait(minutes)
    turn_dial(school.file, school.hand(), 0)
    assert checks_told(school.file.conn, 1) == []
    assert problems(school.file) == []
    undo(school.file, school.hand())
    assert checks_told(school.file.conn, 1) == [[TimedCheck(30.0, 0.0, dry=True)]]
    assert problems(school.file) == []


def test_a_check_is_learned_from_once_and_forgotten_when_told_otherwise(school: School, wet: Roll):
    conn = school.file.conn
    turn_dial(school.file, school.hand(), 2)
    before = learned_by(conn, 1).posterior.against
    school.wait(9)
    box(school.file, school.hand(), [wet.id])
    assert conn.execute("SELECT count(*) FROM lessons").fetchone()[0] == 1
    after = learned_by(conn, 1).posterior.against
    assert list(after) != list(before)
    # A late word on the fan changes what the check is worth.
    turn_dial(school.file, school.hand(5), 0)
    assert list(learned_by(conn, 1).posterior.against) != list(after)


def test_what_was_learned_check_by_check_is_what_is_learned_anew(
    school: School, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(teaching, "COUNTED_ROLLS", 3)
    file = school.file

    def learned_anew() -> bool:
        told = "SELECT * FROM learned"
        kept = [tuple(row) for row in file.conn.execute(told)]
        with file.writing() as conn:
            folding.fold_anew(conn, file.room())
        counting = "SELECT count(*) FROM lessons WHERE evidence <> x''"
        assert file.conn.execute(counting).fetchone()[0] <= 3
        return kept == [tuple(row) for row in file.conn.execute(told)]

    for clip in range(1, 6):
        roll = hang(file, school.hand(), person=OLU, clip=clip).roll
        school.wait(7)
        touch(file, school.hand(), roll.id, dry=False)
        assert learned_anew()
        school.wait(3)
        box(file, school.hand(), [roll.id])
        assert learned_anew()
    turn_dial(file, school.hand(25), 0)
    assert learned_anew()
    for _ in range(5):
        undo(file, school.hand())
        assert learned_anew()
    assert file.conn.execute("SELECT count(*) FROM lessons").fetchone()[0] == 4


def test_a_damaged_sum_is_damage_to_the_file(school: School, wet: Roll):
    touch(school.file, school.hand(), wet.id, dry=False)
    school.file.conn.execute("UPDATE learned SET evidence = x''")
    school.wait(9)
    with pytest.raises(FileTrouble, match="damaged"):
        touch(school.file, school.hand(), wet.id, dry=True)


def test_a_finger_told_late_counts_where_it_was(school: School, wet: Roll):
    school.wait(20)
    touch(school.file, school.hand(10), wet.id, dry=False)
    touch(school.file, school.hand(15), wet.id, dry=False)
    assert [check.at for check in school.roll(wet.id).checks] == [
        school.hand(15).at,
        school.hand(10).at,
    ]


def test_a_dial_set_for_much_longer_than_film_needs_is_said_so(school: School):
    # A dryer that has taught nothing calls film dry after 40 fan minutes: one hour on the dial.
    for hours, enough in ((1, None), (1.5, None), (2, 1.0), (8, 1.0)):
        run = turn_dial(school.file, school.hand(), hours)
        assert run is not None
        assert enough_hours(school.file, run) == enough
        school.wait(1)
