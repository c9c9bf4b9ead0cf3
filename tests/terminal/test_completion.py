"""Completion in a shell: the README's line in bash, and what zsh and fish are told."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

README = (Path(__file__).parents[2] / "README.md").read_text()
IN_BASH = """
{line}
COMP_WORDS=({words}) COMP_CWORD={last}
_filmrack_completion filmrack
echo "${{COMPREPLY[@]}}"
"""


def asking(**asked: str) -> dict[str, str]:
    """Return an environment that has `filmrack` and no darkroom file."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    return {"PATH": path, "FILMRACK_DB": "/nonexistent/darkroom.db"} | asked


@pytest.mark.skipif(shutil.which("bash") is None, reason="this machine has no bash")
@pytest.mark.parametrize(
    ("words", "offered"),
    [
        ("filmrack la", "labels"),
        ("filmrack labels gu", "guide-student guide-cabinet guide-binders"),
        ("filmrack room ''", "apply check days-off export"),
    ],
)
def test_the_line_of_the_readme_completes_in_bash(words: str, offered: str) -> None:
    found = re.search(r"^ +(eval .*bash_source.*)$", README, re.MULTILINE)
    assert found is not None
    script = IN_BASH.format(line=found[1], words=words, last=len(words.split()) - 1)
    done = subprocess.run(
        ["bash", "-c", script], env=asking(), capture_output=True, text=True, check=False
    )
    assert (done.stdout.strip(), done.stderr) == (offered, "")


@pytest.mark.parametrize(
    ("shell", "tells"), [("bash", "complete -"), ("zsh", "compdef"), ("fish", "complete --")]
)
def test_a_shell_that_asks_for_its_completion_gets_it_and_opens_no_desk(
    shell: str, tells: str
) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "filmrack"],
        env=asking(_FILMRACK_COMPLETE=f"{shell}_source"),
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert tells in done.stdout
