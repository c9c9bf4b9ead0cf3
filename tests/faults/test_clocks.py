"""Clocks that are set back or forward, change to winter time, or differ between two desks."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from filmrack.acts import drying, hanging, undoing
from filmrack.acts.group import Hand
from filmrack.cli.app import run
from filmrack.domain.clock import read_moment
from filmrack.domain.refusal import Refused
from filmrack.store import checking, ledger
from filmrack.store.clock import stand_at
from tests.conftest import MARA, OLU, School

FAST, SLOW = "desk with a fast clock", "desk with a slow clock"


def hand(school: School, desk: str) -> Hand:
    """Return a hand at one of two desks whose clocks are ten minutes apart."""
    now = school.now + timedelta(minutes=10 if desk == FAST else 0)
    return Hand(now, now, desk)


def in_order(school: School, roll: int) -> list[str]:
    return [entry.act for entry in ledger.of_roll(school.file.conn, roll)]


def test_no_act_comes_before_its_cause_when_two_desks_are_ten_minutes_apart(school: School):
    roll = hanging.hang(school.file, hand(school, FAST), person=OLU, clip=17).roll.id
    with pytest.raises(Refused, match=r"was not there yet|cannot begin with"):
        drying.flip(school.file, hand(school, SLOW), [roll])
    school.wait(11)
    drying.flip(school.file, hand(school, SLOW), [roll])
    assert in_order(school, roll) == ["load", "hang", "flip"]
    assert checking.problems(school.file) == []


def test_what_two_desks_with_different_clocks_do_in_turn_stays_sound(school: School):
    refused = 0
    for nth in range(30):
        desk = FAST if nth % 2 else SLOW
        try:
            hanging.hang(school.file, hand(school, desk), person=OLU, clip=nth % 4 + 1)
        except Refused:
            refused += 1
        school.wait(1)
    assert refused < 30
    assert checking.problems(school.file) == []
    # A position that both filled at once by their clocks went to one of them.
    rods = school.file.conn.execute("SELECT rod, position FROM rolls WHERE rod IS NOT NULL")
    places = [tuple(row) for row in rods.fetchall()]
    assert len(places) == len(set(places))


def test_an_entry_that_was_told_before_an_earlier_one_is_named_and_is_no_problem(school: School):
    hanging.hang(school.file, hand(school, FAST), person=OLU, clip=17)
    assert checking.odd_times(school.file) == []
    hanging.hang(school.file, hand(school, SLOW), person=MARA, clip=18)
    odd = checking.odd_times(school.file)
    assert odd
    assert "10 minutes before an earlier one: a clock was set back, or two clocks differ" in odd[0]
    assert checking.problems(school.file) == []


def test_check_names_odd_times_and_is_content(school: School, capsys: pytest.CaptureFixture[str]):
    hanging.hang(school.file, hand(school, FAST), person=OLU, clip=17)
    hanging.hang(school.file, hand(school, SLOW), person=MARA, clip=18)
    assert run(["--db", str(school.file.path), "check"]) == 0
    assert "note: entry" in capsys.readouterr().out


def test_a_clock_set_back_a_day_undoes_nothing_and_refuses_what_cannot_have_been(school: School):
    roll = hanging.hang(school.file, school.hand(), person=OLU, clip=17).roll.id
    school.now -= timedelta(days=1)
    with pytest.raises(Refused):
        drying.touch(school.file, school.hand(), roll, dry=True)
    assert in_order(school, roll) == ["load", "hang"]
    assert checking.problems(school.file) == []


def test_after_a_clock_that_ran_ahead_for_a_while_work_goes_on(school: School):
    school.now += timedelta(days=300)
    ahead = hanging.hang(school.file, school.hand(), person=OLU, clip=17).roll.id
    school.now -= timedelta(days=300)
    today = hanging.hang(school.file, school.hand(), person=MARA, clip=18).roll.id
    drying.flip(school.file, school.hand(), [today])
    with pytest.raises(Refused):
        drying.flip(school.file, school.hand(), [ahead])
    undoing.undo(school.file, Hand(*(2 * [school.now + timedelta(days=300)]), "desk 1"), ahead)
    assert checking.problems(school.file) == []


def test_an_act_in_the_hour_that_comes_twice_keeps_its_order(school: School):
    """In Chicago 01:30 comes twice on 1 November 2026 (IANA time zone database)."""
    first = datetime(2026, 11, 1, 6, 30, tzinfo=UTC)
    room = school.file.room().timetable.zone
    school.now = first + timedelta(minutes=40)  # 01:10 for the second time
    assert read_moment("00:05", room, school.now) == datetime(2026, 11, 1, 5, 5, tzinfo=UTC)
    early = Hand(first, school.now, "desk 1")
    roll = hanging.hang(school.file, early, person=OLU, clip=17).roll.id
    drying.flip(school.file, school.hand(), [roll])
    kept = ledger.of_roll(school.file.conn, roll)
    assert [entry.act for entry in kept] == ["load", "hang", "flip"]
    assert kept[-1].happened - kept[-2].happened == timedelta(minutes=40)
    stays = school.roll(roll).stays
    assert stays[0].until == school.now


def test_a_command_with_a_time_to_come_is_refused(
    school: School, capsys: pytest.CaptureFixture[str]
):
    with school.file.writing() as conn:
        stand_at(conn, school.now)
    before = school.dump()
    command = ["--db", str(school.file.path), "--at", "23:59", "hang", "olu", "--clip", "17"]
    assert run(command) == 1
    assert "that time is still to come" in capsys.readouterr().err
    assert school.dump() == before
