"""Copies of the demo to play with: the shipped file itself is never written."""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime
from pathlib import Path

from filmrack.domain.refusal import FileTrouble
from filmrack.shipped import shipped
from filmrack.store import clock
from filmrack.store.file import open_file
from filmrack.store.trouble import already_there, trouble_with

DEMO = "demo.db"


def copy_demo(target: Path, machine: datetime) -> None:
    """Copy the shipped demo, and let the copy's clock go on from the demo's moment.

    `machine` is the machine's time. Raises Refused over anything that exists, FileTrouble when
    there is no demo here or the copy cannot be written.
    """
    origin = shipped(DEMO)
    if not origin.is_file():
        raise FileTrouble(
            f"{origin} is not there: build it with “filmrack demo --rebuild {origin}”"
        )
    with trouble_with(origin):
        content = origin.read_bytes()
    with trouble_with(target):
        try:
            copy = target.open("xb")
        except FileExistsError:
            raise already_there(target) from None
        try:
            with copy:
                copy.write(content)
            with open_file(target, write=True) as file, file.writing() as conn:
                clock.set_going(conn, machine)
        except BaseException:
            with suppress(OSError):
                target.unlink()
            raise
