"""Lending, losing, finding, handing back, throwing away.

Which act is possible from which place is common practice in school darkrooms; dates are ISO 8601.
"""

from __future__ import annotations

import pytest

from filmrack.acts import archiving, drying, hanging, lending, undoing
from filmrack.domain.loans import LoanLine
from filmrack.domain.refusal import Refused
from filmrack.store import checking, people
from filmrack.store.borrowing import borrower
from tests.conftest import IVO, MARA, OLU, School

FRIDAY = "2026-11-20"


@pytest.fixture
def sleeved(school: School) -> int:
    """Return Mara's roll in its sleeve."""
    return school.sleeved(MARA, 17)


@pytest.fixture
def filed(school: School, sleeved: int) -> int:
    """Return Mara's roll in binder 2."""
    archiving.file_in_binder(school.file, school.hand(), [sleeved], 2)
    return sleeved


def test_a_lent_sleeve_is_out_until_its_date(school: School, filed: int) -> None:
    lent = lending.lend(school.file, school.hand(), filed, FRIDAY, to=OLU)
    assert lent.place.kind == "out"
    assert lent.loan is not None
    assert (lent.loan.until, lent.loan.person) == (FRIDAY, OLU)


def test_a_borrower_from_elsewhere_is_kept_as_a_note_and_not_in_the_ledger(
    school: School, filed: int
) -> None:
    lent = lending.lend(school.file, school.hand(), filed, FRIDAY, to=" the  art office ")
    assert lent.loan is not None
    assert lent.loan.note is not None
    notes = people.read_notes(school.file.conn, [lent.loan.note])
    assert notes == {lent.loan.note: "the art office"}
    details = school.file.conn.execute("SELECT group_concat(detail) FROM ledger").fetchone()[0]
    assert "art office" not in details


@pytest.mark.parametrize("until", ["2026-11-16", "soon", "", "20.11.2026", "2026-02-30"])
def test_a_loan_needs_a_date_that_is_still_to_come(school: School, filed: int, until: str) -> None:
    before = school.dump()
    with pytest.raises(Refused):
        lending.lend(school.file, school.hand(), filed, until, to=OLU)
    assert school.dump() == before


@pytest.mark.parametrize(
    ("until", "why"),
    [("16 nov", "is past, for it was Mon 16 Nov 2026"), ("1 jun", "more than half a year away")],
)
def test_a_day_that_is_past_or_far_off_is_next_years_only_with_its_year(
    school: School, filed: int, until: str, why: str
) -> None:
    with pytest.raises(Refused, match=why):
        lending.lend(school.file, school.hand(), filed, until, to=OLU)
    lent = lending.lend(school.file, school.hand(), filed, f"{until} 2027", to=OLU)
    assert lent.loan is not None
    assert lent.loan.until.startswith("2027")


@pytest.mark.parametrize(
    ("until", "due"), [("friday", FRIDAY), ("4 dec", "2026-12-04"), ("Dec 4", "2026-12-04")]
)
def test_a_loan_is_due_on_the_day_that_was_said(
    school: School, filed: int, until: str, due: str
) -> None:
    lent = lending.lend(school.file, school.hand(), filed, until, to=OLU)
    assert lent.loan is not None
    assert lent.loan.until == due


def test_a_loan_may_be_due_on_the_same_day(school: School, filed: int) -> None:
    lent = lending.lend(school.file, school.hand(), filed, "2026-11-17", to=OLU)
    assert lent.place.kind == "out"


@pytest.mark.parametrize("nobody", [99, "  ", "a\u202eb"])
def test_a_loan_needs_somebody_who_borrows(school: School, filed: int, nobody: int | str) -> None:
    before = school.dump()
    with pytest.raises(Refused):
        lending.lend(school.file, school.hand(), filed, FRIDAY, to=nobody)
    assert school.dump() == before


def test_what_is_not_sleeved_or_is_out_already_is_not_lent(school: School, filed: int) -> None:
    hung = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.id
    with pytest.raises(Refused, match="cannot be lent"):
        lending.lend(school.file, school.hand(), hung, FRIDAY, to=OLU)
    lending.lend(school.file, school.hand(), filed, FRIDAY, to=OLU)
    with pytest.raises(Refused, match="cannot be lent"):
        lending.lend(school.file, school.hand(), filed, FRIDAY, to=IVO)


def test_what_comes_back_stands_where_it_stood(school: School, filed: int) -> None:
    lending.lend(school.file, school.hand(), filed, FRIDAY, to=OLU)
    (there,) = lending.back(school.file, school.hand(), [filed])
    assert str(there.place) == "binder 2"
    assert there.loan is None


def test_what_was_lent_before_it_was_filed_comes_back_to_its_sleeve(
    school: School, sleeved: int
) -> None:
    lending.lend(school.file, school.hand(), sleeved, FRIDAY, to=OLU)
    (there,) = lending.back(school.file, school.hand(), [sleeved])
    assert there.place.kind == "sleeve"


def test_what_is_not_out_is_not_brought_back(school: School, filed: int) -> None:
    with pytest.raises(Refused, match="not borrowed"):
        lending.back(school.file, school.hand(), [filed])


def test_a_missing_roll_keeps_where_it_was_last_seen(school: School, filed: int) -> None:
    (gone,) = lending.missing(school.file, school.hand(), [filed])
    assert gone.place.kind == "missing"
    assert str(gone.seen) == "binder 2"
    with pytest.raises(Refused, match="missing already"):
        lending.missing(school.file, school.hand(), [filed])


def test_a_sleeve_that_turns_up_is_at_hand_to_be_filed_again(school: School, filed: int) -> None:
    lending.missing(school.file, school.hand(), [filed])
    assert lending.found(school.file, school.hand(), filed).place.kind == "sleeve"


def test_dry_film_that_turns_up_before_it_is_sleeved_goes_to_its_periods_box(
    school: School,
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=OLU, clip=5).roll.id
    drying.touch(school.file, school.hand(), roll, dry=True)
    lending.missing(school.file, school.hand(), [roll])
    assert str(lending.found(school.file, school.hand(), roll).place) == "box 2"
    lending.missing(school.file, school.hand(), [roll])
    assert str(lending.found(school.file, school.hand(), roll, box=1).place) == "box 1"
    lending.missing(school.file, school.hand(), [roll])
    with pytest.raises(Refused, match="there is no box 7"):
        lending.found(school.file, school.hand(), roll, box=7)


def test_what_is_not_missing_is_not_found(school: School, filed: int) -> None:
    with pytest.raises(Refused, match="not missing"):
        lending.found(school.file, school.hand(), filed)


def test_a_name_that_is_nearly_a_guests_lends_nothing_until_it_is_said_whose_it_is(
    school: School, filed: int
) -> None:
    sleeved = school.sleeved(IVO, 9)
    lending.lend(school.file, school.hand(), filed, to="Ms Novak")
    before = school.dump()
    with pytest.raises(lending.NearGuest, match="nearly Ms Novak, who has film on loan") as near:
        lending.lend_as_said(school.file, school.hand(), sleeved, LoanLine("Novak", None))
    assert near.value.guest == "Ms Novak"
    assert school.dump() == before
    lending.lend_as_said(school.file, school.hand(), sleeved, LoanLine("ms novak", None))
    assert borrower(school.file.conn, school.roll(sleeved)) == "Ms Novak"
    lending.back(school.file, school.hand(), [sleeved])
    lending.lend_as_said(school.file, school.hand(), sleeved, LoanLine("Novak", None, quoted=True))
    assert borrower(school.file.conn, school.roll(sleeved)) == "Novak"


@pytest.mark.parametrize(
    ("who", "why"),
    [
        ("Mr Adeyemi", "Olu Adeyemi is called so in part"),
        ("adeyemi and friends", "Olu Adeyemi is called so in part"),
        ("olu to Ms Novak", "“to” stands in it"),
        ("Ms Novak a couple of weeks", "words of time are not understood"),
    ],
)
def test_a_name_that_holds_something_else_is_a_guests_only_in_quotes(
    school: School, filed: int, who: str, why: str
) -> None:
    before = school.dump()
    with pytest.raises(Refused, match=why):
        lending.lend_as_said(school.file, school.hand(), filed, LoanLine(who, None))
    assert school.dump() == before
    lent = lending.lend_as_said(school.file, school.hand(), filed, LoanLine(who, None, quoted=True))
    assert borrower(school.file.conn, lent) == who


def test_what_was_handed_back_is_gone_until_it_turns_up_again(school: School, filed: int) -> None:
    (released,) = lending.release(school.file, school.hand(), [filed])
    assert released.place.kind == "handed_back"
    with pytest.raises(Refused):
        lending.release(school.file, school.hand(), [filed])
    assert lending.found(school.file, school.hand(), filed).place.kind == "sleeve"


def test_a_stack_is_handed_back_as_one_act(school: School, filed: int) -> None:
    other = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.id
    released = lending.release(school.file, school.hand(), [filed, other, filed])
    assert {roll.place.kind for roll in released} == {"handed_back"}
    assert released[1].clip is None
    undoing.undo(school.file, school.hand())
    assert {school.roll(roll).place.kind for roll in (filed, other)} == {"binder", "rod"}


def test_nothing_of_a_stack_is_handed_back_when_one_cannot_be(school: School, filed: int) -> None:
    other = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.id
    lending.release(school.file, school.hand(), [other])
    before = school.dump()
    with pytest.raises(Refused):
        lending.release(school.file, school.hand(), [filed, other])
    assert school.dump() == before


def test_film_is_thrown_away_before_it_is_filed_only_with_a_reason(
    school: School, sleeved: int
) -> None:
    with pytest.raises(Refused, match="say why"):
        lending.discard(school.file, school.hand(), sleeved)
    gone = lending.discard(school.file, school.hand(), sleeved, "film was blank")
    assert gone.place.kind == "discarded"


def test_what_was_filed_is_thrown_away_without_one(school: School, filed: int) -> None:
    assert lending.discard(school.file, school.hand(), filed).place.kind == "discarded"
    with pytest.raises(Refused):
        lending.missing(school.file, school.hand(), [filed])


def test_each_of_them_can_be_taken_back_and_leaves_the_record_sound(
    school: School, filed: int
) -> None:
    before = school.roll(filed)
    for act in (
        lambda: lending.lend(school.file, school.hand(), filed, FRIDAY, to=OLU),
        lambda: lending.missing(school.file, school.hand(), [filed]),
        lambda: lending.release(school.file, school.hand(), [filed]),
        lambda: lending.discard(school.file, school.hand(), filed, "mouldy"),
    ):
        act()
        assert school.roll(filed) != before
        undoing.undo(school.file, school.hand())
        assert school.roll(filed) == before
    assert checking.problems(school.file) == []
