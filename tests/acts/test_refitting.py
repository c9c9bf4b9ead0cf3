from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filmrack.acts.fetching import box
from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.group import Hand
from filmrack.acts.hanging import hang, load
from filmrack.acts.refitting import add_days_off, change_room, export_room, refit
from filmrack.acts.undoing import undo
from filmrack.domain.default_room import default_room
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.domain.room import Binder, Box, Dryer, Period, Rod, Room
from filmrack.domain.roomchange import with_entry, with_field, with_plan, with_value, without
from filmrack.domain.schooldays import DayOff, Term
from filmrack.domain.timetable import Timetable
from filmrack.store import ledger, people
from filmrack.store.checking import problems
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.room import kept_room_file
from tests.conftest import TUESDAY_9_00 as NOW
from tests.domain.rooms import rooms

SPRING = Term("27S", date(2027, 1, 1), date(2027, 6, 30))


@pytest.fixture
def mara(file: DarkroomFile) -> int:
    with file.writing() as conn:
        number = people.add(conn, Person(0, "Mara", "Okafor"))
        people.enrol(conn, number, "26F", 2)
        return number


def hand(minutes: int = 0) -> Hand:
    return Hand(NOW + timedelta(minutes=minutes), NOW + timedelta(minutes=minutes))


def with_terms(file: DarkroomFile, *terms: Term) -> Timetable:
    timetable = file.room().timetable
    return Timetable(timetable.zone, timetable.plans, timetable.days._replace(terms=terms))


def test_what_changed_is_read_back_by_every_desk(file: DarkroomFile):
    with open_file(file.path, write=False) as other:
        room = other.room()
        changed = room._replace(
            name="Room 12",
            dryers=(*room.dryers, Dryer(2, "Old cabinet", 1750, 1.5)),
            rods=(*room.rods, Rod(7, 2, 8, None, 60, "right")),
            binders=(Binder("26F", 1, 3),),
            initials_on_sleeves=True,
        )
        refit(file, hand(), changed)
        assert other.room() == changed
        assert file.room() == changed


def test_two_periods_change_their_names_and_boxes(file: DarkroomFile):
    room = file.room()
    changed = room._replace(
        periods=(Period(1, "Period 2"), Period(2, "Period 1"), *room.periods[2:]),
        boxes=(Box(1, 2), Box(2, 1), *room.boxes[2:]),
    )
    refit(file, hand(), changed)
    assert file.room() == changed


def test_a_rod_is_not_taken_from_over_a_roll(file: DarkroomFile, mara: int):
    roll = hang(file, hand(), person=mara, clip=1).roll
    room = file.room()
    with pytest.raises(Refused, match=f"rod 2 cannot go while {roll.number} is there"):
        refit(file, hand(), room._replace(rods=tuple(rod for rod in room.rods if rod.number != 2)))
    assert file.room() == room


def test_a_rod_is_not_cut_short_over_a_roll_but_before_one_it_is(file: DarkroomFile, mara: int):
    roll = hang(file, hand(), person=mara, clip=1, rod=2, position=9).roll
    room = file.room()

    def of(positions: int) -> tuple[Rod, ...]:
        return tuple(r._replace(positions=positions) if r.number == 2 else r for r in room.rods)

    with pytest.raises(Refused, match=f"only 8 positions while {roll.number} is"):
        refit(file, hand(), room._replace(rods=of(8)))
    refit(file, hand(), room._replace(rods=of(9)))
    assert file.room().rods[1].positions == 9


def test_a_box_with_rolls_in_it_stays(file: DarkroomFile, mara: int):
    rolls = [hang(file, hand(n), person=mara, clip=n).roll for n in range(1, 8)]
    box(file, hand(60), [roll.id for roll in rolls])
    room = file.room()
    with pytest.raises(Refused, match=rf"{rolls[0].number}, .* and 2 more are in it"):
        refit(file, hand(), room._replace(boxes=tuple(b for b in room.boxes if b.number != 2)))


def test_a_period_with_rolls_stays_and_its_name_is_known_when_it_has_gone(
    file: DarkroomFile, mara: int
):
    roll = load(file, hand(), mara, [1]).rolls[0]
    room = file.room()
    changed = room._replace(
        periods=tuple(period for period in room.periods if period.number != 2),
        rods=tuple(rod._replace(period=None) if rod.period == 2 else rod for rod in room.rods),
        boxes=tuple(one for one in room.boxes if one.period != 2),
        timetable=Timetable(
            room.timetable.zone,
            {
                day: tuple(slot for slot in plan if slot.period != 2)
                for day, plan in room.timetable.plans.items()
            },
            room.timetable.days,
        ),
    )
    with pytest.raises(Refused, match=f"Period 2 cannot go while {roll.number} is not sleeved"):
        refit(file, hand(), changed)
    with file.writing() as conn:
        conn.execute("UPDATE rolls SET place = 'sleeve', clip = NULL, sleeved_at = since")
    refit(file, hand(), changed)
    assert [period.number for period in file.room().periods] == [1, 3, 4, 5, 6]
    assert file.room().period(2) == Period(2, "Period 2")
    refit(file, hand(), room)
    assert file.room() == room


def test_a_term_with_rolls_or_people_stays(file: DarkroomFile, mara: int):
    refit(
        file, hand(), file.room()._replace(timetable=with_terms(file, SPRING, *file.room().terms))
    )
    with pytest.raises(Refused, match="1 person is enrolled in it, keep the term"):
        refit(file, hand(), file.room()._replace(timetable=with_terms(file, SPRING)))
    roll = load(file, hand(), mara, [1]).rolls[0]
    with pytest.raises(Refused, match=f"{roll.number} is numbered in it, keep the term"):
        refit(file, hand(), file.room()._replace(timetable=with_terms(file, SPRING)))
    refit(file, hand(), file.room()._replace(timetable=with_terms(file, file.room().terms[0])))
    assert [term.code for term in file.room().terms] == ["26F"]


def test_a_closed_term_keeps_its_dates(file: DarkroomFile):
    with file.writing() as conn:
        conn.execute("UPDATE terms SET closed_at = '2026-12-31T12:00:00Z'")
    longer = file.room().terms[0]._replace(ends=date(2027, 1, 15))
    with pytest.raises(Refused, match="26F is closed"):
        refit(file, hand(), file.room()._replace(timetable=with_terms(file, longer)))
    refit(
        file, hand(), file.room()._replace(timetable=with_terms(file, *file.room().terms, SPRING))
    )
    with pytest.raises(Refused, match="26F is closed"):
        refit(file, hand(), file.room()._replace(timetable=with_terms(file, SPRING)))


def test_a_binder_that_the_room_file_does_not_name_stays(file: DarkroomFile):
    refit(file, hand(), file.room()._replace(binders=(Binder("26F", 1, 3), Binder("26F", 2, None))))
    refit(file, hand(), file.room()._replace(binders=(Binder("26F", 2, 4),)))
    assert file.room().binders == (Binder("26F", 1, 3), Binder("26F", 2, 4))


def test_the_text_of_the_room_file_is_kept_with_the_room_it_made(file: DarkroomFile):
    assert kept_room_file(file.conn) is None
    refit(file, hand(), file.room(), "# ours\n")
    assert kept_room_file(file.conn) == "# ours\n"
    with pytest.raises(Refused):
        refit(file, hand(), file.room()._replace(boxes=(Box(1, 9),)), "# worse\n")
    assert kept_room_file(file.conn) == "# ours\n"


def test_a_room_that_no_room_file_could_hold_is_refused(file: DarkroomFile):
    room = file.room()
    for rod in (Rod(100, 1, 5, 1), Rod(7, 1, 100, 1), Rod(7, 1, 5, 1, 0)):
        with pytest.raises(Refused, match=r"rods\[7\]"):
            refit(file, hand(), room._replace(rods=(*room.rods, rod)))
    assert file.room() == room


def test_days_off_are_added_once(file: DarkroomFile):
    snow = DayOff("Snow", date(2026, 12, 1), date(2026, 12, 2))
    fair = DayOff("Fair", date(2026, 11, 20), date(2026, 11, 20))
    assert add_days_off(file, hand(), [snow]) == [snow]
    assert add_days_off(file, hand(), [fair, snow]) == [fair]
    assert file.room().timetable.days.days_off == (fair, snow)
    assert not file.room().timetable.days.is_school_day(date(2026, 12, 2))


def test_the_room_file_goes_out_with_the_comments_it_came_with(file: DarkroomFile):
    text = export_room(file).replace('name = "Darkroom"', 'name = "Darkroom"  # by the stairs')
    refit(file, hand(), file.room(), text)
    add_days_off(file, hand(), [DayOff("Snow", date(2026, 12, 1), date(2026, 12, 2))])
    assert 'name = "Darkroom"  # by the stairs' in export_room(file)
    assert "Snow" in export_room(file)


def test_a_change_of_the_room_is_on_the_ledger_and_taken_back(file: DarkroomFile):
    before = file.room()
    refit(file, hand(), before._replace(name="Cellar"))
    (entry,) = ledger.of_group(file.conn, 1)
    assert (entry.act, entry.roll, entry.by) == ("room", None, "teacher")
    assert problems(file) == []
    undo(file, hand(1))
    assert file.room() == before
    assert problems(file) == []


def test_what_changes_nothing_is_not_on_the_ledger(file: DarkroomFile):
    refit(file, hand(), file.room(), export_room(file))
    assert add_days_off(file, hand(), []) == []
    assert ledger.latest_entered(file.conn) is None


def test_a_change_is_not_taken_back_from_under_rolls(file: DarkroomFile, mara: int):
    room = file.room()
    teacher = Hand(NOW, NOW, "desk 2")
    refit(file, teacher, room._replace(rods=(*room.rods, Rod(9, 1, 4, None))))
    hang(file, hand(1), person=mara, clip=6, rod=9)
    with pytest.raises(Refused, match="rod 9 cannot go while"):
        undo(file, Hand(NOW + timedelta(minutes=4), NOW + timedelta(minutes=4), "desk 2"))
    assert file.room().rod(9) is not None


def test_a_student_desk_changes_no_room(file: DarkroomFile):
    student = Hand(NOW, NOW, "desk 1", "student desk")
    with pytest.raises(Refused, match="changing the room is not for a student desk"):
        refit(file, student, file.room()._replace(name="Mine"))


@given(st.lists(rooms(), min_size=1, max_size=3))
@settings(max_examples=25)
def test_a_file_without_rolls_takes_any_room_after_any_other(some: list[Room]):
    with TemporaryDirectory() as folder:
        first = default_room("America/Chicago", NOW.date())
        with make_darkroom_file(Path(folder) / "darkroom.db", first, NOW) as file:
            file.conn.execute("PRAGMA synchronous = OFF")
            named: dict[tuple[str, int], Binder] = {}
            for room in some:
                refit(file, hand(), room)
                read = file.room()
                # Binders that are not named stay with their term.
                terms = {term.code for term in room.terms}
                named = {key: one for key, one in named.items() if key[0] in terms}
                named |= {(one.term, one.number): one for one in room.binders}
                binders = tuple(named[key] for key in sorted(named))
                assert read._replace(former_periods=()) == room._replace(binders=binders)


def test_a_binder_goes_where_it_is_empty_and_comes_back_by_undo(file: DarkroomFile):
    binders = (Binder("26F", 1, 3), Binder("26F", 2, None))
    refit(file, hand(), file.room()._replace(binders=binders))
    change_room(file, hand(), lambda room: without(room, "binders", ("26F", "2")))
    assert file.room().binders == binders[:1]
    assert undo(file, hand(1)).settings == ("binder 26F-02 is there again",)
    assert file.room().binders == binders
    assert problems(file) == []


def test_a_binder_that_was_added_goes_with_its_undo(file: DarkroomFile):
    new = {"term": "26F", "number": 4}
    change_room(file, hand(), lambda room: with_entry(room, "binders", dict(new)))
    assert undo(file, hand(1)).settings == ("binder 26F-04 is gone again",)
    assert file.room().binders == ()


def test_a_binder_with_sleeves_stays_and_names_them(file: DarkroomFile, mara: int):
    roll = load(file, hand(), mara, [1]).rolls[0]
    refit(file, hand(), file.room()._replace(binders=(Binder("26F", 3, None),)))
    with file.writing() as conn:
        conn.execute(
            "UPDATE rolls SET place = 'binder', binder = 3, clip = NULL, sleeved_at = since"
        )
    remove = partial(without, table="binders", name=("26F", "3"))
    with pytest.raises(Refused, match=f"binder 26F-03 cannot go while {roll.number} is filed"):
        change_room(file, hand(), remove)
    with file.writing() as conn:  # what was handed back from it still says where it stood
        conn.execute("UPDATE rolls SET place = 'handed_back', gone_at = since")
    with pytest.raises(Refused, match=f"on the record of {roll.number}"):
        change_room(file, hand(), remove)
    assert file.room().binders == (Binder("26F", 3, None),)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (
            lambda room: with_value(room, ("rules", "process_minutes"), 40),
            ["developing: 35 min again, it was 40 min"],
        ),
        (
            lambda room: with_field(room, "rods", ("2",), "positions", 9),
            ["rod 2, positions: 10 again, it was 9"],
        ),
        (
            lambda room: with_field(room, "rods", ("2",), "period", None),
            ["rod 2, period: 2 again, it was anyone"],
        ),
        (
            lambda room: with_entry(
                room, "days_off", {"name": "Fair", "first": date(2026, 11, 30)}
            ),
            ["the day off Mon 30 Nov 2026 (Fair) is gone again"],
        ),
        (lambda room: with_plan(room, "fri", []), ["plan fri: "]),
        (  # and neither its rod, nor its box, nor its classes once more
            lambda room: with_field(room, "periods", ("2",), "name", "First hour"),
            ["Period 2, name: Period 2 again, it was First hour"],
        ),
        (lambda room: with_value(room, ("labels", "initials_on_sleeves"), True), ["initials: no"]),
    ],
)
def test_undo_says_which_setting_is_what_again(
    file: DarkroomFile, change: Callable[[Room], Room], told: list[str]
):
    change_room(file, hand(), change)
    settings = undo(file, hand(1)).settings
    assert len(settings) == len(told)
    for words, begins in zip(settings, told, strict=True):
        assert words.startswith(begins)
        assert "again" in words


def test_a_binder_of_a_period_that_is_gone_keeps_no_day_off_away(file: DarkroomFile):
    refit(file, hand(), file.room()._replace(binders=(Binder("26F", 1, 6),)))
    # A room file without that period, which does not name the binder.
    refit(file, hand(), without(file.room(), "periods", ("6",))._replace(binders=()))
    fair = DayOff("Fair", date(2026, 11, 20), date(2026, 11, 20))
    assert add_days_off(file, hand(), [fair]) == [fair]
    assert file.room().binders == (Binder("26F", 1, None),)
