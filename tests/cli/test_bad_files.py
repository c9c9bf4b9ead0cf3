"""A file that is missing, not ours, damaged, newer or read-only: exit code 3 and one sentence."""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from pathlib import Path

import pytest

from filmrack.cli.app import run
from tests.conftest import School

COMMANDS = (["find", "olu"], ["due"], ["show", "17"], ["hang", "olu", "--clip", "3"], ["undo"])
NOBODY = 65534
"""The user number of "nobody" on Linux: may read and write nothing of ours."""


@pytest.fixture
def elsewhere(tmp_path: Path, db: Path, school: School) -> Path:
    """Return a closed copy of the school's file."""
    path = tmp_path / "elsewhere.db"
    with sqlite3.connect(path) as copy:
        school.file.conn.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")
    return path


def trouble(path: Path, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    before = path.read_bytes() if path.is_file() else None
    code = run(["--db", str(path), *words])
    printed = capsys.readouterr()
    assert (code, printed.out) == (3, "")
    assert printed.err.count("\n") == 1
    assert (path.read_bytes() if path.is_file() else None) == before
    return printed.err


@pytest.mark.parametrize("words", COMMANDS)
@pytest.mark.parametrize(
    ("what", "why"),
    [
        ("missing", "does not exist: make a darkroom file"),
        ("folder", "is no file"),
        ("letter", "is not a darkroom file, or its beginning is damaged"),
        ("empty", "is not a darkroom file"),
        ("another database", "is not a darkroom file"),
        ("newer", "was written by a newer Filmrack"),
    ],
)
def test_a_file_that_is_not_ours_is_3_and_left_as_it_was(
    elsewhere: Path, capsys: pytest.CaptureFixture[str], what: str, why: str, words: list[str]
):
    match what:
        case "newer":
            with sqlite3.connect(elsewhere) as conn:
                conn.execute("PRAGMA user_version = 99")
            conn.close()
        case _:
            elsewhere.unlink()
    match what:
        case "folder":
            elsewhere.mkdir()
        case "letter":
            elsewhere.write_text("Dear darkroom, " * 500)
        case "empty":
            elsewhere.touch()
        case "another database":
            with sqlite3.connect(elsewhere) as conn:
                conn.execute("CREATE TABLE songs (title TEXT)")
            conn.close()
    assert why in trouble(elsewhere, capsys, *words)


@pytest.mark.parametrize("words", [["find", "olu"], ["due"], ["check"]])
def test_damage_found_on_the_way_is_3_and_one_sentence(
    elsewhere: Path, capsys: pytest.CaptureFixture[str], words: list[str]
):
    conn = sqlite3.connect(elsewhere)
    page_size = conn.execute("PRAGMA page_size").fetchone()[0]
    roots = conn.execute(
        "SELECT rootpage FROM sqlite_schema WHERE tbl_name IN ('rolls', 'name_tokens', 'settings')"
    ).fetchall()
    conn.close()
    with elsewhere.open("r+b") as file:
        for (root,) in roots:
            file.seek((root - 1) * page_size)
            file.write(b"\xff" * page_size)
    if words == ["check"]:
        code = run(["--db", str(elsewhere), *words])
        assert code in (1, 3)
        assert "Traceback" not in capsys.readouterr().err
        return
    assert "is damaged: leave it as it is and go back to the newest backup" in trouble(
        elsewhere, capsys, *words
    )


@pytest.mark.parametrize("words", COMMANDS)
def test_damage_in_the_words_of_the_file_itself_is_3(
    elsewhere: Path, capsys: pytest.CaptureFixture[str], words: list[str]
):
    whole = elsewhere.read_bytes()
    elsewhere.write_bytes(whole.replace(b"CREATE TABLE rolls", b"CREATE \xde\xadBLE rolls"))
    assert "is damaged: leave it as it is" in trouble(elsewhere, capsys, *words)


def test_new_over_a_file_is_refused(elsewhere: Path, capsys: pytest.CaptureFixture[str]):
    before = elsewhere.read_bytes()
    assert run(["--db", str(elsewhere), "new"]) == 1
    assert "exists already: name another file" in capsys.readouterr().err
    assert elsewhere.read_bytes() == before


@pytest.mark.skipif(os.geteuid() != 0, reason="only root can act as nobody for a while")
@pytest.mark.parametrize("words", COMMANDS[-2:])
def test_a_file_that_may_not_be_written_is_3(
    elsewhere: Path, capsys: pytest.CaptureFixture[str], words: list[str]
):
    folder = Path(tempfile.mkdtemp())  # pytest's own folders are closed to others
    try:
        path = Path(shutil.copy(elsewhere, folder / "darkroom.db"))
        run(["--db", str(path), "--at", "2099-01-01", *words])  # imports while it still may
        capsys.readouterr()
        path.chmod(0o444)
        folder.chmod(0o555)
        os.seteuid(NOBODY)
        assert "cannot be" in trouble(path, capsys, *words)
    finally:
        os.seteuid(0)
        shutil.rmtree(folder)
