"""Handing a finished PDF on: to the system's viewer, or to its printer."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from filmrack.domain.refusal import Refused

Run = Callable[[Sequence[str]], int]
"""Runs a command to its end and returns its exit status."""

Which = Callable[[str], str | None]
"""Returns the path of a program, or None where the machine has none of that name."""


def run(command: Sequence[str]) -> int:
    """Run a command and return its exit status; what it says is not shown."""
    done = subprocess.run(
        command,
        check=False,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    return done.returncode


def view(
    pdf: Path, *, platform: str = sys.platform, run: Run = run, which: Which = shutil.which
) -> None:
    """Open a PDF in the system's viewer; raises Refused where there is none."""
    program = {"darwin": "open", "win32": "explorer"}.get(platform, "xdg-open")
    found = which(program)
    # The file explorer of win32 answers 1 although it opened the file.
    if found is None or (run([found, str(pdf)]) and platform != "win32"):
        raise Refused(f"No viewer could be opened for {pdf}; open the file yourself.")


def send(
    pdf: Path, printer: str | None = None, *, run: Run = run, which: Which = shutil.which
) -> None:
    """Print a PDF at its actual size with `lp`; raises Refused where that does not exist or fails.

    `lp` is the printing command of POSIX, `print-scaling` an attribute of the Internet Printing
    Protocol.
    """
    found = which("lp")
    if found is None:
        raise Refused(
            f"This machine has no lp command to print with; open {pdf} and print it at actual size."
        )
    to = ["-d", printer] if printer else []
    if run([found, *to, "-o", "print-scaling=none", "--", str(pdf)]):
        raise Refused(
            f"The printer did not take {pdf}; look at its queue, or open the file and print it at "
            f"actual size."
        )
