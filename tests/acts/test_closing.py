"""The end of a term: every roll accounted for, then only read. Common practice of any archive."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from filmrack.acts import (
    archiving,
    closing,
    drying,
    end_of_term,
    fetching,
    hanging,
    lending,
    owning,
    shelving,
    undoing,
)
from filmrack.acts.terms import open_term
from filmrack.domain.refusal import Refused
from filmrack.domain.termreport import term_report
from filmrack.store import checking, people, terms
from filmrack.store.file import open_file
from tests.conftest import IVO, MARA, OLU, School


@pytest.fixture
def filed(school: School) -> int:
    """Return Mara's roll in binder 2: the only one of the term."""
    roll = school.sleeved(MARA, 17)
    archiving.file_in_binder(school.file, school.hand(), [roll], 2)
    return roll


def close(school: School, why: str = "") -> closing.Closed:
    return closing.close_term(school.file, school.hand(), "26f", why)


def test_a_term_with_all_its_rolls_in_binders_is_closed(school: School, filed: int) -> None:
    closed = close(school)
    assert (closed.code, closed.left_open) == ("26F", ())
    assert terms.closed(school.file.conn) == {"26F": school.now}
    assert checking.problems(school.file) == []


def test_a_copy_is_made_before_and_is_still_open(school: School, filed: int) -> None:
    closed = close(school)
    assert closed.backup.file.parent == school.file.path.parent / "backups"
    with open_file(closed.backup.file, write=False) as copy:
        assert terms.closed(copy.conn) == {}


def test_closing_twice_in_a_second_keeps_both_copies(school: School, filed: int) -> None:
    first = close(school)
    closing.reopen_term(school.file, school.hand(), "26F")
    assert close(school).backup.file != first.backup.file
    assert first.backup.file.exists()


def test_a_roll_that_is_not_filed_keeps_its_term_open_and_is_named(
    school: School, filed: int
) -> None:
    hung = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll
    before = school.dump()
    with pytest.raises(Refused, match=f"{hung.number} \\(rod 2, position 1\\)"):
        close(school)
    assert school.dump() == before
    assert not (school.file.path.parent / "backups").exists()


def test_what_is_left_open_is_left_for_a_reason_on_the_record(school: School) -> None:
    hung = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll
    closed = close(school, "the cabinet is locked for the holidays")
    assert [roll.number for roll in closed.left_open] == [hung.number]
    (entry,) = terms.closings(school.file.conn, "26F")
    assert people.read_notes(school.file.conn, [entry.detail["note"]]) == {
        entry.detail["note"]: "the cabinet is locked for the holidays"
    }


def test_nothing_of_a_closed_term_is_changed_by_any_act(school: School, filed: int) -> None:
    lent = shelving.shelve(school.file, school.hand(), 3).id
    lending.lend(school.file, school.hand(), lent, "2026-11-20", to=OLU)
    close(school)
    file, hand = school.file, school.hand
    before = school.dump()
    for act in (
        lambda: archiving.contact(file, hand(), filed),
        lambda: archiving.file_in_binder(file, hand(), [filed], 4),
        lambda: lending.lend(file, hand(), filed, "2026-11-20", to=OLU),
        lambda: lending.back(file, hand(), [lent]),
        lambda: lending.release(file, hand(), [filed]),
        lambda: lending.missing(file, hand(), [filed]),
        lambda: lending.discard(file, hand(), filed, "mould"),
        lambda: owning.claim(file, hand(), filed, OLU),
        lambda: owning.swap(file, hand(), filed, lent),
        lambda: owning.note(file, hand(), filed, "blank"),
        lambda: undoing.undo(file, hand(), filed),
        lambda: shelving.shelve(file, hand(), 3),
        lambda: hanging.load(file, hand(), MARA, [5]),
    ):
        with pytest.raises(Refused, match="26F is closed: reopen it"):
            act()
    assert school.dump() == before


def test_film_of_a_closed_term_that_was_left_before_its_sleeve_is_only_read(
    school: School,
) -> None:
    file, hand = school.file, school.hand
    hung = hanging.hang(file, hand(), person=IVO, clip=9).roll.id
    boxed = hanging.hang(file, hand(), person=MARA, clip=17).roll.id
    fetching.box(file, hand(), [boxed])
    lost = hanging.hang(file, hand(), person=OLU, clip=5).roll.id
    lending.missing(file, hand(), [lost])
    close(school, "holidays")
    before = school.dump()
    for act in (
        lambda: drying.flip(file, hand(), [hung]),
        lambda: drying.touch(file, hand(), hung, dry=True),
        lambda: hanging.move(file, hand(), hung, 1),
        lambda: fetching.take(file, hand(), hung),
        lambda: archiving.sleeve(file, hand(), boxed),
        lambda: hanging.hang(file, hand(), roll=boxed),
        lambda: lending.found(file, hand(), lost),
        lambda: lending.release(file, hand(), [hung]),
        lambda: lending.discard(file, hand(), boxed, "blank"),
    ):
        with pytest.raises(Refused, match="26F is closed: reopen it"):
            act()
    assert school.dump() == before


def test_wet_film_takes_the_place_of_what_a_closed_term_left_there(school: School) -> None:
    left = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.id
    close(school, "holidays")
    open_term(school.file, school.hand(), "27S")
    school.now = datetime(2027, 1, 12, 16, 0, tzinfo=UTC)
    hung = hanging.hang(school.file, school.hand(), person=MARA, clip=9, rod=2, position=1)
    assert hung.roll.term == "27S"
    assert school.roll(left).place.kind == "missing"
    assert checking.problems(school.file) == []


def test_a_reopened_term_is_changed_again_and_both_stand_on_the_ledger(
    school: School, filed: int
) -> None:
    close(school)
    closing.reopen_term(school.file, school.hand(), "26F")
    assert archiving.contact(school.file, school.hand(), filed).sheets
    assert [entry.act for entry in terms.closings(school.file.conn, "26F")] == ["close", "reopen"]
    close(school)
    assert "26F" in terms.closed(school.file.conn)


def test_closing_is_taken_back_like_any_other_act(school: School, filed: int) -> None:
    close(school)
    undoing.undo(school.file, school.hand())
    assert terms.closed(school.file.conn) == {}
    assert checking.problems(school.file) == []


def test_a_reopening_is_taken_back_only_while_nothing_was_changed(
    school: School, filed: int
) -> None:
    close(school)
    closing.reopen_term(school.file, school.hand(), "26F")
    undoing.undo(school.file, school.hand())
    assert "26F" in terms.closed(school.file.conn)
    closing.reopen_term(school.file, school.hand(), "26F")
    lending.missing(school.file, school.hand(desk="desk 2"), [filed])
    with pytest.raises(Refused, match="close it again"):
        undoing.undo(school.file, school.hand())


@pytest.mark.parametrize("code", ["26S", "x", "26F26F"])
def test_a_term_that_is_not_there_is_not_closed(school: School, code: str) -> None:
    for act in (closing.close_term, closing.reopen_term):
        with pytest.raises(Refused):
            act(school.file, school.hand(), code)


def test_what_is_closed_or_open_already_is_not_closed_or_opened_again(
    school: School, filed: int
) -> None:
    with pytest.raises(Refused, match="open already: change its rolls right away"):
        closing.reopen_term(school.file, school.hand(), "26F")
    close(school)
    with pytest.raises(Refused, match="closed already: reopen it first"):
        close(school)


def test_a_file_closed_from_outside_is_found_out(school: School) -> None:
    school.file.conn.execute("UPDATE terms SET closed_at = '2026-11-17T12:00:00Z'")
    assert checking.problems(school.file) == ["term 26F is closed, but not by the ledger"]


def test_a_report_as_of_a_moment_has_the_rolls_where_they_were(school: School, filed: int) -> None:
    then = school.now
    school.wait(30)
    lending.release(school.file, school.hand(), [filed])
    now = closing.report_on(school.file, "26F")
    earlier = closing.report_on(school.file, "26F", then)
    assert (now.places["handed_back"], now.places["binder"]) == (1, 0)
    assert (earlier.places["handed_back"], earlier.places["binder"]) == (0, 1)


def test_what_is_settled_is_only_counted_and_what_is_owed_is_named(
    school: School, filed: int
) -> None:
    file, hand = school.file, school.hand
    archiving.contact(file, hand(), filed)
    shelving.shelve(file, hand(), 3, owner="Olu Adeyemi")
    nobodys = shelving.shelve(file, hand(), 3).id
    archiving.contact(file, hand(), nobodys)
    lent = shelving.shelve(file, hand(), 3).id
    lending.lend(file, hand(), lent, to=OLU)
    lending.release(file, hand(), [shelving.shelve(file, hand(), 3).id])
    hanging.hang(file, hand(), person=IVO, clip=9)
    assert closing.report_on(file, "26F") == term_report(closing.rolls_of_term(file, "26F"))


def test_an_owner_who_changes_period_keeps_the_box_of_the_roll(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    with school.file.writing() as conn:
        people.enrol(conn, MARA, "26F", 2)
    (boxed,) = fetching.box(school.file, school.hand(), [roll])
    assert (boxed.period, str(boxed.place)) == (1, "box 1")


def test_the_hand_back_list_has_what_is_at_hand_and_what_is_out(school: School, filed: int) -> None:
    out = shelving.shelve(school.file, school.hand(), 3).id
    lending.lend(school.file, school.hand(), out, "2026-11-20", to=OLU)
    gone = shelving.shelve(school.file, school.hand(), 3).id
    lending.release(school.file, school.hand(), [gone])
    term, groups = end_of_term.hand_back_list(school.file, None, school.now)
    assert term == "26F"
    assert [(period, person, [roll.id for roll in rolls]) for period, person, rolls in groups] == [
        (1, MARA, [filed]),
        (None, None, [out]),
    ]
