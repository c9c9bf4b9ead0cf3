"""What a person at the counter does not wait for: imports that the commands of the day need not."""

from __future__ import annotations

import json
import subprocess
import sys

from tests.cli.conftest import Shell

SLOW = ["platformdirs", "qrcode", "rapidfuzz", "reportlab", "sqlite_utils", "textual"]

NOT_FOR_A_LOOKUP = [
    "dataclasses",
    "pathlib",
    "unicodedata",
    "filmrack.acts",
    "filmrack.domain.bell",
    "filmrack.domain.film",
    "filmrack.domain.journey",
    "filmrack.domain.loans",
    "filmrack.domain.places",
    "filmrack.domain.termreport",
    "filmrack.store.backup",
    "filmrack.store.data_folder",
    "filmrack.store.folding",
    "filmrack.store.kept_room",
    "filmrack.store.teaching",
]
"""What `find` of a roll that hangs does not need."""

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


def test_a_lookup_imports_what_a_lookup_needs_and_no_more(shell: Shell) -> None:
    for clip in (17, 18, 19):
        shell.type("hang", "olu", "--clip", str(clip))
    for line in ("find clip 17", "find olu"):
        # Each alone: what one has imported the other would be blamed for.
        assert imported_by([line], NOT_FOR_A_LOOKUP) == [[line, 0, []]]


def imported_by(lines: list[str], slow: list[str] = SLOW) -> list[object]:
    """Return each command with its exit code and what of `slow` was imported by then."""
    words = [sys.executable, "-c", SCRIPT, json.dumps([slow, lines])]
    done = subprocess.run(words, capture_output=True, text=True, check=True)
    told: list[object] = json.loads(done.stdout)
    return told
