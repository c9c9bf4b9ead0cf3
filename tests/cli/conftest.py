"""A command line at the small school, at the school's own time."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from filmrack.cli.app import run
from filmrack.store.clock import stand_at
from tests.conftest import School


@dataclass
class Shell:
    """A folder to work in, and what the last command answered."""

    folder: Path
    school: School
    capsys: pytest.CaptureFixture[str]
    code: int = 0
    out: str = ""
    err: str = ""

    def type(self, *words: str) -> str:
        """Run a command on the school's file and return what it printed."""
        self.capsys.readouterr()
        self.code = run(list(words))
        printed = self.capsys.readouterr()
        self.out, self.err = printed.out, printed.err
        assert "Traceback" not in self.err
        return self.out

    def json(self, *words: str) -> Any:
        """Run a command with --json and return its document."""
        return json.loads(self.type(*words, "--json"))

    def stands_at(self, moment: datetime) -> None:
        """Let the file's clock stand at a moment."""
        with self.school.file.writing() as conn:
            stand_at(conn, moment)

    def write(self, name: str, text: str | bytes) -> str:
        """Put a file in the folder and return its name."""
        data = text if isinstance(text, bytes) else text.encode()
        (self.folder / name).write_bytes(data)
        return name


@pytest.fixture
def shell(
    school: School,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Shell:
    """Return a command line in an empty folder, with the school's file named by FILMRACK_DB."""
    folder = tmp_path / "desk"
    folder.mkdir()
    monkeypatch.chdir(folder)
    monkeypatch.setenv("FILMRACK_DB", str(school.file.path))
    shell = Shell(folder, school, capsys)
    shell.stands_at(school.now)
    return shell
