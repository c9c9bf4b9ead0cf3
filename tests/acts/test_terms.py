from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from filmrack.acts.group import Hand
from filmrack.acts.refitting import export_room
from filmrack.acts.terms import open_term
from filmrack.acts.undoing import undo
from filmrack.domain.refusal import Refused
from filmrack.domain.roomfile import examine
from filmrack.domain.schooldays import Term
from filmrack.store.file import DarkroomFile
from filmrack.store.room import read_room
from tests.conftest import TUESDAY_9_00 as NOW

HAND = Hand(NOW, NOW)


def test_the_next_half_year_needs_only_its_code(file: DarkroomFile):
    term = open_term(file, HAND, "27s")
    assert term == Term("27S", date(2027, 1, 1), date(2027, 6, 30))
    assert file.room().terms[-1] == term
    assert file.room().term_at(datetime(2027, 2, 1, tzinfo=UTC)) == term


def test_a_term_that_runs_on_is_let_to_its_end(file: DarkroomFile):
    open_term(file, HAND, "27W", starts=date(2027, 1, 1), ends=date(2027, 2, 10))
    assert open_term(file, HAND, "27S").starts == date(2027, 2, 11)


def test_a_school_has_its_own_dates(file: DarkroomFile):
    term = open_term(file, HAND, "27T", starts=date(2027, 1, 11), ends=date(2027, 3, 19))
    assert (term.starts, term.ends) == (date(2027, 1, 11), date(2027, 3, 19))


@pytest.mark.parametrize(
    ("code", "dates", "why"),
    [
        ("26F", {}, "open already"),
        ("27O", {}, "no term"),
        ("27W", {}, "first and its last day"),
        ("27S", {"starts": date(2026, 12, 1)}, "26F"),
        ("27S", {"ends": date(2026, 12, 1)}, "cannot end"),
        ("27S", {"starts": date(2027, 6, 30), "ends": date(2027, 1, 8)}, "27S cannot end"),
        ("25F", {"ends": date(2026, 7, 1)}, "26F is from Wed 1 Jul 2026"),
    ],
)
def test_a_term_that_cannot_be_is_refused(
    file: DarkroomFile, code: str, dates: dict[str, date], why: str
):
    with pytest.raises(Refused, match=why):
        open_term(file, HAND, code, **dates)
    assert [term.code for term in file.room().terms] == ["26F"]


def test_a_term_opened_by_mistake_is_gone_by_undo(file: DarkroomFile):
    open_term(file, HAND, "27S")
    assert undo(file, HAND).settings == ("term 27S is gone again",)
    assert [term.code for term in file.room().terms] == ["26F"]


def test_a_term_opened_is_a_term_of_the_room_file(file: DarkroomFile):
    open_term(file, HAND, "27S")
    reading = examine(export_room(file).encode())
    assert reading.problems == ()
    assert reading.room == file.room()


def test_a_room_that_does_not_hold_together_gets_no_term(file: DarkroomFile):
    # As by another program: a dryer that a rod needs is gone.
    with file.writing() as conn:
        conn.execute("UPDATE dryers SET gone = 1")
    with pytest.raises(Refused, match=r"no room because of rods\[1\]\.dryer: give the number"):
        open_term(file, HAND, "27S")
    assert [term.code for term in read_room(file.conn).terms] == ["26F"]
