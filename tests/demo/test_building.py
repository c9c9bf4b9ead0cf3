from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from filmrack.acts.founding import make_darkroom_file
from filmrack.demo import building
from filmrack.demo.building import build, rebuild
from filmrack.demo.copying import copy_demo
from filmrack.demo.school import MOMENT, demo_room
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.store import checking, clock
from filmrack.store.file import open_file
from tests.demo.canonical import dump, rows_of, taught

AFTER_THE_FIRST_FILMS = datetime(2025, 10, 4, tzinfo=UTC)


@pytest.fixture(scope="module")
def first_weeks(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("first") / "weeks.db"
    build(path, AFTER_THE_FIRST_FILMS)
    return path


def test_it_is_one_file_without_a_journal(shipped_demo: Path):
    # "The SQLite database file format", section 1.3: bytes 18 and 19 are 1 for a rollback journal.
    assert shipped_demo.read_bytes()[18:20] == b"\x01\x01"
    assert not list(shipped_demo.parent.glob("demo.db-*"))


def test_two_builds_write_the_same_bytes(first_weeks: Path, tmp_path: Path):
    build(tmp_path / "again.db", AFTER_THE_FIRST_FILMS)
    assert (tmp_path / "again.db").read_bytes() == first_weeks.read_bytes()


def test_a_build_leaves_one_whole_file(first_weeks: Path):
    assert [path.name for path in first_weeks.parent.iterdir()] == ["weeks.db"]
    with open_file(first_weeks, write=False) as file:
        assert checking.problems(file) == []
        assert clock.now_in(file.conn, MOMENT) == AFTER_THE_FIRST_FILMS


def test_the_shipped_demo_begins_as_the_acts_write_it_now(first_weeks: Path, shipped_demo: Path):
    with (
        closing(sqlite3.connect(first_weeks)) as now,
        closing(sqlite3.connect(f"{shipped_demo.as_uri()}?mode=ro", uri=True)) as then,
    ):
        written = rows_of(now, "ledger")
        assert len(written) > 500
        assert rows_of(then, "ledger", f"id <= {len(written)}") == written
        for table in ("terms", "periods", "timetable", "days_off", "one_offs", "dryers", "rods"):
            assert rows_of(then, table) == rows_of(now, table)
        for table in ("people", "enrolments", "name_tokens", "boxes"):
            assert rows_of(then, table) == rows_of(now, table)
    everything, beginning = dump(shipped_demo), dump(first_weeks)
    assert [line for line in everything if line.startswith(_FORM)] == [
        line for line in beginning if line.startswith(_FORM)
    ]


_FORM = ("application_id", "user_version", "table ", "index ", "trigger ", "view ")


@pytest.mark.skipif(
    "FILMRACK_WHOLE_DEMO" not in os.environ,
    reason="takes a minute: .ci/run sets FILMRACK_WHOLE_DEMO, and the test before is quicker",
)
def test_the_shipped_demo_is_what_a_rebuild_writes(shipped_demo: Path, tmp_path: Path):
    build(tmp_path / "demo.db")
    assert dump(tmp_path / "demo.db") == dump(shipped_demo)
    # Another processor's logarithm may be rounded the other way.
    assert list(taught(tmp_path / "demo.db")) == pytest.approx(list(taught(shipped_demo)), abs=1e-3)


def test_a_rebuild_takes_the_place_of_an_earlier_demo(
    tmp_path: Path, first_weeks: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(building, "build", lambda path: shutil.copyfile(first_weeks, path))
    copy_demo(tmp_path / "demo.db", MOMENT)
    rebuild(tmp_path / "demo.db")
    assert (tmp_path / "demo.db").read_bytes() == first_weeks.read_bytes()
    assert [path.name for path in tmp_path.iterdir()] == ["demo.db"]


@pytest.mark.parametrize("what", ["a letter", "a folder", "a darkroom"])
def test_a_rebuild_is_refused_over_what_is_no_demo(tmp_path: Path, what: str):
    path = tmp_path / "file"
    match what:
        case "a letter":
            path.write_text("Dear Ida")
        case "a folder":
            path.mkdir()
        case _:
            make_darkroom_file(path, demo_room(), MOMENT).close()
    before = path.read_bytes() if path.is_file() else None
    with pytest.raises(Refused, match="is not a demo"):
        rebuild(path)
    assert before == (path.read_bytes() if path.is_file() else None)


def test_a_rebuild_is_refused_under_an_open_desk(tmp_path: Path):
    copy_demo(tmp_path / "demo.db", MOMENT)
    with open_file(tmp_path / "demo.db", write=True) as desk:
        clock.stand_at(desk.conn, MOMENT)
        with pytest.raises(Refused, match="in use"):
            rebuild(tmp_path / "demo.db")


def test_a_rebuild_that_is_cut_short_leaves_the_earlier_demo(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    def cut(path: Path) -> None:
        path.write_text("half of it")
        raise KeyboardInterrupt

    monkeypatch.setattr(building, "build", cut)
    copy_demo(tmp_path / "demo.db", MOMENT)
    before = (tmp_path / "demo.db").read_bytes()
    with pytest.raises(KeyboardInterrupt):
        rebuild(tmp_path / "demo.db")
    assert (tmp_path / "demo.db").read_bytes() == before
    assert not list(tmp_path.glob(".*"))


def test_a_copy_goes_on_from_where_the_demo_stands(tmp_path: Path):
    copied = datetime(2031, 2, 3, 4, 5, tzinfo=UTC)
    copy_demo(tmp_path / "copy.db", copied)
    with open_file(tmp_path / "copy.db", write=False) as copy:
        assert clock.is_demo(copy.conn)
        assert clock.now_in(copy.conn, copied) == MOMENT
        later = copied.replace(minute=15)
        assert clock.now_in(copy.conn, later) - MOMENT == later - copied


def test_nothing_is_copied_over_a_file(tmp_path: Path):
    (tmp_path / "mine.db").write_text("mine")
    with pytest.raises(Refused, match="exists already"):
        copy_demo(tmp_path / "mine.db", MOMENT)
    assert (tmp_path / "mine.db").read_text() == "mine"


def test_a_folder_that_is_missing_takes_no_copy(tmp_path: Path):
    with pytest.raises(FileTrouble, match=r"cannot be used \(No such file.*\): check that its"):
        copy_demo(tmp_path / "none" / "copy.db", MOMENT)
