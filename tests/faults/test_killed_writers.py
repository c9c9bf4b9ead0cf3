"""Desks that are killed in the middle of an act, and desks that write side by side."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="desks are forked")
ROOT = Path(__file__).parents[2]


def run(what: str, db: Path, number: float, seed: int = 1) -> dict[str, Any]:
    script = Path(__file__).with_name("writers.py")
    command = [sys.executable, str(script), what, str(db), str(number), str(seed)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        command, env=environment, capture_output=True, text=True, check=False, timeout=900
    )
    assert done.returncode == 0, done.stderr
    document: dict[str, Any] = json.loads(done.stdout)
    return document


def test_desks_killed_at_any_moment_lose_no_act_and_leave_none_half_done(db: Path) -> None:
    told = run("kill", db, 20)
    assert told["acknowledged"] > 20
    assert told["trouble"] == told["lost"] == told["half"] == told["problems"] == []
    assert told["doubled"] == 0


def test_four_desks_side_by_side_lose_no_act_and_wait_instead_of_failing(db: Path) -> None:
    told = run("write", db, 4)
    assert told["acts"] == told["acknowledged"] > 20
    assert told["trouble"] == told["lost"] == told["half"] == told["problems"] == []
    assert told["doubled"] == 0
