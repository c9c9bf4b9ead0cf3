"""Handing a finished PDF on: to the system's viewer, or to its printer."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from threading import Thread
from typing import NamedTuple

from filmrack.domain.refusal import Refused
from filmrack.printing.pages import PAPERS

PATIENCE_S = 3.0
"""A viewer that has not failed by then has opened."""

_MEDIA = {PAPERS["letter"]: "na_letter_8.5x11in", PAPERS["a4"]: "iso_a4_210x297mm"}
"""Names of paper in printing (PWG 5101.1, media standardized names)."""


class Ran(NamedTuple):
    """How a command ended: its exit status, and what it complained of."""

    status: int
    said: str = ""


RunProgram = Callable[[Sequence[str]], Ran]
"""Runs a command and returns how it ended."""

FindProgram = Callable[[str], str | None]
"""Returns the path of a program, or None where the machine has none of that name."""


def run(command: Sequence[str]) -> Ran:
    """Run a command to its end."""
    done = subprocess.run(
        command,
        check=False,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        errors="replace",
    )
    return Ran(done.returncode, done.stderr.strip())


def begin(command: Sequence[str], patience_s: float = PATIENCE_S) -> Ran:
    """Start a command that may go on until its window is closed; status 0 while it goes on.

    It has no terminal, so that a viewer of text cannot take the desk's.
    """
    begun = subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    # A thread that nobody waits for: closing the desk does not have to wait for the window.
    ending = Thread(target=begun.wait, daemon=True)
    ending.start()
    ending.join(patience_s)
    return Ran(begun.returncode or 0)


def view(
    pdf: Path,
    *,
    platform: str = sys.platform,
    run: RunProgram = begin,
    which: FindProgram = shutil.which,
) -> None:
    """Open a PDF in the system's viewer; raises Refused where there is none."""
    program = {"darwin": "open", "win32": "explorer"}.get(platform, "xdg-open")
    found = which(program)
    # The file explorer of win32 answers 1 although it opened the file.
    if found is None or (run([found, str(pdf)]).status and platform != "win32"):
        raise Refused(f"no viewer could be opened for {pdf}: open the file yourself")


def send(
    pdf: Path,
    paper_mm: tuple[float, float],
    printer: str | None = None,
    *,
    run: RunProgram = run,
    which: FindProgram = shutil.which,
) -> None:
    """Print a PDF at its actual size with `lp`; raises Refused where that does not exist or fails.

    `paper_mm` is the width and height of its pages: on another paper than its own a printer
    moves them to the middle. `lp` is the printing command of POSIX, `media` and `print-scaling`
    are attributes of the Internet Printing Protocol.
    """
    found = which("lp")
    if found is None:
        raise Refused(
            f"this machine has no lp command to print with: open {pdf} and print it at actual size"
        )
    to = ["-d", printer] if printer else []
    options = ["-o", f"media={media(paper_mm)}", "-o", "print-scaling=none"]
    status, said = run([found, *to, *options, "--", str(pdf)])
    if status:
        why = f" ({said.splitlines()[-1].rpartition('lp: ')[2].rstrip('.')})" if said else ""
        raise Refused(
            f"the printer did not take {pdf}{why}: look at its queue, or open the file and print it"
            f" at actual size"
        )


def media(paper_mm: tuple[float, float]) -> str:
    """Return the name in printing of a paper's width and height (PWG 5101.1)."""
    width, height = (round(side, 2) for side in paper_mm)
    return _MEDIA.get((width, height), f"custom_sheet_{width:g}x{height:g}mm")
