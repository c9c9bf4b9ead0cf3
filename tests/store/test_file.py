from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from filmrack.acts.hanging import hang, load
from filmrack.acts.undoing import undo
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.store import checking, rolls
from filmrack.store.backup import back_up
from filmrack.store.file import open_file
from tests.conftest import MARA, OLU, School, open_school


def test_a_view_of_the_file_stays_the_same_while_another_desk_writes(school: School, db: Path):
    hang(school.file, school.hand(), person=OLU, clip=17)
    with open_file(db, write=False) as other, other.reading() as conn:
        before = conn.execute("SELECT count(*) FROM ledger").fetchone()[0]
        load(school.file, school.hand(), MARA, [18])
        assert conn.execute("SELECT count(*) FROM ledger").fetchone()[0] == before
        assert checking.problems(other) == []


# What a name may hold is said otherwise in an address: sqlite.org/uri.html, 3.1.
@pytest.mark.parametrize(
    "name", ["term #2?.db", "100%41.db", ":memory:", "file:x.db?mode=rwc", "schöne Bilder/é.db"]
)
def test_a_file_is_opened_whatever_it_is_called(
    school: School, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
):
    hung = hang(school.file, school.hand(), person=OLU, clip=17)
    copy = tmp_path / name
    copy.parent.mkdir(exist_ok=True)
    back_up(school.file, copy)
    monkeypatch.chdir(tmp_path)
    for named in (copy, str(copy), f"/{copy}", name):
        with open_file(named, write=False) as file:
            assert rolls.on_clip(file.conn, 17) == rolls.by_id(school.file.conn, hung.roll.id)
            assert file.path.samefile(copy)


def test_a_name_that_no_file_can_have_is_refused_as_one_that_is_missing(tmp_path: Path):
    with pytest.raises(FileTrouble, match="does not exist: make a darkroom file"):
        open_file(f"{tmp_path}/a\0b.db", write=False)
    with pytest.raises(FileTrouble, match=r"^\. is no file"):
        open_file("", write=False)


def test_whoever_only_reads_cannot_write(school: School, db: Path):
    with (
        open_file(db, write=False) as file,
        pytest.raises(FileTrouble, match="cannot be written: allow writing to it"),
    ):
        load(file, school.hand(), OLU, [1])


def test_an_act_that_fails_halfway_leaves_nothing(school: School):
    before = school.dump()

    def fail() -> None:
        with school.file.writing() as conn:
            conn.execute("UPDATE people SET given = 'x'")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        fail()
    assert school.dump() == before


def test_two_desks_act_in_turn(db: Path):
    one, two = open_school(db), open_school(db)
    for clip in range(1, 7):
        load(*((one if clip % 2 else two).file, one.hand()), OLU, [clip])
    serials = [row[0] for row in one.file.conn.execute("SELECT serial FROM rolls ORDER BY id")]
    assert serials == [1, 2, 3, 4, 5, 6]
    for each in (one, two):
        each.file.close()


def test_a_held_file_is_said_to_be_held(school: School, db: Path):
    other = sqlite3.connect(db, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    school.file.patience = 0.01
    with pytest.raises(FileTrouble, match="is held by another program: try again"):
        load(school.file, school.hand(), OLU, [1])
    other.close()


def test_a_backup_made_from_a_view_is_whole(school: School, db: Path, tmp_path: Path):
    hang(school.file, school.hand(ago=5), person=OLU, clip=18)
    undo(school.file, school.hand(ago=5))  # a roll that never was is counted nowhere
    hang(school.file, school.hand(), person=OLU, clip=17)
    with open_file(db, write=False) as file, file.reading():
        made = back_up(file, tmp_path / "copy.db")
    with open_file(made.file, write=False) as copy:
        assert (made.rolls, checking.problems(copy)) == (1, [])
    with pytest.raises(Refused, match="exists already"):
        back_up(school.file, tmp_path / "copy.db")
    assert not list(tmp_path.glob(".*"))
