"""The questions of a new darkroom file, asked and answered in a real terminal."""

from __future__ import annotations

import sys
from pathlib import Path

from filmrack.store.file import open_file
from tests.terminal.screen import running


def test_a_new_file_is_made_from_what_is_answered(tmp_path: Path) -> None:
    path = tmp_path / "own.db"
    command = [sys.executable, "-m", "filmrack", "--db", str(path), "new"]
    with running(command, size=(200, 34)) as terminal:
        terminal.until("word for a period")
        terminal.press("block\r")
        terminal.until("How many a day")
        terminal.press("many\r")
        terminal.until("not a valid integer")
        terminal.press("4\r")
        terminal.until("Positions on a rod")
        terminal.press("\r")
        terminal.until("Time zone")
        terminal.press("Europe/Nowhere\r")
        terminal.until("is no time zone")
        terminal.press("Europe/Berlin\r")
        terminal.until("own.db is made", "Block 4", "filmrack roster FILE.csv", "labels clips 1-60")
    with open_file(path, write=False) as file:
        room = file.room()
    assert (room.period_word, room.zone) == ("block", "Europe/Berlin")
    assert [(rod.period, rod.positions) for rod in room.rods] == [(n, 10) for n in range(1, 5)]


def test_a_break_at_a_question_makes_no_file(tmp_path: Path) -> None:
    path = tmp_path / "own.db"
    with running([sys.executable, "-m", "filmrack", "--db", str(path), "new"]) as terminal:
        terminal.until("word for a period")
        terminal.press("\x04")
        terminal.until("stopped: nothing further was done")
    assert not path.exists()
