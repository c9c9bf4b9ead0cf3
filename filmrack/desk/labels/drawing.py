"""What the Labels screen shows: the kinds, what is chosen, its sheet and its first label."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from pathlib import Path

from rich.text import Text

from filmrack.acts import labelling
from filmrack.acts.labelling import KINDS
from filmrack.acts.wanted_labels import LABEL_KINDS
from filmrack.desk.ink import fit, fitted, ground, style, wrapped
from filmrack.desk.labels.choice import ABOUT, Choice
from filmrack.desk.labels.reading import Reading
from filmrack.desk.labels.sheet import SHAPES, label_rows, sheet_rows
from filmrack.desk.lines import Spot
from filmrack.desk.rows_in_sight import more_below
from filmrack.desk.said import capital
from filmrack.desk.themes import Palette
from filmrack.domain.counted import counted
from filmrack.domain.refusal import Refused
from filmrack.printing import stock

PLACE = 1000
"""Spots from here on are places of the sheet."""

_ABOVE_SHEET = 3
"""Rows of the legend, with an empty one above and below."""

_NAME = 16
_BAR = 30


def kinds_width(width: int) -> int:
    """Return the cells that the list of kinds takes of a screen; words only where they fit."""
    return 46 if width >= 100 else _NAME


def kinds(
    choice: Choice, width: int, height: int, palette: Palette
) -> tuple[list[Text], list[Spot]]:
    """Return all that can be printed: labels, then pages.

    Of a list longer than the screen those rows are shown that the chosen kind is among.
    """
    lines = [Text.assemble((fit("Print", width), style(palette.text, bold=True)))]
    spots, at = [], 0
    for nth, kind in enumerate(KINDS):
        if nth and (kind in LABEL_KINDS) != (KINDS[nth - 1] in LABEL_KINDS):
            lines.append(Text(" " * width))
        chosen = kind == choice.kind
        line = Text.assemble(
            ("▸ " if chosen else "  ", style(palette.text, bold=True)),
            fitted(kind, _NAME - 2, style(palette.text, bold=chosen)),
            fitted(ABOUT[kind], width - _NAME, style(palette.quiet)),
        )
        if chosen:
            line.stylize(ground(palette))
            at = len(lines)
        spots.append(Spot(len(lines), 0, len(lines) + 1, width, nth))
        lines.append(line)
    hidden = max(0, min(at + 2 - height, len(lines) - height))
    shown = [spot._replace(top=spot.top - hidden, bottom=spot.bottom - hidden) for spot in spots]
    rows, below = lines[hidden : hidden + height], len(lines) - hidden - height
    if rows and below > 0:  # its last row says so, and is no row of a kind
        more = sum(spot.top >= height - 1 for spot in shown)
        rows[-1] = more_below(more, width, palette)
        shown = [spot for spot in shown if spot.top < height - 1]
    return rows, [spot for spot in shown if 0 <= spot.top < height]


def facts(
    choice: Choice, reading: Reading, palette: Palette, *, name: str, width: int, own: Path | None
) -> list[Text]:
    """Return in words what is chosen; `name` is the stock or the paper."""
    strong, quiet = style(palette.text, bold=True), style(palette.quiet)
    sheets = reading.sheets
    if sheets is not None:
        first = (
            f"{counted(sheets.labels, 'label')} on {counted(sheets.sheets, 'sheet')}, from label"
            f" {sheets.start} on"
        )
    else:
        first = "Nothing to print yet" if choice.on_labels else "Whole pages"
    lines = [Text.assemble((fit(first, width).rstrip(), strong))]
    if reading.why:
        for row in wrapped(f"{capital(reading.why)}.", width):
            lines.append(Text.assemble((row.plain, style(palette.text))))
    which = f"{choice.kind} {choice.asked}: " if choice.asked else ""
    words = [
        f"{which}{ABOUT[choice.kind]}",
        f"on {name}{_about(choice, name, own)}",
    ]
    if choice.dpi != labelling.USUAL_DPI:
        words.append(f"for a printer of {choice.dpi} dpi")
    for said in words:
        lines += [Text.assemble((row.plain, quiet)) for row in wrapped(said, width)]
    # Enter asks for the clips that are missing, and prints then.
    if not reading.why or choice.asks_which:
        for row in wrapped(f"to {reading.path}", width):
            lines.append(Text.assemble((row.plain, style(palette.text))))
    return lines


def saved(summary: str, path: Path, why: str, width: int, palette: Palette) -> list[Text]:
    """Return what was just saved, in place of what is still to come; `why` nothing else waits."""
    told = (
        (f"Saved {summary}", style(palette.text, bold=True)),
        (f"as {path}", style(palette.text)),
        (f"{capital(why)}." if why else "Nothing of it is still to come.", style(palette.quiet)),
        ("“again” saves the same once more", style(palette.quiet)),
    )
    return [Text(row.plain, style=how) for said, how in told for row in wrapped(said, width)]


def _about(choice: Choice, name: str, own: Path | None) -> str:
    if not choice.on_labels:
        return " paper"
    try:
        return f": {stock(name, own).about}"
    except Refused as refused:
        return f": {refused}"


def sheet_and_label(
    reading: Reading, at: Spot, palette: Palette, own: Path | None
) -> tuple[list[Text], list[Spot]]:
    """Return the sheet with the first label beside it, to be shown at a part of the screen.

    Neither is drawn where there is no room for three rows of them.
    """
    room = at.bottom - at.top - _ABOVE_SHEET
    if reading.sheets is None or reading.order is None or room < 3:
        return [], []
    quiet = style(palette.quiet)
    legend = Text.assemble(
        (f"{SHAPES['used'] * 2} used   ", quiet),
        (SHAPES["now"] * 2, style(palette.wet)),
        (f" these   {SHAPES['free'] * 2} free", quiet),
    )
    drawn, wide, first = sheet_rows(reading.sheets, palette, room)
    down = reading.sheets.down
    if len(drawn) < down:
        legend.append(f"   rows {first + 1} to {first + len(drawn)} of {down}", quiet)
    lines, top = [Text(""), legend, Text("")], at.top + _ABOVE_SHEET
    spots = []
    for row in range(len(drawn)):
        for column in range(reading.sheets.across):
            place = (first + row) * reading.sheets.across + column + 1
            left = at.left + column * (wide + 1)
            spots.append(Spot(top + row, left, top + row + 1, left + wide, PLACE + place))
    across = drawn[0].cell_len + 2
    frame = min(58, at.right - at.left - across)
    label = []
    if frame >= 20:
        label = label_rows(reading.order.wanted.labels[0], palette, frame, room, own)
    for nth in range(max(len(drawn), len(label))):
        line = drawn[nth] if nth < len(drawn) else Text()
        line.append(" " * (across - line.cell_len))
        lines.append(Text.assemble(line, label[nth]) if nth < len(label) else line)
    return lines, spots


def progress(done: int, total: int, width: int, palette: Palette) -> Text:
    """Return how far a print is."""
    cells = max(1, min(_BAR, width - 16))
    full = cells * done // total if total else 0
    words = f" {done} of {total}" if total else " beginning"
    return Text.assemble(
        ("━" * full, style(palette.text)),
        ("╌" * (cells - full), style(palette.quiet)),
        (words, style(palette.text)),
    )


def side_by_side(left: Sequence[Text], width: int, right: Sequence[Text]) -> list[Text]:
    """Return rows of which the left part is `width` cells wide."""
    rows = zip_longest(left, right, fillvalue=Text())
    return [Text.assemble(one, " " * (width - one.cell_len), "  ", other) for one, other in rows]
