"""Lending, losing, finding and handing back, as a teacher types it."""

from __future__ import annotations

import json

import pytest

from filmrack.acts import archiving, fetching, hanging
from filmrack.cli.app import run
from filmrack.domain.roll import Roll
from filmrack.store.clock import stand_at
from tests.conftest import IVO, MARA, School


@pytest.fixture
def filed(school: School, monkeypatch: pytest.MonkeyPatch) -> Roll:
    """Return Mara's roll in binder 2; commands act on its file and at its time."""
    roll = hanging.hang(school.file, school.hand(), person=MARA, clip=17).roll.id
    fetching.take(school.file, school.hand(), roll)
    archiving.sleeve(school.file, school.hand(), roll)
    with school.file.writing() as conn:
        stand_at(conn, school.now)
    monkeypatch.setenv("FILMRACK_DB", str(school.file.path))
    return archiving.file_in_binder(school.file, school.hand(), [roll], 2)[0]


def place(capsys: pytest.CaptureFixture[str], *arguments: str) -> object:
    capsys.readouterr()
    assert run([*arguments, "--json"]) == 0
    return json.loads(capsys.readouterr().out)["place"]


def test_a_sleeve_is_lent_and_brought_back(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    lend = ["lend", filed.number, "--to", "adeyemi", "--until", "2026-11-20"]
    assert place(capsys, *lend) == {"kind": "out"}
    assert place(capsys, "back", filed.number) == {"kind": "binder", "binder": 2}


def test_a_guest_borrows_by_the_name_that_was_typed(
    filed: Roll, capsys: pytest.CaptureFixture[str]
) -> None:
    lend = ["lend", filed.number, "--to", "the art office", "--until", "2026-11-20"]
    assert run(lend) == 1
    assert place(capsys, *lend, "--guest") == {"kind": "out"}


def test_a_loan_says_to_whom_and_until_when(
    filed: Roll, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(["lend", filed.number]) == 2
    assert run(["lend", filed.number, "--until", "2026-11-20"]) == 2
    assert run(["lend", filed.number, "--to", "olu", "--until", "soon"]) == 1
    assert "2026-12-04" in capsys.readouterr().err
    # Ten school days after Tuesday 17 November, by the calendar.
    assert run(["lend", filed.number, "--to", "olu"]) == 0
    assert "due back on 2026-12-01" in capsys.readouterr().out


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


def test_several_rolls_are_handed_back_with_one_command(
    filed: Roll, school: School, capsys: pytest.CaptureFixture[str]
) -> None:
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    capsys.readouterr()
    assert run(["release", filed.number, "clip", "9", "--json"]) == 0
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
