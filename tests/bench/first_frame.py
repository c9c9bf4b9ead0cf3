"""The first frame: from starting a process in a terminal of its own to a screen that shows it all.

The desk is timed as people start it, `filmrack` without a command, until every roll that hangs
stands on its screen between the top row and the line, with the card of the selected one and what
Enter does. Its peer is an app of Textual's with nothing in it, until its first frame is painted.
Both are taken by turns, so that what else the machine does slows both, and both are ended where
they are timed: leaving is not measured. What the processor worked for each until then says the
same with less noise.
"""

from __future__ import annotations

import fcntl
import os
import pty
import re
import resource
import select
import signal
import struct
import subprocess
import sys
import tempfile
import termios
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from filmrack.store import settings
from filmrack.store.clock import stand_at
from filmrack.store.file import open_file
from filmrack.store.rolls import hanging
from tests.bench.pairs import installed
from tests.desk.full_room import NOW

EMPTY = "from textual.app import App; App().run()"
STARTS = 11
PATIENCE = 60.0
CARD = ("top end", "tab Boxes")
"""What the card of the selected roll and the footer say."""

_CONTROLS = re.compile(rb"\x1b(\[[0-9;?>]*[A-Za-z]|\][^\x07]*\x07)")
_PAINTED = re.compile(rb"\x1b\[1;1H\x1b\[[0-9;]*m")
"""How each frame of Textual's begins: at the top left, in the colours of what stands there."""


class Start(NamedTuple):
    """Seconds until a frame stood there whole, the largest MiB held until then (Linux), and the
    seconds that the processor worked for it.
    """

    seconds: float
    mib: float
    worked: float


def start(command: Sequence[str], env: Mapping[str, str], words: Sequence[str]) -> Start:
    """Start a command in a terminal of 120 × 34, and end it at the frame that shows all words."""
    terminal, inside = pty.openpty()
    fcntl.ioctl(inside, termios.TIOCSWINSZ, struct.pack("HHHH", 34, 120, 0, 0))
    worked, began = _worked(), time.perf_counter()
    process = subprocess.Popen(
        command, stdin=inside, stdout=inside, stderr=inside, env=env, start_new_session=True
    )
    os.close(inside)
    said, wanted = b"", [word.encode() for word in words]
    try:
        while time.perf_counter() - began < PATIENCE:
            if not select.select([terminal], [], [], 1)[0]:
                continue
            came, read = time.perf_counter(), os.read(terminal, 1 << 20)
            said += read
            frame = _PAINTED.search(said)
            if frame is None:
                continue
            shown = _CONTROLS.sub(b"", said[frame.start() :])
            if all(word in shown for word in wanted):
                mib = _largest(process.pid)
                os.killpg(process.pid, signal.SIGKILL)
                process.wait()
                return Start(came - began, mib, _worked() - worked)
        raise AssertionError(f"no whole frame in {PATIENCE:g} s: {said[-2000:]!r}")
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()
        os.close(terminal)


def _worked() -> float:
    """Return how long the processor worked for all that was started and has ended."""
    ended = resource.getrusage(resource.RUSAGE_CHILDREN)
    return ended.ru_utime + ended.ru_stime


def _largest(pid: int) -> float:
    status = Path(f"/proc/{pid}/status").read_text()
    return int(status.partition("VmHWM:")[2].split()[0]) / 1024


@contextmanager
def standing(path: Path) -> Iterator[list[str]]:
    """Let a file stand at the moment of its full room; yields what its first screen must show."""
    with open_file(path, write=True) as file, file.writing() as conn:
        before = settings.read(conn, "clock_stands")
        stand_at(conn, NOW)
        clips = [f"┬{roll.clip}─" for roll in hanging(conn)]
    try:
        yield ["Dryer", "13:40", "› ", *clips, *CARD]
    finally:
        if before is None:
            with open_file(path, write=True) as file, file.writing() as conn:
                settings.forget(conn, "clock_stands")


def starts(path: Path, times: int = STARTS) -> list[tuple[Start, Start]]:
    """Return so many pairs of an empty app's start and the desk's, after one for nothing."""
    folder = Path(tempfile.gettempdir())
    env = {**os.environ, "PYTHONPATH": str(Path.cwd()), "FILMRACK_DB": str(path)}
    env |= {"TERM": "xterm-256color", "LC_ALL": "C.UTF-8", "XDG_DATA_HOME": str(folder / "nobody")}
    env["PYTHONPYCACHEPREFIX"] = str(folder / "filmrack-compiled")
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    empty, desk = [sys.executable, "-c", EMPTY], installed()
    with standing(path) as words:
        return [(start(empty, env, []), start(desk, env, words)) for _ in range(times + 1)][1:]
