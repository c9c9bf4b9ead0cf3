"""Four real desks and the command line on one file: who acts is seen by all, and nobody fails."""

from __future__ import annotations

import sys
import time
from contextlib import ExitStack
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from filmrack.cli.app import run
from filmrack.store import checking
from filmrack.store.clock import stand_at
from filmrack.store.file import open_file
from tests.conftest import TUESDAY_9_00

if TYPE_CHECKING:
    from tests.terminal.screen import Terminal

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")

ROUNDS = 3
PATIENT = 5.0
"""Seconds that a busy machine may take; `tests/bench/desks_follow.py` prints what it does take."""


def shows_none(desk: Terminal) -> bool:
    return "1 of 2" not in desk.text


def follow(db: Path, rounds: int) -> list[float]:
    """Return after how many seconds each of four desks showed what somebody else did."""
    from tests.terminal.screen import desk_command, running

    with open_file(db, write=True) as file, file.writing() as conn:
        stand_at(conn, TUESDAY_9_00)
    took: list[float] = []
    with ExitStack() as stack:
        desks = [
            stack.enter_context(running(desk_command(db, TUESDAY_9_00.isoformat())))
            for _ in range(4)
        ]
        for desk in desks:
            desk.until("Dryer")
        for nth in range(rounds):
            clip = 71 + nth
            # A command hangs on rod 3, which is nobody's; each time another desk boxes it.
            assert run(["--db", str(db), "hang", "olu", "--clip", str(clip), "--rod", "3"]) == 0
            began = time.monotonic()
            for desk in desks:
                desk.until("1 of 2")
                took.append(time.monotonic() - began)
            desks[nth % 4].press(f"{clip} box\r")
            desks[nth % 4].until("In box 2")
            began = time.monotonic()
            for desk in (each for each in desks if each is not desks[nth % 4]):
                desk.until_so(partial(shows_none, desk), "an empty rod")
                took.append(time.monotonic() - began)
        for desk in desks:
            assert "held by another program" not in desk.text
            assert "locked" not in desk.text
    with open_file(db, write=False) as file:
        assert checking.problems(file) == []
        acts = file.conn.execute("SELECT count(*) FROM ledger WHERE act = 'box'").fetchone()[0]
    assert acts == rounds
    return took


def test_four_desks_see_what_the_others_do(db: Path) -> None:
    took = follow(db, ROUNDS)
    assert max(took) < PATIENT
