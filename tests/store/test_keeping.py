"""Backups beside the file: made in time, read back, let go in time."""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections import namedtuple
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts.hanging import hang
from filmrack.domain.refusal import FileTrouble, NeedsBackup
from filmrack.store import backup, checking, clock, file, keeping, schema
from filmrack.store.backup import kept_backups
from filmrack.store.file import open_file
from filmrack.store.keeping import keep, keep_daily, with_the_way_back
from filmrack.store.version import VERSION
from tests.conftest import OLU, TUESDAY_9_00, School


def names(db: Path) -> list[str]:
    return [each.name for each in kept_backups(db)]


def test_one_backup_a_day_is_made_and_is_whole(school: School, db: Path):
    hang(school.file, school.hand(), person=OLU, clip=17)
    made = keep_daily(school.file, school.now)
    assert made is not None
    assert keep_daily(school.file, school.now + timedelta(hours=8)) is None
    assert names(db) == ["darkroom-20261117T150000Z-daily.db"]
    with open_file(made.file, write=False) as copy:
        assert checking.problems(copy) == []
    assert keep_daily(school.file, school.now + timedelta(days=1)) is not None


def test_a_demo_keeps_none(school: School, db: Path):
    with school.file.writing() as conn:
        clock.stand_at(conn, school.now)
    assert keep_daily(school.file, school.now) is None
    assert not (db.parent / "backups").exists()


def test_a_year_of_days_leaves_few_and_touches_nothing_else(school: School, db: Path):
    folder = db.parent / "backups"
    folder.mkdir()
    others = ["darkroom-old.db", "darkroom-2-20200101T000000Z-daily.db", "letter.txt"]
    for name in others:
        (folder / name).write_text("not ours")
    for day in range(0, 400, 3):
        keep_daily(school.file, school.now + timedelta(days=day))
    there = {each.name for each in folder.iterdir()}
    assert len(there - set(others)) <= 7 + 5 + 3
    assert set(others) <= there


@pytest.mark.parametrize("of", ["backups/darkroom-20261110T150000Z-daily.db", "darkroom.db"])
def test_drafts_that_a_power_cut_left_are_cleared_away_the_next_day(
    school: School, db: Path, of: str
):
    backup.make_backups_folder(db)
    there = db.parent / of
    old, new = (there.with_name(f".{there.name}.{n}.part") for n in (1, 2))
    for each in (old, new):
        each.touch()
    day_before = (TUESDAY_9_00 - timedelta(days=2)).timestamp()
    os.utime(old, (day_before, day_before))
    os.utime(new, (TUESDAY_9_00.timestamp(),) * 2)
    keep_daily(school.file, school.now)
    assert (old.exists(), new.exists()) == (False, True)


def test_without_room_for_a_copy_none_is_begun(
    school: School, db: Path, monkeypatch: pytest.MonkeyPatch
):
    usage = namedtuple("usage", "total used free")
    monkeypatch.setattr(keeping.shutil, "disk_usage", lambda _: usage(9, 9, 1000))
    with pytest.raises(FileTrouble, match="has no room for a backup of"):
        keep_daily(school.file, school.now)
    assert not list((db.parent / "backups").iterdir())


def test_a_copy_that_is_not_whole_is_no_backup(
    school: School, db: Path, monkeypatch: pytest.MonkeyPatch
):
    def spoiled(path: Path) -> int:
        raise NeedsBackup(path, f"{path} is not whole (page 7): take another backup")

    monkeypatch.setattr(backup, "whole", spoiled)
    with pytest.raises(FileTrouble, match=r"was not made: .* is not whole"):
        keep(school.file, "daily", school.now)
    assert not list((db.parent / "backups").iterdir())


def test_the_way_back_is_the_newest_backup_that_is_whole_with_its_age(school: School, db: Path):
    trouble = NeedsBackup(db, f"{db} is damaged: go back to the newest backup")
    assert with_the_way_back(trouble, school.now).endswith(
        f"none that is whole lies in {db.parent / 'backups'}"
    )
    good = keep(school.file, "daily", school.now - timedelta(days=2))
    newer = keep(school.file, "daily", school.now - timedelta(hours=3))
    newer.file.write_bytes(newer.file.read_bytes()[:5000])
    assert f"which is {good.file}, 2 days old and read to its end" in with_the_way_back(
        trouble, school.now
    )
    db.unlink()
    missing = NeedsBackup(db, f"{db} does not exist: make one", other_way=True)
    assert f"make one, or go back to the newest backup, which is {good.file}" in with_the_way_back(
        missing, school.now
    )
    shutil.rmtree(db.parent / "backups")
    assert with_the_way_back(missing, school.now) == str(missing)
    assert with_the_way_back(FileTrouble("the disk is full"), school.now) == "the disk is full"


# Migrations.


def test_the_version_is_the_number_of_its_steps():
    assert len(schema.STEPS) == VERSION


LATER = "CREATE TABLE songs (title TEXT) STRICT; INSERT INTO songs VALUES ('one')"


@pytest.fixture
def next_version(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make today's version an earlier one: the next has a step more."""
    steps = (*schema.STEPS, ";\n".join(LATER.split("; ")) + ";\n")
    monkeypatch.setattr(schema, "STEPS", steps)
    monkeypatch.setattr(file, "VERSION", len(steps))


@pytest.mark.parametrize("write", [True, False])
def test_a_file_of_an_earlier_version_is_brought_up_and_kept_as_it_was(
    school: School, db: Path, next_version: None, write: bool
):
    hang(school.file, school.hand(), person=OLU, clip=17)
    before = school.dump()
    with open_file(db, write=write) as later:
        assert later.conn.execute("SELECT title FROM songs").fetchone()[0] == "one"
        assert checking.problems(later) == []
    (kept,) = kept_backups(db)
    assert f"before-version-{VERSION + 1}" in kept.name
    with sqlite3.connect(kept) as copy:
        assert "\n".join(copy.iterdump()) == before
        assert copy.execute("PRAGMA user_version").fetchone()[0] == VERSION
    copy.close()
    with open_file(db, write=write):
        assert len(kept_backups(db)) == 1


def test_without_its_backup_an_earlier_file_stays_as_it_is(
    school: School, db: Path, next_version: None
):
    (db.parent / "backups").write_text("in the way")
    with pytest.raises(FileTrouble):
        open_file(db, write=True)
    assert school.file.conn.execute("PRAGMA user_version").fetchone()[0] == VERSION


def test_a_step_that_fails_leaves_the_earlier_file(
    school: School, db: Path, monkeypatch: pytest.MonkeyPatch
):
    steps = (*schema.STEPS, "CREATE TABLE songs (title TEXT);\nCREATE TABLE people (x);\n")
    monkeypatch.setattr(schema, "STEPS", steps)
    monkeypatch.setattr(file, "VERSION", len(steps))
    before = school.dump()
    with pytest.raises(FileTrouble):
        open_file(db, write=True)
    assert school.dump() == before
