from __future__ import annotations

import sqlite3

import pytest

from filmrack.acts.drying import flip
from filmrack.acts.hanging import hang
from filmrack.store import checking
from tests.conftest import OLU, School


@pytest.fixture
def hung(school: School) -> School:
    roll = hang(school.file, school.hand(), person=OLU, clip=17).roll
    flip(school.file, school.hand(), [roll.id])
    return school


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE ledger SET act = 'take'",
        "DELETE FROM ledger",
        "UPDATE ledger SET happened = entered",
    ],
)
def test_nothing_on_the_ledger_is_changed_or_removed(hung: School, statement: str):
    before = hung.dump()
    with pytest.raises(sqlite3.IntegrityError, match="nothing in the ledger is"):
        hung.file.conn.execute(statement)
    assert hung.dump() == before


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE rolls SET place = 'box'",
        "UPDATE rolls SET position = NULL",
        "UPDATE rolls SET place = 'elsewhere'",
        "UPDATE rolls SET clip = 900",
        "UPDATE rolls SET person = 77",
        "UPDATE rolls SET clip = 'seventeen'",
        "INSERT INTO rolls SELECT id + 1, term, serial + 1, person, period, film, frames, clue,"
        " place, NULL, rod, position, box, binder, since, seen, seen_at, first_at, sent, hung_at,"
        " stays, page_name, sleeved_at, filed_at, gone_at, assumed FROM rolls",
    ],
)
def test_the_file_itself_refuses_the_impossible(hung: School, statement: str):
    with pytest.raises(sqlite3.IntegrityError):
        hung.file.conn.execute(statement)


@pytest.mark.parametrize(
    ("statement", "named"),
    [
        ("UPDATE rolls SET clip = NULL", "26F-0001-44"),
        ("UPDATE rolls SET stays = '[]'", "26F-0001-44"),
        ("UPDATE rolls SET position = 2", "26F-0001-44"),
        ("UPDATE rolls SET stays = 'x'", None),
        ("DROP TRIGGER ledger_is_never_shortened; DELETE FROM ledger WHERE act = 'fan'", "gaps"),
    ],
)
def test_a_state_that_is_not_the_ledger_folded_is_named(
    hung: School, statement: str, named: str | None
):
    assert checking.problems(hung.file) == []
    hung.file.conn.executescript(statement)
    if named is None:
        with pytest.raises(sqlite3.DatabaseError, match="malformed roll"):
            checking.problems(hung.file)
    else:
        assert any(named in problem for problem in checking.problems(hung.file))
