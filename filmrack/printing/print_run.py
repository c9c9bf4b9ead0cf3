"""One print from its first label or page to the finished file: how far it is, and its stop."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import BinaryIO, NamedTuple, TypeVar

from filmrack.domain.refusal import Refused
from filmrack.printing.pen import Pen

_T = TypeVar("_T")

Progress = Callable[[int, int], bool | None]
"""Called with how many labels or pages are done and how many there are; stops the print by
returning False.
"""


class Printed(NamedTuple):
    """What was printed: `next_start` is the first free label of the last sheet, from 1.

    `paper_mm` is the width and height of its pages. `module_mm` and `dots_per_module` are 0 on
    pages without a symbol. `parted` are the clips whose two tags came on two sheets.
    """

    labels: int
    pages: int
    paper_mm: tuple[float, float]
    module_mm: float
    dots_per_module: int
    next_start: int
    parted: tuple[int, ...] = ()


def unless_stopped(
    things: Sequence[_T], what: str, progress: Progress | None
) -> Iterator[tuple[int, _T]]:
    """Yield what is to be drawn, each with how many were before it; `what` they are in words.

    Raises Refused where `progress` stops the print.
    """
    for done, thing in enumerate(things):
        if progress is not None and progress(done, len(things)) is False:
            raise Refused(
                f"printing was stopped after {done} of {len(things)} {what}, so nothing was "
                f"written: start it again when it suits"
            )
        yield done, thing


def finish(pen: Pen, out: BinaryIO | Path, many: int, progress: Progress | None) -> None:
    """Write what was drawn, and say that all of so many labels or pages are done.

    Raises Refused where the file system does not let us.
    """
    _write(pen.finish(), out)
    if progress is not None:
        progress(many, many)


def _write(document: bytes, out: BinaryIO | Path) -> None:
    if not isinstance(out, Path):
        out.write(document)
        return
    try:
        out.write_bytes(document)
    except OSError as trouble:
        raise Refused(
            f"{out} could not be written ({trouble.strerror}): name another file"
        ) from trouble
