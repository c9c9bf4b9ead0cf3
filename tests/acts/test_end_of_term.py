"""Loans in school days, the last week of a term, and its lists on paper."""

from __future__ import annotations

import csv
from datetime import UTC, date, datetime
from pathlib import Path

import pypdfium2
import pytest

from filmrack.acts import archiving, closing, end_of_term, hanging, labelling, lending, shelving
from filmrack.acts.refitting import add_days_off
from filmrack.domain.loans import due_back, school_days_late
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import DayOff
from filmrack.store.room import bump_stamp, read_room
from filmrack.store.room_writing import write_room
from filmrack.store.standings import in_need, see
from tests.conftest import IVO, OLU, School


@pytest.fixture
def filed(school: School) -> int:
    """Return an old sleeve of Mara's, with a contact sheet."""
    roll = shelving.shelve(school.file, school.hand(), 3, owner="Mara Okafor").id
    archiving.contact(school.file, school.hand(), roll, picks=[7])
    return roll


def next_words(school: School, roll: int) -> str:
    return see(school.file, [school.roll(roll)], school.now).standings[0].next.words


def why(school: School) -> dict[int, str]:
    return {each.roll.id: each.why[0][0] for each in in_need(school.file, school.now).standings}


def test_a_loan_is_due_after_the_rooms_number_of_school_days(school: School, filed: int) -> None:
    # Ten school days after a Tuesday is a Tuesday two weeks on, by the calendar of November 2026.
    assert due_back(school.file.room(), school.now) == date(2026, 12, 1)
    lent = lending.lend(school.file, school.hand(), filed, to=OLU)
    assert lent.loan is not None
    assert lent.loan.until == "2026-12-01"


def test_days_without_school_do_not_count_for_a_loan(school: School, filed: int) -> None:
    add_days_off(
        school.file,
        school.hand(),
        [DayOff("a long weekend", date(2026, 11, 26), date(2026, 11, 27))],
    )
    assert due_back(school.file.room(), school.now) == date(2026, 12, 3)


def test_a_loan_that_is_late_is_asked_for_and_says_for_how_many_school_days(
    school: School, filed: int
) -> None:
    lending.lend(school.file, school.hand(), filed, "2026-11-20", to=OLU)
    school.now = datetime(2026, 11, 20, 18, 0, tzinfo=UTC)
    assert filed not in why(school)
    school.now = datetime(2026, 11, 24, 18, 0, tzinfo=UTC)
    assert why(school)[filed] == "loan overdue"
    assert school_days_late(school.roll(filed), school.file.room(), school.now) == 2
    assert next_words(school, filed) == "ask for it: it was due on Fri 20 Nov, 2 school days ago"


def test_a_roll_without_an_owner_wants_one_until_it_is_filed(school: School) -> None:
    roll = hanging.hang(school.file, school.hand(), clip=9, rod=3).roll.id
    lending.missing(school.file, school.hand(), [roll])
    lending.found(school.file, school.hand(), roll)
    archiving.sleeve(school.file, school.hand(), roll)
    assert why(school)[roll] == "unknown roll"
    archiving.file_in_binder(school.file, school.hand(), [roll], 1)
    assert roll not in why(school)


@pytest.mark.parametrize(
    ("day", "last"),
    [
        # The term of this school ends on Thursday 31 December 2026.
        (date(2026, 12, 24), False),
        (date(2026, 12, 25), True),
        (date(2026, 12, 31), True),
        (date(2027, 1, 4), False),
    ],
)
def test_in_the_last_five_school_days_a_filed_roll_is_handed_back_or_kept(
    school: School, filed: int, day: date, last: bool
) -> None:
    school.now = datetime(day.year, day.month, day.day, 18, 0, tzinfo=UTC)
    assert school.file.room().in_last_week("26F", school.now) is last
    assert (next_words(school, filed) == "hand it back, or keep it") is last


def test_the_hand_back_list_is_printed_for_each_period(
    school: School, filed: int, tmp_path: Path
) -> None:
    other = shelving.shelve(school.file, school.hand(), 4, owner="Ivo Lindqvist").id
    lending.lend(school.file, school.hand(), other, "2026-11-20", to=OLU)
    ordered = labelling.order(school.file, "hand-back", [], school.now)
    labelling.print_order(school.file, ordered, tmp_path / "list.pdf")
    first, second = (
        page.get_textpage().get_text_range()
        for page in pypdfium2.PdfDocument(tmp_path / "list.pdf")
    )
    assert "Mara O." in first
    assert school.roll(filed).number in first
    assert "binder 3" in first
    assert "Ivo L." in second
    assert "Olu A., due Fri 20 Nov" in second
    assert "Adeyemi" not in second
    assert "Lindqvist" not in second


def test_a_guest_whose_name_the_font_lacks_keeps_no_hand_back_list_unprinted(
    school: School, filed: int, tmp_path: Path
) -> None:
    lending.lend(school.file, school.hand(), filed, "2026-11-20", to="남궁하늘")
    ordered = labelling.order(school.file, "hand-back", [], school.now)
    labelling.print_order(school.file, ordered, tmp_path / "list.pdf")
    (page,) = pypdfium2.PdfDocument(tmp_path / "list.pdf")
    assert "lent, due Fri 20 Nov" in page.get_textpage().get_text_range()


def test_an_empty_hand_back_list_is_not_printed(school: School) -> None:
    with pytest.raises(Refused, match="nothing of term 26F"):
        labelling.order(school.file, "hand-back", [], school.now)
    with pytest.raises(Refused, match="no term 19S"):
        labelling.order(school.file, "hand-back", ["19S"], school.now)


def test_only_a_closed_term_has_a_finding_aid(school: School, filed: int) -> None:
    with pytest.raises(Refused, match="still open"):
        end_of_term.finding_aid_of_term(school.file, "26F")


def test_the_finding_aid_has_a_line_for_what_is_kept_and_none_for_what_is_gone(
    school: School, filed: int, tmp_path: Path
) -> None:
    gone = shelving.shelve(school.file, school.hand(), 3).id
    lending.release(school.file, school.hand(), [gone])
    closing.close_term(school.file, school.hand(), "26F")
    described = end_of_term.finding_aid_of_term(school.file, "26f")
    assert [each.reference_code for each in described] == ["26F", school.roll(filed).number]
    end_of_term.write_finding_aid(described, tmp_path / "26F.csv")
    with (tmp_path / "26F.csv").open(encoding="utf-8", newline="") as opened:
        rows = list(csv.DictReader(opened))
    assert rows[1]["scope and content"] == "135-36 film, 1 contact sheet, frames 7 chosen"
    assert rows[1]["conditions governing access"] == "binder 26F-03"
    with pytest.raises(Refused, match="exists already"):
        end_of_term.write_finding_aid(described, tmp_path / "26F.csv")
    with pytest.raises(Refused, match="cannot be written"):
        end_of_term.write_finding_aid(described, tmp_path / "no" / "26F.txt")


def test_no_name_is_in_a_finding_aid_and_initials_only_by_the_rooms_rule(
    school: School, filed: int
) -> None:
    hung = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.id
    lending.release(school.file, school.hand(), [hung])
    closing.close_term(school.file, school.hand(), "26F")
    text = end_of_term.as_text(end_of_term.finding_aid_of_term(school.file, "26F"))
    assert "Mara" not in text
    assert "MO" not in text
    with school.file.writing() as conn:
        write_room(conn, read_room(conn)._replace(initials_on_sleeves=True))
        bump_stamp(conn)
    described = end_of_term.finding_aid_of_term(school.file, "26F")
    assert described[1].creator == "MO"
    assert "Mara" not in end_of_term.as_csv(described)
