"""The README's day at the command line, typed line by line as it stands there."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from tests.cli.conftest import Shell

README = (Path(__file__).parents[2] / "README.md").read_text()
DAY = README.partition("## A day in eleven lines")[2].partition("\n## ")[0]
LINES = [line.split("#")[0].split()[1:] for line in re.findall(r"(?m)^    (filmrack .*)$", DAY)]


def test_the_day_of_the_readme_goes_from_the_tank_to_the_binder(shell: Shell) -> None:
    assert len(LINES) == 11
    for line in LINES:
        shell.type(*(here(shell, word) for word in line))
        assert (shell.code, shell.err) == (0, ""), line
    assert found(shell)["place"] == {"kind": "binder", "binder": 3}


def here(shell: Shell, word: str) -> str:
    """Return a word as it is at this school: another number, and another count of another rod."""
    if word == "26F-0142-09":
        return str(found(shell)["roll"])
    return f"{found(shell)['place']['rod']}=1" if word == "3=6" else word


def found(shell: Shell) -> Any:
    """Return what `find mar` says of the roll."""
    return shell.json("find", "mar")[0]
