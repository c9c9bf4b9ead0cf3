"""A hang sheet typed in afterwards. The school is the one of conftest, in Chicago."""

from __future__ import annotations

import shutil
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from filmrack.acts import hanging, undoing
from filmrack.acts.catching_up import Caught, catch_up
from filmrack.domain.hangsheet import SheetRow, read_sheet
from filmrack.domain.names import Person
from filmrack.domain.roll import Place
from filmrack.store import ledger, people
from filmrack.store.checking import problems
from tests.conftest import IVO, MARA, OLU, School, open_school

TODAY = date(2026, 11, 17)


def at(hour: int, minute: int) -> datetime:
    """Return a time of today on the wall: Chicago is six hours behind UTC in November."""
    return datetime(2026, 11, 17, hour + 6, minute, tzinfo=UTC)


def typed(school: School, *lines: str, day: date = TODAY, fan_ran: bool = False) -> Caught:
    return catch_up(school.file, read_sheet(lines), day, school.hand(), fan_ran=fan_ran)


@pytest.fixture
def afternoon(school: School) -> School:
    """Return the school at 15:00, when the power is back."""
    school.wait(6 * 60)
    return school


def test_a_row_says_when_a_roll_was_hung_flipped_and_taken(afternoon: School) -> None:
    caught = typed(afternoon, "8:10, 17, Mara, 8:40, 9:20")
    assert caught.refused == ()
    ((line, roll),) = caught.taken
    assert line == 1
    assert (roll.person, roll.period, roll.clip) == (MARA, 1, 17)
    assert roll.place == Place("owner")
    assert [(stay.hung, stay.until, stay.flipped) for stay in roll.stays] == [
        (at(8, 10), at(8, 40), False),
        (at(8, 40), at(9, 20), True),
    ]
    assert problems(afternoon.file) == []


def test_each_row_is_one_group_and_is_taken_back_as_one(afternoon: School) -> None:
    typed(afternoon, "8:10, 17, Mara, 8:40, 9:20", "8:12, 18, Mara")
    groups = afternoon.file.conn.execute("SELECT count(DISTINCT act_group) FROM ledger").fetchone()
    assert groups[0] == 2
    undoing.undo(afternoon.file, afternoon.hand(), 1)
    assert afternoon.roll(1).place.kind == "void"
    assert afternoon.roll(2).place == Place("rod", 1, 2)


def test_rows_are_late_entries_told_now(afternoon: School) -> None:
    typed(afternoon, "8:10, 17, Mara, 8:40")
    for entry in ledger.of_roll(afternoon.file.conn, 1):
        assert entry.entered == afternoon.now
        assert entry.happened in (at(8, 10), at(8, 40))


def test_bad_rows_are_refused_with_their_line_and_why_and_the_others_are_taken(
    afternoon: School,
) -> None:
    caught = typed(
        afternoon,
        "time,clip,who,flipped,taken",
        "8:10,17,Mara,,",
        "8:61,18,Mara,,",
        "8:12,,Mara,,",
        "",
        "8:12,18,Zoë,,",
        "8:30,18,Mara,8:20,",
        ",18,Mara,,",
        "23:10,18,Mara,,",
        "1:40,18,Mara,,",
        "8:15,1000,Mara,,",
        "8:20,5,Olu,,",
    )
    assert [line for line, _ in caught.taken] == [2, 12]
    assert [line for line, _ in caught.refused] == [3, 4, 6, 7, 8, 9, 10, 11]
    why = dict(caught.refused)
    assert "is no time" in why[3]
    assert "which clip" in why[4]
    assert "Zoë" in why[6]
    assert "backwards" in why[7]
    assert "nothing happened" in why[8]
    assert "still to come" in why[9]
    assert "13:40" in why[10]
    assert "from 1 to 999" in why[11]
    assert problems(afternoon.file) == []


def test_a_refused_row_changes_nothing(afternoon: School) -> None:
    before = afternoon.dump()
    # It would load and hang, but the flip of an unhung clip beside it cannot be.
    typed(afternoon, ",17,,8:40,", "8:10,17,Nobody,,")
    assert afternoon.dump() == before


def test_the_same_sheet_typed_again_hangs_nothing_twice(afternoon: School) -> None:
    lines = ("8:10,17,Mara,,", "8:12,5,OA,,9:20", ",17,,8:40,", ",17,,,9:10")
    assert typed(afternoon, *lines).refused == ()
    before = afternoon.dump()
    caught = typed(afternoon, *lines)
    assert caught.taken == ()
    assert all("leave it" in why for _, why in caught.refused)
    assert afternoon.dump() == before


def test_a_row_without_a_time_adds_to_the_roll_that_hangs_noted_on_it(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll
    school.wait(5 * 60)
    caught = typed(school, ",17,MO,9:31,10:20")
    assert caught.refused == ()
    assert school.roll(roll.id).place == Place("owner")
    assert typed(school, ",17,Olu,9:31,").taken == ()


def test_a_roll_that_was_loaded_before_the_power_went_is_the_one_that_is_hung(
    school: School,
) -> None:
    (loaded,) = hanging.load(school.file, school.hand(), OLU, [5]).rolls
    school.wait(300)
    ((_, roll),) = typed(school, "9:20,5,,,").taken
    assert roll.id == loaded.id
    assert roll.place == Place("rod", 2, 1)


def test_a_clip_without_a_name_carries_an_unknown_roll(afternoon: School) -> None:
    ((_, roll),) = typed(afternoon, "8:10,17,,,").taken
    assert (roll.person, roll.period, roll.place.kind) == (None, 1, "rod")


def test_initials_mean_somebody_of_the_class_that_was_on(afternoon: School) -> None:
    with afternoon.file.writing() as conn:
        number = people.add(conn, Person(0, "Osa", "Abe"))
        people.enrol(conn, number, "26F", 1)
    caught = typed(afternoon, "8:10,1,OA,,", "9:10,2,O.A.,,")
    assert [roll.person for _, roll in caught.taken] == [number, OLU]


def test_initials_of_two_in_the_class_are_asked_about(afternoon: School) -> None:
    with afternoon.file.writing() as conn:
        number = people.add(conn, Person(0, "Ida", "Lee"))
        people.enrol(conn, number, "26F", 2)
    ((_, why),) = typed(afternoon, "9:10,2,IL,,").refused
    assert f"Ivo Lindqvist (person {IVO})" in why
    assert f"Ida Lee (person {number})" in why
    assert typed(afternoon, f"9:10,2,person {number},,").refused == ()


def test_film_that_hung_at_the_same_time_gets_positions_side_by_side(afternoon: School) -> None:
    # The first is down again before the second is told of: its position is free now, but was not.
    caught = typed(afternoon, "8:10,1,Mara,8:40,9:30", "8:20,2,Mara,,", "9:40,3,Mara,,")
    assert caught.refused == ()
    assert caught.displaced == ()
    hung = {
        entry.roll: (entry.detail["rod"], entry.detail["position"])
        for _, roll in caught.taken
        for entry in ledger.of_roll(afternoon.file.conn, roll.id)
        if entry.act == "hang"
    }
    assert list(hung.values()) == [(1, 1), (1, 2), (1, 1)]


def test_film_for_which_no_position_was_free_all_the_while_is_looked_for(school: School) -> None:
    # All eight positions of the school are used after the time that is told later.
    for clip in range(1, 9):
        school.wait(1)
        hanging.hang(school.file, school.hand(), person=OLU, clip=clip)
    ((_, roll),) = typed(school, "8:10,17,Mara,,").taken
    assert roll.place.kind == "missing"
    assert roll.seen.kind == "rod"
    assert all(school.roll(number).place.kind == "rod" for number in range(1, 9))


def test_a_clip_used_twice_on_a_day_goes_with_its_second_roll(afternoon: School) -> None:
    caught = typed(afternoon, "9:30,17,Olu,,", "8:10,17,Mara,,9:00")
    assert caught.refused == ()
    mara, olu = (next(r for _, r in caught.taken if r.person == who) for who in (MARA, OLU))
    assert (olu.clip, olu.place.kind) == (17, "rod")
    assert (mara.clip, mara.place.kind) == (None, "owner")
    assert caught.displaced == ()


def test_the_fan_is_assumed_only_where_it_ran(school: School) -> None:
    school.wait(300)
    typed(school, "8:10,17,Mara,,")
    assert ledger.of_the_fan(school.file.conn, at(0, 0)) == []
    typed(school, "8:12,18,Mara,,", fan_ran=True)
    assert len(ledger.of_the_fan(school.file.conn, at(0, 0))) == 1


def test_a_sheet_of_an_earlier_day_is_typed_with_its_day(school: School) -> None:
    ((_, roll),) = typed(school, "8:10,17,Mara,,", day=TODAY - timedelta(days=1)).taken
    assert roll.first_at == at(8, 10) - timedelta(days=1)


def test_columns_may_stand_as_on_the_paper() -> None:
    lines = ["Clip\tInitials\tLoaded\tHung\tFlipped\tTaken\r\n", "17\tMO\t8:00\t8:10\t8:40\t\r\n"]
    assert read_sheet(lines) == [SheetRow(2, "8:10", "17", "MO", "8:40", "")]


@pytest.mark.parametrize(
    "line", ['"', "\0", "a\rb", ",,,,,,,,,", "x" * 200_000, "8:10,[/x],<b>,\x1b[2J,"]
)
def test_whatever_is_typed_is_read_or_refused_but_never_breaks(
    afternoon: School, line: str
) -> None:
    assert typed(afternoon, line).taken == ()


@pytest.mark.parametrize(
    ("text", "hour", "minute"),
    [("8:10", 8, 10), ("0810", 8, 10), ("8.10", 8, 10), ("1:40 pm", 13, 40), ("12:05pm", 12, 5)],
)
def test_times_are_read_as_people_write_them(
    afternoon: School, text: str, hour: int, minute: int
) -> None:
    ((_, roll),) = typed(afternoon, f"{text},17,Mara,,").taken
    assert roll.hung_at == at(hour, minute)


_TIMES = st.one_of(
    st.just(""), st.builds("{}:{:02d}".format, st.integers(8, 14), st.integers(0, 59))
)
_ROWS = st.builds(
    "{},{},{},{},{}".format,
    _TIMES,
    st.integers(1, 5),
    st.sampled_from(["Mara", "OA", "Ivo", "", "Nobody"]),
    _TIMES,
    _TIMES,
)


@settings(
    max_examples=40,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
    deadline=None,
)
@given(st.lists(_ROWS, max_size=9))
@example([",1,Mara,,", "8:00,1,Mara,,", ",1,Mara,,8:00"])
@example(["8:00,1,Mara,,", "8:00,1,Ivo,,"])
@example(["8:00,1,,,", ",1,,,8:00"])
def test_any_sheet_leaves_a_whole_record_and_typed_again_changes_nothing(
    db: Path, lines: list[str]
) -> None:
    with TemporaryDirectory() as folder:
        school = open_school(Path(shutil.copy(db, Path(folder) / "darkroom.db")))
        with school.file:
            school.wait(6 * 60)
            caught = typed(school, *lines)
            told = [line for line, _ in (*caught.taken, *caught.refused)]
            assert sorted(told) == [n for n, line in enumerate(lines, 1) if line.strip(",")]
            assert problems(school.file) == []
            before = school.dump()
            assert typed(school, *(lines[line - 1] for line, _ in caught.taken)).taken == ()
            assert school.dump() == before
