"""Lending, losing, finding and handing back, as a teacher types it."""

from __future__ import annotations

import json
from datetime import timedelta

import pytest

from filmrack.acts import archiving, fetching, hanging
from filmrack.cli.app import run
from filmrack.domain.roll import Roll
from filmrack.store.clock import stand_at
from tests.conftest import IVO, MARA, School


@pytest.fixture
def filed(school: School, monkeypatch: pytest.MonkeyPatch) -> Roll:
    """Return Mara's roll in binder 2; commands act on its file and at its time."""
    roll = school.sleeved(MARA, 17)
    with school.file.writing() as conn:
        stand_at(conn, school.now)
    monkeypatch.setenv("FILMRACK_DB", str(school.file.path))
    return archiving.file_in_binder(school.file, school.hand(), [roll], 2)[0]


def place(capsys: pytest.CaptureFixture[str], *arguments: str) -> object:
    capsys.readouterr()
    assert run([*arguments, "--json"]) == 0
    return json.loads(capsys.readouterr().out)["place"]


@pytest.mark.parametrize("typed", [["a", "week"], ["--until", "7 days"], ["for", "1", "week"]])
def test_a_sleeve_is_lent_for_as_long_as_is_said(
    filed: Roll, typed: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    told = loan(capsys, "lend", filed.number, "Ms", "Novak", *typed)
    assert (told["to"], told["until"]) == ("Ms Novak", "2026-11-24")


def test_a_sleeve_is_lent_and_its_loan_ended(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    lend = ["lend", filed.number, "--to", "adeyemi", "--until", "2026-11-20"]
    assert place(capsys, *lend) == {"kind": "out"}
    assert place(capsys, "back", filed.number) == {"kind": "binder", "binder": 2}


def loan(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, object]:
    capsys.readouterr()
    assert run([*arguments, "--json"]) == 0
    told: dict[str, object] = json.loads(capsys.readouterr().out)["loan"]
    return told


@pytest.mark.parametrize(
    ("typed", "to", "until"),
    [
        (["Ms", "Novak", "4", "dec"], "Ms Novak", "2026-12-04"),
        (["Ms Novak", "--until", "dec 4"], "Ms Novak", "2026-12-04"),
        (["--to", "the art office", "--until", "2026-11-20"], "the art office", "2026-11-20"),
        (["to", "adeyemi", "until", "friday"], "Olu Adeyemi", "2026-11-20"),
        (["--to", "olu", "--guest"], "olu", "2026-12-01"),
    ],
)
def test_a_sleeve_is_lent_in_words_to_people_and_guests(
    filed: Roll, capsys: pytest.CaptureFixture[str], typed: list[str], to: str, until: str
) -> None:
    told = loan(capsys, "lend", filed.number, *typed)
    assert (told["to"], told["until"], told["overdue"]) == (to, until, False)


def test_a_borrower_with_a_typing_error_is_asked_about(
    filed: Roll, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["lend", filed.number, "olu", "adeyemy", "friday"]) == 1
    assert "Olu Adeyemi is nearly called so" in capsys.readouterr().err


def test_a_loan_names_its_borrower_wherever_it_is_shown(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["lend", filed.number, "Ms", "Novak", "friday"]) == 0
    with school.file.writing() as conn:
        stand_at(conn, school.now + timedelta(days=6))
    for command in (["find", filed.number], ["due"], ["show", filed.number]):
        capsys.readouterr()
        assert run(command) == 0
        assert "borrowed by Ms Novak" in capsys.readouterr().out
    assert run(["show", filed.number]) == 0
    assert "overdue since Fri 20 Nov, 1 school day" in capsys.readouterr().out
    for command in (["term", "report", "26F"], ["term", "hand-back"]):
        assert run(command) == 0
        assert "Ms Novak, overdue since Fri 20 Nov" in capsys.readouterr().out


def test_end_loan_is_back(filed: Roll, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["lend", filed.number, "olu"]) == 0
    assert place(capsys, "end", "loan", filed.number) == {"kind": "binder", "binder": 2}


def test_a_loan_says_to_whom_and_until_when(
    filed: Roll, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["lend", filed.number]) == 2
    assert run(["lend", filed.number, "--until", "2026-11-20"]) == 2
    assert run(["lend", filed.number, "--to", "olu", "--until", "soon"]) == 1
    assert "2026-12-04" in capsys.readouterr().err
    # Ten school days after Tuesday 17 November, by the calendar.
    assert run(["lend", filed.number, "--to", "olu"]) == 0
    assert "due on Tue 1 Dec" in capsys.readouterr().out


def test_a_missing_sleeve_is_found_again(filed: Roll, capsys: pytest.CaptureFixture[str]) -> None:
    assert place(capsys, "missing", filed.number) == {"kind": "missing"}
    assert place(capsys, "found", filed.number) == {"kind": "sleeve"}
    assert run(["found", filed.number]) == 1


def test_film_is_found_into_a_box_that_is_named(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    assert place(capsys, "missing", "clip", "9") == {"kind": "missing"}
    assert place(capsys, "found", "clip", "9", "--box", "1") == {"kind": "box", "box": 1}
    assert run(["found", "clip", "9", "--box", "shelf"]) == 1


def test_wet_film_that_turns_up_hangs_on(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    assert run(["missing", "clip", "9"]) == 0
    capsys.readouterr()
    assert run(["found", "clip", "9"]) == 0
    told = capsys.readouterr().out
    assert "rod 2, position 1" in told
    assert "not dry by the record, so it hangs again: if it is in its box" in told


def test_several_rolls_are_handed_back_with_one_command(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    capsys.readouterr()
    assert run(["hand-back", filed.number, "clip", "9", "--json"]) == 0
    released = json.loads(capsys.readouterr().out)
    assert [each["place"]["kind"] for each in released] == ["handed_back", "handed_back"]


def test_film_that_was_never_filed_is_discarded_only_with_a_reason(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    assert run(["discard", "clip", "9"]) == 1
    assert "say why" in capsys.readouterr().err
    assert place(capsys, "discard", "clip", "9", "--why", "blank") == {"kind": "discarded"}
    assert place(capsys, "discard", filed.number) == {"kind": "discarded"}


def test_sleeving_says_the_plan_the_sleeves_and_how_many_labels_wait(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    capsys.readouterr()
    assert run(["sleeve", "clip", "9"]) == 0
    told = capsys.readouterr().out
    assert "cut 5 5 5 5 5 5 3 | 3; 8 strips in 2 sleeves" in told
    assert "(a sleeve takes 7 of 5 frames); 14 pockets in all" in told
    assert "each strip has 3 frames or more" in told
    assert "4 labels wait" in told


def test_filing_without_a_contact_sheet_is_done_and_said(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    hung = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.number
    assert run(["sleeve", hung]) == 0
    capsys.readouterr()
    assert run(["file", hung, "--binder", "3"]) == 0
    assert f"filed without a contact sheet: {hung}" in capsys.readouterr().out
    assert run(["contact", hung, "--paper", "a4"]) == 0
    assert "contact sheet on a4: fits" in capsys.readouterr().out
    assert run(["file", hung, "--binder", "4"]) == 0
    assert "without" not in capsys.readouterr().out


def test_a_name_that_is_nearly_a_guests_is_refused_and_another_guest_is_said_to_be_one(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    roll = hanging.hang(school.file, school.hand(), person=IVO, clip=9).roll.id
    fetching.take(school.file, school.hand(), roll)
    other = archiving.sleeve(school.file, school.hand(), roll).roll.number
    assert loan(capsys, "lend", filed.number, "Ms", "Novak")["to"] == "Ms Novak"
    assert run(["lend", other, "Novak"]) == 1
    assert "add --guest for somebody else" in capsys.readouterr().err
    assert loan(capsys, "lend", other, "Novak", "--guest")["to"] == "Novak"
