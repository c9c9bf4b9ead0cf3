"""Opening the desk."""

from __future__ import annotations

from filmrack.cli.call import Call


def open_desk(call: Call) -> None:
    """Open the desk on the darkroom file that is meant."""
    raise NotImplementedError
