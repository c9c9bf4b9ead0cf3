from __future__ import annotations

import sqlite3

import pytest

from filmrack.acts.drying import flip
from filmrack.acts.hanging import hang
from filmrack.store import checking
from tests.conftest import OLU, School

OPEN = "DROP TRIGGER ledger_is_never_shortened"


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
        ("UPDATE rolls SET stays = 'x'", "26F-0001-44"),
        ("UPDATE rolls SET gone_at = since", "gone_at"),
        ("DELETE FROM rolls", "refers to something in rolls that is not there"),
        ("UPDATE rolls SET serial = 2", "term 26F has 2 roll numbers for 1 rolls"),
        ("INSERT INTO touch_checks VALUES (1, 0, '2026-11-17T15:00:00Z', 1, 'touch')", "checks"),
        ("INSERT INTO sleeves VALUES (1, 1, '[5]')", "26F-0001-44"),
        ("INSERT INTO contact_sheets VALUES (1, 0, '2026-11-17T15:00:00Z', 'a4', '[]')", "contact"),
        ("INSERT INTO loans VALUES (1, '2026-11-17T15:00:00Z', '2026-12-01', 2, NULL)", "loan"),
        (
            "INSERT INTO lessons VALUES (1, 1, '2026-11-17T15:00:00Z', '[]', 0, NULL, x'')",
            "what it taught",
        ),
        ("INSERT INTO learned VALUES (1, x'', 1, 0.0)", "what was learned of dryer 1"),
        ("UPDATE fan_runs SET ends = '2027-01-01T00:00:00Z'", "the fan run of dryer 1"),
        ("DELETE FROM fan_runs", "the fan run of dryer 1"),
        ("INSERT INTO sweeps VALUES (7, '2026-11-17T15:00:00Z', NULL, NULL)", "sweep 7"),
        (f"{OPEN}; DELETE FROM ledger WHERE act = 'fan'", "gaps"),
        (f"{OPEN}; DELETE FROM ledger WHERE id = (SELECT max(id) FROM ledger)", "its end is cut"),
    ],
)
def test_a_state_that_is_not_the_ledger_folded_is_named(hung: School, statement: str, named: str):
    assert checking.problems(hung.file) == []
    before = hung.dump()
    hung.file.conn.executescript(f"PRAGMA foreign_keys = OFF; {statement}")
    changed = hung.dump()
    assert changed != before
    assert any(named in problem for problem in checking.problems(hung.file))
    assert hung.dump() == changed
