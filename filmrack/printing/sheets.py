"""Label sheets: any labels on any stock, to one PDF at its exact size."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import BinaryIO

from filmrack.domain.refusal import Refused
from filmrack.printing import faces, lettering
from filmrack.printing.design import Design, design, fill
from filmrack.printing.labels import ClipTag, Label
from filmrack.printing.pen import UNTOUCHED, Calibration, Pen
from filmrack.printing.print_run import Printed, Progress, finish, unless_stopped
from filmrack.printing.stock import Stock
from filmrack.printing.symbols import side_of, symbol


def print_labels(
    labels: Sequence[Label],
    stock: Stock,
    out: BinaryIO | Path,
    *,
    dpi: int = 300,
    start: int = 1,
    calibration: Calibration = UNTOUCHED,
    own: Path | None = None,
    progress: Progress | None = None,
) -> Printed:
    """Print labels in order, the first at label `start` (from 1, in rows) of the first sheet.

    `own` is the user's folder of designs. Nothing is written unless all of it can be: raises
    Refused for an empty order, a start that the sheet does not have, a character without a
    glyph, a symbol that would come out too small, and a file that cannot be written.
    """
    if not labels:
        raise Refused("there is nothing to print because no label was asked for: name at least one")
    if not 1 <= start <= stock.places:
        raise Refused(
            f"{stock.name} has no label {start}: start at one of its {stock.places}, from 1 on"
        )
    words = _words_of_all(labels, own)
    payloads = [each.payload for each in labels]
    face = faces.face(stock, max(map(side_of, payloads)), dpi)
    pen = Pen(stock.sheet_width, stock.sheet_height, dpi, f"{stock.name} labels", calibration)
    drawn = list(zip(payloads, words, strict=True))
    for done, (payload, said) in unless_stopped(drawn, "labels", progress):
        place = (start - 1 + done) % stock.places
        if done == 0 or place == 0:
            pen.start_page()
            if stock.cut_lines:
                _cut_lines(pen, stock)
        faces.draw(pen, face, stock.corner(place), symbol(payload), said)
    finish(pen, out, len(labels), progress)
    return Printed(
        labels=len(labels),
        pages=pen.pages,
        paper_mm=(stock.sheet_width, stock.sheet_height),
        module_mm=face.module.mm,
        dots_per_module=face.module.dots,
        next_start=(start - 1 + len(labels)) % stock.places + 1,
        parted=_parted(labels, stock.places, start),
    )


def _parted(labels: Sequence[Label], places: int, start: int) -> tuple[int, ...]:
    """Return the clips whose pair of tags a new sheet parts; on a roll every label is its own."""
    if places == 1:
        return ()
    firsts = range((1 - start) % places or places, len(labels), places)
    pairs = ((labels[first - 1], labels[first]) for first in firsts)
    return tuple(
        a.number
        for a, b in pairs
        if isinstance(a, ClipTag) and isinstance(b, ClipTag) and a.number == b.number
    )


def _words_of_all(labels: Sequence[Label], own: Path | None) -> list[faces.LabelWords]:
    """Return what stands on each label; refused where the font lacks a character of it."""
    designs = {kind: design(kind, own) for kind in dict.fromkeys(each.kind for each in labels)}
    words = [_words(each, designs[each.kind]) for each in labels]
    lettering.check_glyphs(text for each in words for text in (each.headline, *each.lines))
    return words


def _words(label: Label, design: Design) -> faces.LabelWords:
    fields = label.fields()
    lines = (lettering.clean(fill(line, fields, label.kind)) for line in design.lines)
    headline = lettering.clean(fill(design.headline, fields, label.kind))
    return faces.LabelWords(headline, tuple(line for line in lines if line), design.room_for)


def _cut_lines(pen: Pen, stock: Stock) -> None:
    """Draw the lines to cut along, a little beyond the tags so that a guillotine finds them."""
    right = stock.left + stock.pitch_across * (stock.across - 1) + stock.width
    bottom = stock.top + stock.pitch_down * (stock.down - 1) + stock.height
    tops = [stock.top + row * stock.pitch_down for row in range(stock.down)]
    lefts = [stock.left + column * stock.pitch_across for column in range(stock.across)]
    for y in _edges(tops, stock.height):
        pen.line((stock.left - 3, y), (right + 3, y), width_mm=0.15, grey=0.6)
    for x in _edges(lefts, stock.width):
        pen.line((x, stock.top - 3), (x, bottom + 3), width_mm=0.15, grey=0.6)


def _edges(starts: list[float], size: float) -> list[float]:
    """Return both edges of each label, once where two labels share one."""
    return sorted({round(start + more, 3) for start in starts for more in (0.0, size)})
