"""What a hand scans in a sweep: codes and clips, with the rod or box that was scanned before."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from filmrack.domain.asking import parse
from filmrack.domain.refusal import Refused
from filmrack.store import rolls, search
from filmrack.store.file import DarkroomFile


class Scan(NamedTuple):
    """One thing scanned: a roll, or a clip that no roll is on; and on which rod or in which box.

    `rod` and `box` are None where no rod's or box's code was scanned before it. `wet` tells that a
    finger found it wet or tacky.
    """

    roll: int | None
    clip: int | None = None
    rod: int | None = None
    box: int | None = None
    wet: bool = False


def read_scans(file: DarkroomFile, lines: Iterable[str]) -> list[Scan]:
    """Return what a scanner wrote, one code a line; a rod's or box's code says where.

    Raises Refused, naming the line, for anything that is not one of our codes or a clip's number.
    """
    scans: list[Scan] = []
    rod = box = None
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        try:
            parts = parse(line)
            kind = parts[0].kind if len(parts) == 1 else "name"
            if kind in ("rod", "box"):
                rod = int(parts[0].value) if kind == "rod" else None
                box = int(parts[0].value) if kind == "box" else None
            else:
                scans.append(scanned(file, line, rod=rod, box=box))
        except Refused as refused:
            raise Refused(f"line {number}: {refused}") from refused
    return scans


def scanned(
    file: DarkroomFile, line: str, *, rod: int | None = None, box: int | None = None
) -> Scan:
    """Return what one code or a clip's number is, found on a rod or in a box.

    Raises Refused for anything else.
    """
    parts = parse(line)
    if not parts:  # only signs that stand for nothing
        raise Refused(f"“{line[:40]}” is no code and no clip: scan it again, or leave it out")
    part = parts[0]
    if part.kind == "clip" or part.may_be_a_clip:
        clip = int(part.value)
        on_clip = rolls.on_clip(file.conn, clip)
        return Scan(on_clip.id if on_clip else None, clip, rod, box)
    return Scan(search.which(file.conn, line).id, None, rod, box)
