"""`filmrack` on the command line."""

import sys
from pathlib import Path

from filmrack.cli.app import run


def main() -> None:
    """Run the command line."""
    sys.exit(run(open_desk=open_desk))


def open_desk(path: Path) -> None:
    """Open the desk on a darkroom file, or make the file first."""
    from filmrack.desk.opening import open_desk as open_

    open_(path)


if __name__ == "__main__":
    main()
