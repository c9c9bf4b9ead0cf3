"""Printing labels and pages."""

from __future__ import annotations

from pathlib import Path

import click

from filmrack.acts import labelling
from filmrack.acts.new_files import free_name
from filmrack.cli.call import Call, json_option
from filmrack.cli.output import print_json, say
from filmrack.domain.counted import counted
from filmrack.printing import Calibration, Printed, named_clips, send, stock
from filmrack.store.data_folder import data_folder


@click.command()
@click.argument("kind", type=click.Choice(labelling.KINDS), metavar="KIND")
@click.argument("which", nargs=-1, metavar="[RANGE|CODE]…")
@click.option(
    "--stock", "stock_name", metavar="S", help="The labels, such as letter-30; for pages the paper."
)
@click.option(
    "--dpi",
    type=int,
    default=labelling.USUAL_DPI,
    show_default=True,
    metavar="N",
    help="The printer's resolution, in dots an inch.",
)
@click.option("--start", type=int, metavar="N", help="Label to begin at; else goes on.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FILE.pdf",
    help="The PDF; else one named after KIND, here.",
)
@click.option("--print", "to_printer", is_flag=True, help="Print it with lp too.")
@click.option("--printer", default="", metavar="NAME", help="Which printer, where there are more.")
@click.option(
    "--measured",
    metavar="L,T,A,D",
    help="With test: the four lengths of the printed test page, in mm.",
)
@json_option
@click.pass_obj
def labels(
    call: Call,
    *,
    kind: str,
    which: tuple[str, ...],
    stock_name: str | None,
    dpi: int,
    start: int | None,
    out: Path | None,
    to_printer: bool,
    printer: str,
    measured: str | None,
    as_json: bool,
) -> None:
    """Print labels or pages to a PDF.

    Nothing is ever printed over an existing file.

    KIND is clips, sleeves, rods, boxes, binders (labels); people, bench, hangsheet, substitute,
    sweepslip, index, hand-back, contactlog, guide-student, guide-cabinet, guide-binders, test
    (pages). Clips take a range such as 1-60, sleeves and contactlog rolls, people and hangsheet
    periods, hand-back a term; without them all are printed, or the sleeves that wait for a label.
    """
    with call.writing() as file:
        if measured is not None:
            if kind != "test":
                raise click.UsageError("--measured goes with test alone")
            found = labelling.tell_measured(file, labelling.four_lengths(measured), printer)
            _tell_measured(found, printer, as_json=as_json)
            return
        moment = call.moment(file)
        asked = [printer] if kind == "test" and not which else which
        ordered = labelling.order(file, kind, asked, moment)
        path = out or free_name(Path(), kind)
        name = stock_name or labelling.usual_stock(file.room(), kind)
        setup = labelling.PrintSetup(name, dpi, start, printer, data_folder())
        printed = labelling.print_order(file, ordered, path, setup)
    _tell(ordered, printed, path, name, as_json=as_json)
    if to_printer:
        send(path, printed.paper_mm, printer or None)


def _tell(
    ordered: labelling.PrintOrder, printed: Printed, path: Path, name: str, *, as_json: bool
) -> None:
    if as_json:
        print_json(
            {
                "file": str(path),
                "labels": printed.labels,
                "pages": printed.pages,
                "module_mm": round(printed.module_mm, 4),
                "dots_per_module": printed.dots_per_module,
                "stock": name,
                "parted_clips": list(printed.parted),
                "next_label": printed.next_start if ordered.on_labels else None,
            }
        )
        return
    pages = counted(printed.pages, "page")
    if not ordered.on_labels:
        say(f"{path}: {pages} on {name}; print at actual size")
        return
    count = counted(printed.labels, "label")
    say(f"{path}: {count} on {pages} of {name}; print at actual size, not fitted to the page")
    if printed.parted:
        say(f"the two tags of {named_clips(printed.parted)} are on two sheets: keep them together")
    if printed.next_start > 1:
        say(f"the next ones begin at label {printed.next_start} of the last sheet")
    if ordered.kind == "clips" and not stock(name, data_folder()).stands_water:
        say("cover them with clear tape or laminate them before they get wet: paper peels")


def _tell_measured(found: Calibration, printer: str, *, as_json: bool) -> None:
    if as_json:
        print_json(
            {
                "printer": printer,
                "right_mm": round(found.right_mm, 3),
                "down_mm": round(found.down_mm, 3),
                "stretch_x": round(found.stretch_x, 5),
                "stretch_y": round(found.stretch_y, 5),
            }
        )
        return
    say(
        f"kept: all is moved {found.right_mm:+.2f} mm to the right and {found.down_mm:+.2f} mm"
        f" down, and stretched {found.stretch_x:.4f} across and {found.stretch_y:.4f} down; print"
        " the test page again to check it"
    )
