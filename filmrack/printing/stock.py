"""Label stock: what a sheet or a roll of labels measures, and what it is good for."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from filmrack.domain.refusal import Refused
from filmrack.printing import written

TOLERANCE_MM = 0.1
DPI_RANGE = (150, 2400)


class Stock(NamedTuple):
    """One kind of label sheet, in millimetres from the upper left corner of the sheet.

    `dpi` are the printers it serves. A `wrapped` label goes around something of 12 mm or less.
    `cut_lines` and `punch` (the hole's diameter, 0 for none) belong to plain paper.
    """

    name: str
    about: str
    sheet_width: float
    sheet_height: float
    width: float
    height: float
    across: int
    down: int
    left: float
    top: float
    pitch_across: float
    pitch_down: float
    dpi: tuple[int, ...]
    stands_water: bool
    wrapped: bool = False
    cut_lines: bool = False
    punch: float = 0.0

    @property
    def places(self) -> int:
        """How many labels a sheet holds."""
        return self.across * self.down

    def corner(self, place: int) -> tuple[float, float]:
        """Return the upper left corner (x, y) in mm of a label, counted from 0 in rows."""
        row, column = divmod(place, self.across)
        return self.left + column * self.pitch_across, self.top + row * self.pitch_down


def stock(name: str, own: Path | None = None) -> Stock:
    """Return the stock of a name; a file in the `stock` folder of `own` wins over a shipped one.

    Raises Refused for an unknown name and for a file that is wrong.
    """
    return read_stock(written.find("stock", name, own))


def stock_names(own: Path | None = None) -> tuple[str, ...]:
    """Return the names of all stock, shipped and the user's own."""
    return written.names("stock", own)


def read_stock(path: Path) -> Stock:
    """Return the stock that a TOML file describes; its name is the file's.

    Raises Refused for unknown or missing keys, for lengths without a unit, and when margins,
    pitches and labels do not add up to the sheet within 0.1 mm.
    """
    name = path.stem
    root = written.table(
        written.read_toml(path), name, {"about", "sheet", "label", "grid", "use"}, set()
    )
    sheet = written.table(root["sheet"], f"{name} sheet", {"width", "height"}, set())
    label = written.table(root["label"], f"{name} label", {"width", "height"}, set())
    grid_keys = {"across", "down", "left", "top", "pitch_across", "pitch_down"}
    grid = written.table(root["grid"], f"{name} grid", grid_keys, set())
    use = written.table(
        root["use"], f"{name} use", {"dpi", "stands_water"}, {"wrapped", "cut_lines", "punch"}
    )

    def length(part: str, of: object, key: str) -> float:
        return written.millimetres(of, f"{name} {part} {key}")

    found = Stock(
        name=name,
        about=written.words(root["about"], f"{name} about"),
        sheet_width=length("sheet", sheet["width"], "width"),
        sheet_height=length("sheet", sheet["height"], "height"),
        width=length("label", label["width"], "width"),
        height=length("label", label["height"], "height"),
        across=written.whole(grid["across"], f"{name} grid across"),
        down=written.whole(grid["down"], f"{name} grid down"),
        left=length("grid", grid["left"], "left"),
        top=length("grid", grid["top"], "top"),
        pitch_across=length("grid", grid["pitch_across"], "pitch_across"),
        pitch_down=length("grid", grid["pitch_down"], "pitch_down"),
        dpi=written.several(use["dpi"], f"{name} use dpi", written.whole),
        stands_water=written.yes_or_no(use["stands_water"], f"{name} use stands_water"),
        wrapped=written.yes_or_no(use.get("wrapped", False), f"{name} use wrapped"),
        cut_lines=written.yes_or_no(use.get("cut_lines", False), f"{name} use cut_lines"),
        punch=length("use", use["punch"], "punch") if "punch" in use else 0.0,
    )
    _check_sums(found)
    return found


def _check_sums(stock: Stock) -> None:
    """Refuse stock whose margins, pitches and labels do not add up to its sheet.

    margin + pitch × (n − 1) + label + margin = sheet, the same margin on both sides, within
    0.1 mm once rounded to 0.01 mm. Labels that overlap and dpi that no printer has are refused
    as well.
    """
    for way, margin, pitch, count, size, sheet in (
        ("across", stock.left, stock.pitch_across, stock.across, stock.width, stock.sheet_width),
        ("down", stock.top, stock.pitch_down, stock.down, stock.height, stock.sheet_height),
    ):
        total = margin + pitch * (count - 1) + size + margin
        if round(abs(total - sheet), 2) > TOLERANCE_MM:
            raise Refused(
                f"{stock.name} does not add up {way}: {margin:.2f} + {pitch:.2f} × {count - 1} + "
                f"{size:.2f} + {margin:.2f} = {total:.2f} mm, but the sheet is {sheet:.2f} mm: "
                f"measure the sheet again and correct its file"
            )
        if count > 1 and round(size - pitch, 2) > 0:
            raise Refused(
                f"{stock.name} has labels of {size:.2f} mm at a pitch of {pitch:.2f} mm {way}, "
                f"so they overlap: measure from one label's edge to the same edge of the next"
            )
    least, most = DPI_RANGE
    if odd := [dpi for dpi in stock.dpi if not least <= dpi <= most]:
        raise Refused(
            f"{stock.name} names a printer of {odd[0]} dpi: write values from {least} to {most}"
        )
