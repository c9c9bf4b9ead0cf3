"""Symbols: QR codes as rows of modules, and as the few rectangles that draw them.

Payloads are the capitals and digits of our own codes, so the alphanumeric mode always holds.
"""

from __future__ import annotations

from typing import NamedTuple

from filmrack.domain.refusal import Refused

QUIET = 4
"""Modules of white on each side (ISO/IEC 18004)."""

MASK = 6
"""The one mask used. A decoder reads any of the eight equally well; choosing the best for each
symbol costs ten times the encoding. Of the eight, this one has the lowest mean penalty over our
own codes."""

_CAPACITY = {1: {"H": 10, "Q": 16}, 2: {"H": 20, "Q": 29}, 3: {"H": 35, "Q": 47}}
"""Alphanumeric characters by version and level (ISO/IEC 18004)."""


class Symbol(NamedTuple):
    """A QR symbol: `rows[y][x]` is True where a module is dark; the quiet zone is not in it."""

    payload: str
    version: int
    level: str
    rows: tuple[tuple[bool, ...], ...]

    @property
    def side(self) -> int:
        """Modules a side without the quiet zone: 17 + 4 × version."""
        return len(self.rows)

    @property
    def room(self) -> int:
        """Modules a side with the quiet zone."""
        return self.side + 2 * QUIET


def _version_and_level(payload: str) -> tuple[int, str]:
    """Return the smallest version that holds a payload at level Q, and H where that holds it too.

    Raises Refused when the payload is too long for version 3.
    """
    for version, capacity in _CAPACITY.items():
        for level in ("H", "Q"):
            if len(payload) <= capacity[level]:
                return version, level
    raise Refused(
        f"{payload} is too long for a label's symbol: print a code of at most 47 characters"
    )


def side_of(payload: str) -> int:
    """Return the modules a side that a payload's symbol has; raises Refused as its version does."""
    return 17 + 4 * _version_and_level(payload)[0]


def symbol(payload: str) -> Symbol:
    """Return the symbol of a code's payload.

    Raises Refused for a payload that is too long, or that has other characters than the
    alphanumeric mode.
    """
    from qrcode import constants, exceptions, main, util

    version, level = _version_and_level(payload)
    drawn = main.QRCode(
        version=version,
        error_correction={"H": constants.ERROR_CORRECT_H, "Q": constants.ERROR_CORRECT_Q}[level],
        border=0,
        mask_pattern=MASK,
    )
    try:
        drawn.add_data(util.QRData(payload, mode=util.MODE_ALPHA_NUM))
        drawn.make(fit=False)
    except (ValueError, exceptions.DataOverflowError) as trouble:
        raise Refused(
            f"“{payload}” cannot be printed as a symbol: use capitals and digits only"
        ) from trouble
    return Symbol(payload, version, level, tuple(tuple(map(bool, row)) for row in drawn.modules))


def rectangles(symbol: Symbol) -> list[tuple[int, int, int, int]]:
    """Return the dark modules as (x, y, width, height) that do not overlap.

    Neighbours in a row are one run; equal runs below each other are one rectangle.
    """
    done: list[tuple[int, int, int, int]] = []
    growing: dict[tuple[int, int], int] = {}
    for y, row in enumerate((*symbol.rows, ())):
        runs = set(_runs(row))
        for run in sorted(growing.keys() - runs):
            top = growing.pop(run)
            done.append((run[0], top, run[1], y - top))
        for run in runs - growing.keys():
            growing[run] = y
    return done


def _runs(row: tuple[bool, ...]) -> list[tuple[int, int]]:
    runs = []
    start = None
    for x, dark in enumerate((*row, False)):
        if dark and start is None:
            start = x
        elif not dark and start is not None:
            runs.append((start, x - start))
            start = None
    return runs
