"""Sleeves from binders that were there before the record: common practice in any school."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from filmrack.acts import lending, shelving, undoing
from filmrack.acts.labelling import order
from filmrack.acts.terms import open_term
from filmrack.domain.names import Person
from filmrack.domain.refusal import Refused
from filmrack.store import checking, labelling, people
from tests.conftest import MARA, OLU, School


def test_an_old_sleeve_stands_in_its_binder_with_its_label_queued(school: School) -> None:
    roll = shelving.shelve(school.file, school.hand(), 3)
    assert str(roll.place) == "binder 3"
    assert (roll.serial, roll.film, roll.person, roll.clue) == (1, "135-36", None, None)
    assert labelling.queued_sleeves(school.file.conn) == [(roll.id, 1)]
    assert len(order(school.file, "sleeves", [], school.now).wanted.labels) == 1
    assert checking.problems(school.file) == []


def test_a_roll_over_two_sleeve_pages_has_two_labels(school: School) -> None:
    roll = shelving.shelve(school.file, school.hand(), 3, frames=36, pages=2, film="135-36")
    assert labelling.queued_sleeves(school.file.conn) == [(roll.id, 1), (roll.id, 2)]
    assert roll.frames == 36


@pytest.mark.parametrize("owner", ["Mara Okafor", "okafor, MARA", "S-101", "person 1", " person 1"])
def test_an_owner_who_is_known_by_that_very_name_is_matched(school: School, owner: str) -> None:
    roll = shelving.shelve(school.file, school.hand(), 3, owner=owner)
    assert (roll.person, roll.period, roll.clue) == (MARA, 1, None)


def test_a_name_in_quotes_is_kept_as_written_though_somebody_is_called_so(school: School) -> None:
    roll = shelving.shelve(school.file, school.hand(), 3, owner="“Mara Okafor”")
    assert (roll.person, roll.clue is not None) == (None, True)
    assert [*people.read_notes(school.file.conn, [roll.clue or 0]).values()] == ["Mara Okafor"]


@pytest.mark.parametrize("owner", ["Mara", "Okafor", "M. Okafor", "2023", "Ines & Tom", "=1+1"])
def test_any_other_owner_is_kept_as_it_is_written(school: School, owner: str) -> None:
    roll = shelving.shelve(school.file, school.hand(), 3, owner=owner)
    assert roll.person is None
    assert roll.clue is not None
    assert people.read_notes(school.file.conn, [roll.clue]) == {roll.clue: owner}


def test_two_people_of_one_name_are_not_guessed_at(school: School) -> None:
    with school.file.writing() as conn:
        people.rename(conn, Person(OLU, "Mara", "Okafor"))
    assert shelving.shelve(school.file, school.hand(), 3, owner="Mara Okafor").person is None


def test_without_an_owner_in_that_term_the_binder_says_the_period(school: School) -> None:
    shelving.shelve(school.file, school.hand(), 3, owner="Mara Okafor")
    assert shelving.shelve(school.file, school.hand(), 3, owner="someone").period == 1


def test_sleeves_of_an_earlier_term_are_numbered_in_it(school: School) -> None:
    open_term(school.file, school.hand(), "24S", starts=date(2024, 1, 8), ends=date(2024, 6, 14))
    roll = shelving.shelve(school.file, school.hand(), 1, term="24s")
    assert roll.number.startswith("24S-0001-")


@pytest.mark.parametrize(
    ("binder", "wanted", "why"),
    [
        (0, {}, "no binder 0"),
        (100, {}, "no binder 100"),
        (1, {"term": "19F"}, "there is no term"),
        (1, {"term": "OO"}, "no term"),
        (1, {"frames": 0}, "1 to 39 frames"),
        (1, {"frames": 40}, "1 to 39 frames"),
        (1, {"film": "126-12"}, "no film"),
        (1, {"pages": 0}, "sleeve pages"),
        (1, {"pages": 10}, "sleeve pages"),
        (1, {"owner": "a\u202eb"}, "cannot be shown"),
    ],
)
def test_what_cannot_be_shelved_changes_nothing(
    school: School, binder: int, wanted: dict[str, Any], why: str
) -> None:
    before = school.dump()
    with pytest.raises(Refused, match=why):
        shelving.shelve(school.file, school.hand(), binder, **wanted)
    assert school.dump() == before


def test_a_shelved_sleeve_is_lent_and_brought_back_like_any_other(school: School) -> None:
    roll = shelving.shelve(school.file, school.hand(), 3)
    lending.lend(school.file, school.hand(), roll.id, "2026-11-20", to=OLU)
    assert str(lending.back(school.file, school.hand(), [roll.id])[0].place) == "binder 3"


def test_what_was_shelved_by_mistake_is_taken_back_and_has_no_label(school: School) -> None:
    roll = shelving.shelve(school.file, school.hand(), 3)
    undoing.undo(school.file, school.hand())
    assert school.roll(roll.id).place.kind == "void"
    assert labelling.queued_sleeves(school.file.conn) == []
    assert checking.problems(school.file) == []
