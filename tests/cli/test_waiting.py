"""What a person at the counter does not wait for: imports that the commands of the day need not."""

from __future__ import annotations

import json
import subprocess
import sys

from tests.cli.conftest import Shell

SLOW = ["platformdirs", "qrcode", "rapidfuzz", "reportlab", "sqlite_utils", "textual"]

DAY = [
    "load olu --clip 17",
    "hang olu",
    "hang olu --clip 18",
    "hang olu --clip 19",
    "flip 17",
    "touch clip 17 dry",
    "move 17 --rod 3",
    "fan off",
    "take 18",
    "box 17",
    "undo",
    "due",
    "show 17",
    "find olu",
]
"""Three rolls are Olu's: enough hits that nobody looks for a typing error."""

SCRIPT = """
import contextlib, io, json, sys
from filmrack.cli.app import run

slow, day = json.loads(sys.argv[1])
told = []
for line in day:
    with contextlib.redirect_stdout(io.StringIO()):
        code = run(line.split())
    told.append([line, code, [name for name in slow if name in sys.modules]])
print(json.dumps(told))
"""


def test_no_command_of_the_day_waits_for_a_large_import(shell: Shell) -> None:
    assert imported_by(DAY) == [[line, 0, []] for line in DAY]


def test_what_needs_a_large_import_has_it(shell: Shell) -> None:
    shell.type("hang", "olu", "--clip", "17")
    assert imported_by(["find oul", "export everything"]) == [
        ["find oul", 0, ["rapidfuzz"]],
        ["export everything", 0, ["rapidfuzz", "sqlite_utils"]],
    ]


def imported_by(lines: list[str]) -> list[object]:
    """Return each command with its exit code and what of SLOW was imported by then."""
    words = [sys.executable, "-c", SCRIPT, json.dumps([SLOW, lines])]
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    told: list[object] = json.loads(done.stdout)
    return told
