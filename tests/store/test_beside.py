from __future__ import annotations

import sqlite3
from pathlib import Path

from filmrack.store import beside
from tests.conftest import School


def test_an_open_file_has_its_journal_beside_it_until_it_is_made_one_file(school: School, db: Path):
    with school.file.writing() as conn:
        conn.execute("INSERT INTO notes (text) VALUES ('blank film')")
    assert any(journal.exists() for journal in beside.journals_of(db))
    beside.make_one_file(school.file.conn)
    assert not any(each.exists() for each in beside.all_beside(db))


def test_a_file_is_removed_with_all_that_is_beside_it_and_nothing_else(school: School, db: Path):
    with school.file.writing() as conn:
        conn.execute("INSERT INTO notes (text) VALUES ('blank film')")
    school.file.close()
    other = db.with_name("other.db-wal")
    for each in (*beside.all_beside(db), other):
        each.touch()
    beside.remove(db)
    beside.remove(db)
    assert [each.name for each in db.parent.iterdir()] == [other.name]


def test_a_draft_is_known_by_its_name_and_nothing_else_is_taken_for_one(tmp_path: Path):
    mine, other = (beside.draft_of(tmp_path / name) for name in ("a[1].db", "b.db"))
    drafts = [mine, mine.with_name(f"{mine.name}-wal"), other]
    for each in (*drafts, tmp_path / "a[1].db", tmp_path / ".a[1].db.part", tmp_path / "b.part"):
        each.touch()
    (tmp_path / ".export.7.part").mkdir()
    assert beside.drafts_in(tmp_path) == drafts
    assert beside.drafts_in(tmp_path, "a[1].db") == drafts[:2]
    assert beside.drafts_in(tmp_path / "nowhere") == []


def test_what_is_beside_a_file_is_called_as_sqlite_calls_it(tmp_path: Path):
    """See sqlite.org/tempfiles.html: -wal and -shm in WAL mode, -journal else."""
    path = tmp_path / "any.db"
    conn = sqlite3.connect(path, isolation_level=None)
    conn.execute("PRAGMA journal_mode = WAL")
    conn.execute("CREATE TABLE any (x)")
    there = {each for each in tmp_path.iterdir() if each != path}
    assert there == {each for each in beside.all_beside(path) if each.exists()}
    conn.execute("PRAGMA journal_mode = DELETE")
    conn.execute("BEGIN IMMEDIATE")
    conn.execute("INSERT INTO any VALUES (1)")
    assert [each for each in tmp_path.iterdir() if each != path] == [
        each for each in beside.journals_of(path) if each.exists()
    ]
    conn.execute("COMMIT")
    conn.close()
