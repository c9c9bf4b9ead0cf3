"""`filmrack` on the command line."""

import sys


def main() -> None:
    """Run the command line."""
    from filmrack.cli.app import run

    sys.exit(run())


if __name__ == "__main__":
    main()
