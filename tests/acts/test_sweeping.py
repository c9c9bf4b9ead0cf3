"""A sweep is begun, left, taken up and finished; what is missing then, and what is not."""

from __future__ import annotations

import pytest

from filmrack.acts import lending, undoing
from filmrack.acts.drying import touch
from filmrack.acts.fetching import take
from filmrack.acts.hanging import hang
from filmrack.acts.scans import Scan, read_scans
from filmrack.acts.sweep_boxing import Swept
from filmrack.acts.sweeping import miss_after, sweep
from filmrack.domain.attention import Standing
from filmrack.domain.codes import clip_code, rod_code
from filmrack.domain.refusal import Refused
from filmrack.store import checking, rolls, sweeps
from filmrack.store.findings import findings
from filmrack.store.open_counts import left_open
from filmrack.store.standings import see
from filmrack.store.unseen import rods_through
from tests.acts.conftest import places
from tests.conftest import OLU, School, longer_rods


def standings(school: School) -> list[Standing]:
    return list(see(school.file, rolls.hanging(school.file.conn), school.now).standings)


def explained(school: School, **step: object) -> list[str]:
    return [each.told for each in sweep(school.file, school.hand(), finish=True, **step).open]


def test_a_count_that_nobody_explains_is_open_when_the_sweep_is_finished(
    school: School, hung: list[int]
):
    sweep(school.file, school.hand(), counts={2: 1})
    assert explained(school) == ["Rod 2: 1 of 3 counted, nobody said which 2 are not there"]
    last = sweeps.finished(school.file.conn, 1)[0][0].id
    lending.missing(school.file, school.hand(), [hung[0]])  # of another rod, and of no sweep
    assert [each.off for each in left_open(school.file.conn, last)] == [2]
    miss_after(school.file, school.hand(), last, hung[1])
    (still,) = left_open(school.file.conn, last)
    assert still.told == "Rod 2: 1 of 3 counted, nobody said which other is not there"
    miss_after(school.file, school.hand(), last, hung[2])
    assert left_open(school.file.conn, last) == ()


def test_more_strips_than_listed_are_open_until_one_that_strayed_there_is_scanned(
    school: School, hung: list[int]
):
    sweep(school.file, school.hand(), counts={2: 4})
    told = "Rod 2: 4 counted, 3 should hang, nobody said which is one too many"
    assert explained(school) == [told]
    last = sweeps.finished(school.file.conn, 1)[0][0].id
    assert [each.told for each in left_open(school.file.conn, last)] == [told]
    undoing.undo(school.file, school.hand())
    scans = read_scans(school.file, [rod_code(2), clip_code(1, "A")])
    assert explained(school, scans=scans) == []


@pytest.mark.parametrize("how", ["missing", "elsewhere", "with its owner", "scanned"])
def test_a_short_count_is_explained_by_whatever_is_said_of_the_one_that_is_not_there(
    school: School, hung: list[int], how: str
):
    sweep(school.file, school.hand(), counts={2: 2})
    match how:
        case "missing":
            sweep(school.file, school.hand(), missing=[hung[1]])
        case "elsewhere":
            scans = read_scans(school.file, [rod_code(1), clip_code(2, "A")])
            sweep(school.file, school.hand(), scans=scans)
        case "with its owner":
            take(school.file, school.hand(), hung[1])
        case _:
            scans = read_scans(school.file, [rod_code(2), clip_code(3, "A"), clip_code(4, "A")])
            sweep(school.file, school.hand(), scans=scans)
    assert explained(school) == []


def test_a_rod_that_nobody_counted_or_scanned_is_left_alone(school: School, hung: list[int]):
    finished = sweep(school.file, school.hand(), counts={2: 2}, finish=True)
    assert (finished.missing, finished.boxed) == ([], [])
    assert "missing" not in places(school, hung)


def test_an_empty_rod_that_should_not_be_names_all_that_should_hang_there(
    school: School, hung: list[int]
):
    assert sweep(school.file, school.hand(), counts={2: 0}, finish=True).missing == hung[1:]


def test_a_rod_that_a_hand_left_is_through_for_every_desk_until_it_is_counted_again(
    school: School, hung: list[int]
):
    sweep(school.file, school.hand(), counts={2: 2}, scans=[Scan(hung[1], rod=2)])
    school.wait(1)
    assert not sweep(school.file, school.hand(desk="desk 1")).rods[2].left
    left = sweep(school.file, school.hand(desk="desk 1"), left=2).rods[2]
    assert (left.left, left.expected, left.counted, left.matched) == (True, 3, 2, 1)
    assert rods_through(school.file.conn, 1, standings(school)) == {2}
    assert checking.problems(school.file) == []
    assert not sweep(school.file, school.hand(), counts={2: 1}).rods[2].left
    undoing.undo(school.file, school.hand())
    assert sweeps.counts(school.file.conn, 1)[2].left
    undoing.undo(school.file, school.hand(desk="desk 1"))
    assert sweeps.counts(school.file.conn, 1)[2] == left._replace(left=False)


def test_a_rod_of_which_nothing_is_told_cannot_be_left_and_no_sweep_begins(
    school: School, hung: list[int]
):
    with pytest.raises(Refused, match="rod 2 was neither counted nor scanned"):
        sweep(school.file, school.hand(), left=2)
    assert sweeps.going_on(school.file.conn) is None


def test_a_sweep_left_at_one_desk_is_taken_up_at_another_with_its_period(
    school: School, hung: list[int]
):
    begun = sweep(school.file, school.hand(desk="desk 1"), period=2)
    assert list(begun.hanging) == [2]
    school.wait(3)
    going = sweep(school.file, school.hand(desk="desk 2"), period=1, counts={2: 3})
    assert (going.sweep, list(going.hanging), going.boxed) == (begun.sweep, [2], hung[1:])
    finished = sweep(school.file, school.hand(desk="desk 1"), finish=True)
    assert (finished.finished, list(finished.hanging)) == (True, [2])
    assert sweeps.going_on(school.file.conn) is None


def test_film_hung_after_its_rod_was_scanned_is_not_missing(school: School, hung: list[int]):
    sweep(school.file, school.hand(), scans=[Scan(number) for number in hung[1:]])
    school.wait(1000)
    fresh = hang(school.file, school.hand(), person=OLU, clip=9).roll
    assert sweep(school.file, school.hand(), finish=True).missing == []
    assert school.roll(fresh.id).place.kind == "rod"


def test_a_period_without_a_rod_has_nothing_to_sweep(school: School):
    with pytest.raises(Refused, match="no rod is given to period 9: sweep the whole dryer"):
        sweep(school.file, school.hand(), period=9)


def test_a_missing_roll_that_turns_up_at_the_next_sweep_is_boxed(school: School, hung: list[int]):
    sweep(school.file, school.hand(), counts={2: 0}, finish=True)
    school.wait(1000)
    swept = sweep(school.file, school.hand(), scans=[Scan(hung[1], rod=1)])
    assert (swept.wrong_place, places(school, hung[1:2])) == ([hung[1]], ["box 2"])


def test_a_roll_that_was_found_tacky_while_its_rod_was_scanned_hangs_on_and_so_do_those_beside_it(
    school: School, hung: list[int]
):
    school.wait(400)  # dry of the night, whatever the touch teaches
    sweep(school.file, school.hand(), scans=[Scan(hung[1])])
    school.wait(1)
    touch(school.file, school.hand(), hung[2], dry=False)
    assert sweep(school.file, school.hand(), finish=True).missing == []


@pytest.fixture
def half_dry(school: School) -> list[int]:
    """Five rolls on rod 2: two dry by the record, three hung ten minutes ago; clips 1 to 5."""
    longer_rods(school, 5)
    rolls_hung = [_hang_on_2(school, clip) for clip in (1, 2)]
    school.wait(400)
    rolls_hung += [_hang_on_2(school, clip) for clip in (3, 4, 5)]
    school.wait(10)
    return rolls_hung


def _hang_on_2(school: School, clip: int) -> int:
    return hang(school.file, school.hand(), person=OLU, clip=clip, rod=2).roll.id


def _finished_after(school: School, found: list[int], count: int | None = None) -> Swept:
    counts = {} if count is None else {2: count}
    sweep(school.file, school.hand(), counts=counts, scans=[Scan(each, rod=2) for each in found])
    school.wait(30)
    return sweep(school.file, school.hand(), finish=True)


def test_what_is_dry_is_taken_down_by_scans_and_what_is_wet_hangs_on(
    school: School, half_dry: list[int]
):
    assert _finished_after(school, half_dry[:2]).missing == []
    assert places(school, half_dry[2:]) == [f"rod 2, position {n}" for n in (3, 4, 5)]


def test_what_is_dry_and_was_not_scanned_beside_wet_film_hangs_on(
    school: School, half_dry: list[int]
):
    assert _finished_after(school, half_dry[:1]).missing == []
    assert places(school, half_dry[1:2]) == ["rod 2, position 2"]


def test_what_is_dry_is_missing_beside_wet_film_when_a_count_says_so(
    school: School, half_dry: list[int]
):
    assert _finished_after(school, half_dry[:1], count=4).missing == half_dry[1:2]


def test_what_dries_after_its_rods_turn_is_not_missing_at_the_end(
    school: School, half_dry: list[int]
):
    sweep(school.file, school.hand(), scans=[Scan(each, rod=2) for each in half_dry[:2]])
    school.wait(1000)
    assert sweep(school.file, school.hand(), finish=True).missing == []


def test_a_count_without_room_for_what_is_wet_says_that_some_of_it_is_gone(
    school: School, half_dry: list[int]
):
    assert _finished_after(school, half_dry[:2], count=4).missing == half_dry[2:]


def test_what_is_wet_hangs_on_once_the_one_that_is_gone_is_told(
    school: School, half_dry: list[int]
):
    sweep(school.file, school.hand(), counts={2: 4}, missing=half_dry[2:3])
    assert _finished_after(school, half_dry[:2]).missing == []


def test_a_stray_that_is_scanned_does_not_make_the_rods_own_missing(
    school: School, hung: list[int]
):
    sweep(school.file, school.hand(), scans=[Scan(hung[0], rod=2)])
    assert sweep(school.file, school.hand(), finish=True).missing == []


def test_a_count_that_the_strays_explain_says_that_nothing_of_the_rod_is_missing(
    school: School, hung: list[int]
):
    sweep(school.file, school.hand(), counts={2: 4})  # three should hang
    sweep(school.file, school.hand(), scans=[Scan(each, rod=2) for each in hung[:2]])
    finished = sweep(school.file, school.hand(), finish=True)
    assert (finished.missing, finished.open) == ([], ())
    assert places(school, hung[2:]) == ["rod 2, position 2", "rod 2, position 3"]


def test_more_than_are_listed_name_nothing_as_missing_and_ask_for_the_strays(
    school: School, hung: list[int]
):
    sweep(school.file, school.hand(), counts={2: 5}, scans=[Scan(hung[1], rod=2)])
    finished = sweep(school.file, school.hand(), finish=True)
    assert finished.missing == []
    told = "Rod 2: 5 counted, 3 should hang, nobody said which 2 are too many"
    assert [each.told for each in finished.open] == [told]


def test_a_count_behind_a_stray_is_of_what_hangs_there_still(school: School, hung: list[int]):
    sweep(school.file, school.hand(), scans=[Scan(hung[0], rod=2)])
    one_short = sweep(school.file, school.hand(), counts={2: 2})
    assert (one_short.rods[2].counted, one_short.boxed) == (3, [])
    assert sweeps.counts(school.file.conn, one_short.sweep)[2].wrong
    assert explained(school) == [
        "Rod 2: 3 of 3 counted, 1 from elsewhere, nobody said which is not there"
    ]
    undoing.undo(school.file, school.hand())
    right = sweep(school.file, school.hand(), counts={2: 3}, finish=True)
    assert (right.boxed, right.missing, right.open) == (hung[1:], [], ())
    assert checking.problems(school.file) == []


def test_a_roll_that_is_missing_by_a_persons_word_leaves_its_rod_with_a_right_count(
    school: School, hung: list[int]
):
    missed = sweep(school.file, school.hand(), missing=[hung[2]])
    assert (missed.missing, places(school, hung[2:3])) == ([hung[2]], ["missing"])
    swept = sweep(school.file, school.hand(), counts={2: 2}, finish=True)
    assert (swept.boxed, swept.missing) == ([hung[1], hung[3]], [])
    told = findings(school.file.conn, swept.sweep)
    assert [roll.id for roll in told.missing] == [hung[2]]


def test_a_missed_roll_that_is_scanned_after_all_is_found_and_not_missing(
    school: School, hung: list[int]
):
    sweep(school.file, school.hand(), missing=[hung[2]])
    swept = sweep(school.file, school.hand(), scans=[Scan(hung[2], rod=2)], finish=True)
    told = findings(school.file.conn, swept.sweep)
    assert [each.roll.id for each in told.boxed] == [hung[2]]
    assert hung[2] not in [roll.id for roll in told.missing]


def test_a_roll_is_missing_once(school: School, hung: list[int]):
    sweep(school.file, school.hand(), missing=[hung[2]])
    before = school.dump()
    with pytest.raises(Refused, match="missing"):
        sweep(school.file, school.hand(), missing=[hung[2]])
    assert school.dump() == before


def test_of_a_right_count_what_is_wet_hangs_on_and_its_rod_is_through(
    school: School, hung: list[int]
):
    longer_rods(school, 10)
    wet = hang(school.file, school.hand(), person=OLU, clip=9, rod=2).roll.id
    swept = sweep(school.file, school.hand(), counts={2: 4})
    assert (swept.boxed, swept.hangs_on, swept.rods[2].right) == (hung[1:], [wet], True)
    assert rods_through(school.file.conn, swept.sweep, standings(school)) == {2}
    finished = sweep(school.file, school.hand(), finish=True)
    assert (finished.missing, finished.open) == ([], ())
    assert places(school, [wet]) == ["rod 2, position 4"]
    assert checking.problems(school.file) == []


def test_a_whole_rod_counted_right_while_it_is_scanned_leaves_the_rest_hanging(
    school: School, half_dry: list[int]
):
    sweep(school.file, school.hand(), scans=[Scan(each, rod=2) for each in half_dry[:2]])
    swept = sweep(school.file, school.hand(), counts={2: 5}, finish=True)
    assert (swept.boxed, swept.missing, swept.rods[2].right) == ([], [], True)
