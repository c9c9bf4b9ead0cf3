from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from filmrack.cli.app import run
from filmrack.cli.call import no_desk
from filmrack.demo import building
from filmrack.demo.school import MOMENT
from filmrack.shipped import shipped
from filmrack.store import clock
from filmrack.store.file import open_file

Capture = pytest.CaptureFixture[str]

LONG_AFTER = datetime(2031, 5, 2, 7, 30, tzinfo=UTC)
"""What the machine says while somebody looks around in the demo."""


def typed(*words: str, open_desk: Callable[[Path], None] = no_desk, minutes: float = 0) -> int:
    """Run a command so many minutes behind the first one."""
    return run(list(words), open_desk, lambda: LONG_AFTER + timedelta(minutes=minutes))


def at_desk(seen: list[Path]) -> Callable[[Path], None]:
    def open_desk(path: Path) -> None:
        seen.append(path)
        with open_file(path, write=True) as file:
            assert clock.now_in(file.conn, LONG_AFTER) == MOMENT
            clock.stand_at(file.conn, MOMENT)  # something is written

    return open_desk


def test_the_desk_opens_on_a_scratch_copy_that_is_removed_afterwards(capsys: Capture):
    before = shipped("demo.db").read_bytes()
    seen: list[Path] = []
    assert typed("demo", open_desk=at_desk(seen)) == 0
    (copy,) = seen
    assert str(copy) in capsys.readouterr().out
    assert not copy.parent.exists()
    assert shipped("demo.db").read_bytes() == before


def test_the_copy_is_removed_also_when_the_desk_falls(capsys: Capture):
    seen: list[Path] = []

    def open_desk(path: Path) -> None:
        seen.append(path)
        raise KeyboardInterrupt

    assert typed("demo", open_desk=open_desk) == 1
    assert not seen[0].parent.exists()


def test_what_was_printed_in_the_demo_is_kept(capsys: Capture):
    def open_desk(path: Path) -> None:
        path.with_name("sleeves.pdf").write_bytes(b"%PDF")

    assert typed("demo", open_desk=open_desk) == 0
    told = capsys.readouterr().out.splitlines()[-1]
    found = re.fullmatch(r"what you printed is kept in (.*): sleeves\.pdf", told)
    assert found is not None
    kept = Path(found[1])
    assert (kept / "sleeves.pdf").read_bytes() == b"%PDF"
    shutil.rmtree(kept)


def test_commands_on_a_copy_agree_with_its_clock(tmp_path: Path, capsys: Capture):
    copy = str(tmp_path / "copy.db")
    assert typed("demo", "--copy", copy, "--json") == 0
    assert json.loads(capsys.readouterr().out)["file"] == copy
    assert typed("--db", copy, "due", "--json") == 0
    due = json.loads(capsys.readouterr().out)
    assert due[0]["why"] == "flip due"
    assert due[0]["since"].startswith("2026-11-17T10:2")
    assert typed("--db", copy, "find", due[0]["roll"], "--json") == 0
    (found,) = json.loads(capsys.readouterr().out)
    assert (found["state"], found["flip_at"]) == (due[0]["state"], due[0]["since"])
    assert typed("--db", copy, "flip", due[0]["roll"], "--json", minutes=2) == 0
    capsys.readouterr()
    assert typed("--db", copy, "show", due[0]["roll"], "--json") == 0
    last = json.loads(capsys.readouterr().out)["ledger"][0]
    assert last["act"] == "flip"
    assert last["at"] == "2026-11-17T10:28:00-06:00"


def test_nothing_is_copied_or_built_over_what_is_no_demo(tmp_path: Path, capsys: Capture):
    mine = tmp_path / "mine.db"
    mine.write_text("mine")
    for option in ("--copy", "--rebuild"):
        assert typed("demo", option, str(mine)) == 1
        assert "mine.db exists" in capsys.readouterr().err
    assert mine.read_text() == "mine"


def test_a_demo_is_built_anew_over_a_demo(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(building, "build", lambda path: shutil.copyfile(shipped("demo.db"), path))
    target = str(tmp_path / "demo.db")
    for _ in range(2):
        assert typed("demo", "--rebuild", target) == 0
        assert "built anew" in capsys.readouterr().out


def test_a_demo_that_is_not_there_is_trouble_with_the_file(
    tmp_path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr("filmrack.demo.copying.shipped", lambda name: tmp_path / name)
    assert typed("demo") == 3
    assert "--rebuild" in capsys.readouterr().err


@pytest.mark.parametrize("options", [["--copy", "a", "--rebuild", "b"], ["--json"]])
def test_options_that_contradict_each_other_are_wrong_usage(options: list[str], capsys: Capture):
    assert typed("demo", *options) == 2
    assert capsys.readouterr().err
