"""A desk in a real pseudo-terminal, its screen read by a terminal emulator."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import pyte

PATIENCE = 30.0
"""Seconds until a screen that does not come is a failure; nothing waits longer than it must."""

START = """
import sys
from datetime import datetime
from pathlib import Path
from filmrack.desk.app import Desk
moment = datetime.fromisoformat(sys.argv[2])
Desk(Path(sys.argv[1]), machine=lambda: moment).run(mouse=sys.argv[3] == "mouse")
"""


class Terminal:
    """The terminal's end of a pseudo-terminal: keys go in, a screen comes out."""

    def __init__(self, master: int, width: int, height: int) -> None:
        self._master = master
        self._screen = pyte.Screen(width, height)
        self._stream = pyte.ByteStream(self._screen)
        self.raw = b""

    @property
    def text(self) -> str:
        return "\n".join(row.rstrip() for row in self._screen.display)

    def press(self, keys: str | bytes) -> None:
        data = keys.encode() if isinstance(keys, str) else keys
        while data:
            data = data[os.write(self._master, data) :]

    def paste(self, text: str) -> None:
        """Paste as terminals do that bracket it (xterm control sequences, mode 2004)."""
        self.press(f"\x1b[200~{text}\x1b[201~")

    def until(self, *words: str) -> str:
        """Read until the screen shows all words."""
        return self.until_so(lambda: all(word in self.text for word in words), " · ".join(words))

    def until_so(self, so: Callable[[], bool], what: str) -> str:
        end = time.monotonic() + PATIENCE
        while not so():
            left = end - time.monotonic()
            assert left > 0, f"the screen never showed {what}:\n{self.text}"
            ready, _, _ = select.select([self._master], [], [], min(left, 0.2))
            if ready:
                try:
                    data = os.read(self._master, 65536)
                except OSError:  # the other end is closed
                    data = b""
                assert data, f"the desk ended before it showed {what}:\n{self.text}"
                self.raw += data
                # Questions about the terminal, which an emulator of a screen does not answer.
                self._stream.feed(data)
        return self.text


@contextmanager
def running(
    command: Sequence[str], size: tuple[int, int] = (120, 34), **environment: str
) -> Iterator[Terminal]:
    """Run a command in a terminal of its own."""
    width, height = size
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", height, width, 0, 0))
    known = {"TERM": "xterm-256color", "LANG": "C.UTF-8", "LC_ALL": "C.UTF-8"}
    env = {**os.environ, **known, **environment, "PYTHONPATH": str(Path.cwd())}
    process = subprocess.Popen(
        command, stdin=slave, stdout=slave, stderr=slave, env=env, start_new_session=True
    )
    os.close(slave)
    try:
        yield Terminal(master, width, height)
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        os.close(master)


def desk_command(path: Path, moment: str, mouse: str = "mouse") -> list[str]:
    return [sys.executable, "-c", START, str(path), moment, mouse]
