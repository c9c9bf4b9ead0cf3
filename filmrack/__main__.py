"""`filmrack` on the command line."""

import gc
import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

_STARTING = 200_000
"""More new objects than a lookup makes, or the desk until its first frame."""

_ASKED_BY_A_SHELL = "_FILMRACK_COMPLETE"
"""Set in the environment where a shell asks for its completion: it names nothing behind it then."""


def main() -> None:
    """Run the command line; the desk alone is asked for by nothing behind `filmrack`."""
    usual = gc.get_threshold()
    # What a start makes is there to stay: looking through it for garbage takes a sixth of a lookup.
    gc.set_threshold(_STARTING)

    def started() -> None:
        gc.freeze()
        gc.set_threshold(*usual)

    def open_desk(path: "Path") -> None:
        from filmrack.desk.opening import open_desk as open_

        open_(path, started)

    if len(sys.argv) > 1 or _ASKED_BY_A_SHELL in os.environ:
        from filmrack.cli.app import run

        code = run(open_desk=open_desk)
    else:
        code = _desk(open_desk)
    gc.freeze()  # neither is it looked through once more at the end
    sys.exit(code)


def _desk(open_desk: "Callable[[Path], None]") -> int:
    """Open the desk on the usual file, without what reads commands; return the exit code."""
    from filmrack.domain.refusal import FileTrouble, Refused
    from filmrack.store.data_folder import usual_file

    try:
        open_desk(usual_file())
    except (FileTrouble, Refused) as error:
        from filmrack.cli.app import complain_of

        return complain_of(error)
    return 0


if __name__ == "__main__":
    main()
