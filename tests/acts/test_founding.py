from __future__ import annotations

import sqlite3
import stat
from pathlib import Path

import pytest

from filmrack.acts import founding
from filmrack.acts.founding import make_darkroom_file
from filmrack.domain.default_room import default_room
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.room import Box, Room
from filmrack.store.file import open_file
from tests.conftest import TUESDAY_9_00


@pytest.fixture
def room() -> Room:
    return default_room("America/Chicago", TUESDAY_9_00.date())


def test_a_room_is_read_back_as_it_was_founded(tmp_path: Path, room: Room):
    make_darkroom_file(tmp_path / "darkroom.db", room, TUESDAY_9_00).close()
    with open_file(tmp_path / "darkroom.db", write=False) as file:
        assert file.room() == room


def test_founding_leaves_one_file_and_nothing_beside_it(tmp_path: Path, room: Room):
    make_darkroom_file(tmp_path / "darkroom.db", room, TUESDAY_9_00).close()
    assert [path.name for path in tmp_path.iterdir()] == ["darkroom.db"]


@pytest.mark.parametrize("what", ["a file", "a folder", "a link to nowhere"])
def test_nothing_is_founded_over_something(tmp_path: Path, room: Room, what: str):
    path = tmp_path / "darkroom.db"
    match what:
        case "a file":
            path.write_text("a letter")
        case "a folder":
            path.mkdir()
        case _:
            path.symlink_to(tmp_path / "nowhere")
    with pytest.raises(Refused, match="exists already"):
        make_darkroom_file(path, room, TUESDAY_9_00)
    assert [path.name for path in tmp_path.iterdir()] == ["darkroom.db"]
    assert not path.is_file() or path.read_text() == "a letter"


def test_a_journal_left_by_a_lost_file_is_not_taken_for_the_new_one(tmp_path: Path, room: Room):
    # SQLite would play the old journal into the new file ("Write-Ahead Logging", section 4).
    (tmp_path / "darkroom.db-wal").write_bytes(b"frames of another file")
    with pytest.raises(Refused, match=r"darkroom\.db-wal"):
        make_darkroom_file(tmp_path / "darkroom.db", room, TUESDAY_9_00)
    assert not (tmp_path / "darkroom.db").exists()


def test_when_it_fails_halfway_no_half_file_stays(
    tmp_path: Path, room: Room, monkeypatch: pytest.MonkeyPatch
):
    def cut(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(founding, "bump_stamp", cut)
    with pytest.raises(KeyboardInterrupt):
        make_darkroom_file(tmp_path / "darkroom.db", room, TUESDAY_9_00)
    assert list(tmp_path.iterdir()) == []


def test_a_room_that_does_not_hold_together_makes_no_file(tmp_path: Path, room: Room):
    with pytest.raises(Refused, match=r"boxes\[1\]\.period"):
        make_darkroom_file(
            tmp_path / "darkroom.db", room._replace(boxes=(Box(1, 9),)), TUESDAY_9_00
        )
    assert list(tmp_path.iterdir()) == []


def test_of_two_who_found_at_once_the_second_is_refused(
    tmp_path: Path, room: Room, monkeypatch: pytest.MonkeyPatch
):
    path = tmp_path / "darkroom.db"
    bump = founding.bump_stamp

    def meanwhile(conn: sqlite3.Connection) -> None:
        path.write_text("the other desk's")
        bump(conn)

    monkeypatch.setattr(founding, "bump_stamp", meanwhile)
    with pytest.raises(Refused, match="exists already"):
        make_darkroom_file(path, room, TUESDAY_9_00)
    assert path.read_text() == "the other desk's"


def test_a_folder_that_is_missing_is_named(tmp_path: Path, room: Room):
    with pytest.raises(FileTrouble, match="no folder"):
        make_darkroom_file(tmp_path / "none" / "darkroom.db", room, TUESDAY_9_00)


def test_a_folder_that_cannot_be_written_is_trouble_with_the_file(tmp_path: Path, room: Room):
    tmp_path.chmod(stat.S_IRUSR | stat.S_IXUSR)
    try:
        if (tmp_path / "probe").parent.stat().st_uid == 0:
            pytest.skip("root may write anywhere")
        with pytest.raises(FileTrouble, match=r"/darkroom\.db "):
            make_darkroom_file(tmp_path / "darkroom.db", room, TUESDAY_9_00)
    finally:
        tmp_path.chmod(stat.S_IRWXU)
