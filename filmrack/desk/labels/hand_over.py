"""A print that is done: what is said of it, and how the viewer and the printer get it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from filmrack.acts import labelling
from filmrack.desk.labels.press import Printout
from filmrack.desk.said import Said
from filmrack.domain.counted import counted
from filmrack.domain.refusal import Refused
from filmrack.printing import named_clips, send, stock, view
from filmrack.store.file import DarkroomFile

HandOver = Callable[[Printout], None]
"""Hands a printed file on, to the viewer or to the printer."""


_MOST_ASKED = 30
"""Letters of what was asked for that are told: the numbers of a whole queue are not."""


def to_viewer(printout: Printout) -> None:
    """Open a print in the system's viewer."""
    view(printout.path)


def to_printer(printout: Printout) -> None:
    """Send a print to the system's printer."""
    send(printout.path, printout.printed.paper_mm)


def hand_on(printout: Printout, then: HandOver | None) -> str:
    """Hand a print on; return why that failed, or nothing."""
    if then is None:
        return ""
    try:
        then(printout)
    except Refused as refused:
        return f"it is in {printout.path}; but: {refused}"
    return ""


def what_was_printed(printout: Printout) -> str:
    """Return what was printed, in one line."""
    printed, asked = printout.printed, printout.choice.asked
    if printout.choice.on_labels:
        which = f" of {asked}" if asked and len(asked) <= _MOST_ASKED else ""
        what = f"{counted(printed.labels, 'label')}{which} on {counted(printed.pages, 'sheet')}"
    else:
        what = counted(printed.pages, "page")
    return f"{printout.choice.kind}: {what}"


def what_to_do_with_it(printout: Printout, own: Path | None, then: HandOver | None = None) -> str:
    """Return where it is, what was done with it and what to do with it."""
    view_it, print_it = "“view” to open it", "“print” for the printer, at actual size"
    if then is None:
        words = f"saved as {printout.path}, not on paper yet. Type {view_it}, or {print_it}"
    elif then is to_printer:
        words = f"sent to the printer, and saved as {printout.path}. Type {view_it}"
    else:
        words = f"saved as {printout.path} and opened, not on paper yet. Type {print_it}"
    if printout.printed.parted:
        words += f". The two tags of {named_clips(printout.printed.parted)} are on two sheets"
    name = printout.choice.stock
    if printout.choice.kind == "clips" and name and not stock(name, own).stands_water:
        words += ". Cover the tags with clear tape or laminate them: wet paper peels"
    return words


def tell_measured(file: DarkroomFile, text: str) -> Said:
    """Keep what was measured on a test page. Raises Refused for lengths that are none."""
    found = labelling.tell_measured(file, labelling.four_lengths(text))
    words = (
        f"all is moved {found.right_mm:+.2f} mm to the right and {found.down_mm:+.2f} mm down;"
        " print the test page again to check it"
    )
    return Said("Printer measured", words, done=True)
