"""`filmrack` on the command line."""

import gc
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

_STARTING = 100_000
"""More new objects than a lookup makes from its start to its end."""


def main() -> None:
    """Run the command line."""
    usual = gc.get_threshold()
    # What a start makes is there to stay: looking through it for garbage takes a sixth of a lookup.
    gc.set_threshold(_STARTING)
    from filmrack.cli.app import run

    def open_desk(path: "Path") -> None:
        from filmrack.desk.opening import open_desk as open_

        gc.set_threshold(*usual)
        open_(path)

    code = run(open_desk=open_desk)
    gc.freeze()  # neither is it looked through once more at the end
    sys.exit(code)


if __name__ == "__main__":
    main()
