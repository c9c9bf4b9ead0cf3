"""Opening the desk on a darkroom file, or making the file first where there is none."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from filmrack.store.data_folder import data_folder

_AT_ONCE = 0.0005
"""Seconds, a tenth of the usual: a drawn frame goes out by a thread of its own, which waits so long
at most while the desk works on."""


def open_desk(path: Path, started: Callable[[], None] | None = None) -> None:
    """Open the desk; without a file at that place the set-up comes first, on a terminal.

    `started` is called when the desk's first frame is painted.
    Raises FileTrouble for a file that cannot be used, Refused for a `desk.toml` with a mistake.
    """
    if not os.path.lexists(path) and sys.stdin.isatty() and sys.stdout.isatty():
        from tzlocal import get_localzone_name

        from filmrack.desk.first_start import FirstStart

        if not FirstStart(path, datetime.now(UTC), get_localzone_name()).run():
            return
    from filmrack.desk.app import Desk
    from filmrack.desk.preferences import preferences_in

    sys.setswitchinterval(_AT_ONCE)
    mine = preferences_in(data_folder() / "desk.toml")
    Desk(path, keys=mine.keys, colours=mine.colours, started=started).run()
