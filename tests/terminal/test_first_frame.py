"""What a desk shows first, and what it leaves until that is shown."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

from filmrack.acts import hanging
from filmrack.store.clock import stand_at
from tests.conftest import IVO, MARA, TUESDAY_9_00, School
from tests.terminal.screen import running

BEGINS = b"\x1b[1;1H"
"""The cursor at the top left, where each frame begins and ends (ECMA-48, CUP)."""

LATER = [
    "click",
    "filmrack.acts.hanging",
    "filmrack.desk.board",
    "filmrack.desk.hits",
    "filmrack.desk.sentences",
    "filmrack.printing",
    "rapidfuzz",
    "reportlab",
    "sqlite_utils",
    "tomllib",
]
"""What nothing on the first frame needs."""

AT_THE_FIRST_FRAME = """
import json, sys
from pathlib import Path
from filmrack.desk.app import Desk

path, later = json.loads(sys.argv[1])

def started():
    print(json.dumps([name for name in later if name in sys.modules]))

desk = Desk(Path(path), started=started)
wake = desk._wake

def wake_and_leave():
    wake()
    desk.exit()

desk._wake = wake_and_leave
desk.run(headless=True)
"""

ALONE = """
import sys
from filmrack.desk import opening

opening.open_desk = lambda path, started: print(path.name, "click" in sys.modules)
sys.argv = ["filmrack"]

from filmrack.__main__ import main

main()
"""


def python(code: str, *arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-c", code, *arguments]
    env = {**os.environ, **environment}
    return subprocess.run(command, capture_output=True, text=True, check=False, env=env)


def test_the_first_frame_shows_what_hangs(school: School) -> None:
    for person, clip in ((MARA, 17), (IVO, 23)):
        hanging.hang(school.file, school.hand(), person=person, clip=clip)
    with school.file.writing() as conn:
        stand_at(conn, TUESDAY_9_00)
    command = [sys.executable, "-m", "filmrack"]
    with running(command, FILMRACK_DB=str(school.file.path)) as terminal:
        terminal.until("17", "23", "a name, a number")
        first = terminal.raw.split(BEGINS)[1].decode()
    for word in ("Dryer", "17", "23", "Mara", "Ivo", "a name, a number", "Wait, flip at", "Boxes"):
        assert word in first


def test_what_the_first_frame_does_not_need_is_imported_behind_it(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    asked = json.dumps([str(school.file.path), LATER])
    assert json.loads(python(AT_THE_FIRST_FRAME, asked).stdout) == []


def test_the_desk_alone_opens_without_what_reads_commands(db: Path) -> None:
    assert python(ALONE, FILMRACK_DB=str(db)).stdout == f"{db.name} False\n"


def test_a_desk_that_cannot_open_its_file_says_why_and_ends(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear darkroom,")
    done = python("from filmrack.__main__ import main; main()", FILMRACK_DB=str(path))
    assert (done.returncode, done.stdout) == (3, "")
    assert done.stderr.startswith(f"filmrack: {path} ")
