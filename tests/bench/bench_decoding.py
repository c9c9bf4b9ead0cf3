"""Measures how labels that have been treated badly are read, beside a plain raster image.

Run: PYTHONPATH=. python tests/bench/bench_decoding.py [labels]

A camera sees every symbol at the same pixels a millimetre, whatever it was printed at. Two
symbols are measured at each dpi: a roll's code (version 1, level H) and a sleeve page's, cut out
of the printed labels. Beside each stands the same symbol as the image that the qrcode library
draws, laid on paper at the same size where it happens to fall, not on a whole dot.
"""

from __future__ import annotations

import io
import math
import sys
import time
from collections.abc import Callable
from typing import NamedTuple

import numpy as np
import pypdfium2
import zxingcpp
from PIL import Image, ImageDraw, ImageFilter
from qrcode import constants, main, util

from filmrack.domain import codes
from filmrack.printing import SleeveLabel, print_labels, stock
from filmrack.printing.symbols import MASK, QUIET, symbol

COUNT = 50
CAMERA_A_MM = 8.0
"""Pixels a millimetre as a camera sees them: about 4 a module of 0.5 mm."""

APART = 3
"""Samples across a pixel: a pixel sees the mean of nine."""
FAR_MM = 120.0
"""From the camera to the middle of the label."""
SHIFT = 0.37
"""Part of a dot by which a plain image misses the printer's dots."""

QR = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
Picture = np.ndarray
Place = Callable[[Picture, Picture], tuple[Picture, Picture]]


class Seen(NamedTuple):
    """A way of looking: where a camera's point lies on the label, and what is wrong with it.

    Specks come with a scratch; `contrast` is a share of full black on white.
    """

    name: str
    place: Place
    wrapped: bool = False
    specks: int = 0
    contrast: float = 1.0
    blur_mm: float = 0.0


def flat(x: Picture, y: Picture) -> tuple[Picture, Picture]:
    return x, y


def tilted(degrees: float) -> Place:
    """Return the label's point (mm) behind a camera's, the label turned about its vertical."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

    def place(x: Picture, y: Picture) -> tuple[Picture, Picture]:
        along = x * FAR_MM / (FAR_MM * cos - x * sin)
        return along, y * (FAR_MM + along * sin) / FAR_MM

    return place


def rolled(diameter: float, behind: Place = flat) -> Place:
    """Return the label's point (mm) on a standing cylinder; outside of it there is none."""

    def place(x: Picture, y: Picture) -> tuple[Picture, Picture]:
        x, y = behind(x, y)
        share = x / (diameter / 2)
        arc = np.arcsin(np.clip(share, -1, 1)) * diameter / 2
        return np.where(np.abs(share) < 1, arc, 1e6), y

    return place


WAYS = (
    Seen("clean", flat),
    Seen("blur 0.20 mm", flat, blur_mm=0.2),
    Seen("blur 0.25 mm", flat, blur_mm=0.25),
    Seen("blur 0.30 mm", flat, blur_mm=0.3),
    Seen("tilt 20°", tilted(20)),
    Seen("tilt 45°", tilted(45)),
    Seen("contrast 15 %", flat, contrast=0.15),
    Seen("cylinder 12 mm", rolled(12)),
    Seen("cylinder 10 mm", rolled(10)),
    Seen("cylinder 12 mm, wrapped", rolled(12), wrapped=True),
    Seen("cylinder 10 mm, wrapped", rolled(10), wrapped=True),
    Seen("8 specks and a scratch", flat, specks=8),
    Seen("25 specks and a scratch", flat, specks=25),
    Seen("all at once, mild", rolled(12, tilted(20)), True, 8, 0.6, 0.08),
    Seen("all at once, hard", rolled(10, tilted(30)), True, 25, 0.3, 0.12),
)


def code_of(number: int, page: bool) -> str:
    return codes.page_code("26F", number, 2) if page else codes.roll_code("26F", number)


def printed(count: int, dpi: int, page: bool, wrapped: bool) -> tuple[list[Picture], int]:
    """Return the symbols with their quiet zones cut out of labels, and the dots of a module."""
    paper = stock("roll-2x1" if dpi == 203 else "letter-30")._replace(wrapped=wrapped)
    numbers = range(1, count + 1)
    labels = [SleeveLabel(code_of(n, page), "135-36", "26F", "1 Oct 2026") for n in numbers]
    out = io.BytesIO()
    dots = print_labels(labels, paper, out, dpi=dpi).dots_per_module
    cut = []
    for sheet in pypdfium2.PdfDocument(out.getvalue()):
        drawn = sheet.render(scale=(dpi - 1e-4) / 72, grayscale=True).to_numpy().copy()
        for code in zxingcpp.read_barcodes(drawn, formats=QR):
            side = symbol(code.text).room * dots
            middle = code.position.top_left.x + code.position.bottom_right.x
            down = code.position.top_left.y + code.position.bottom_right.y
            x, y = (middle - side) // 2, (down - side) // 2
            cut.append(np.where(drawn[y : y + side, x : x + side] < 128, 0, 255).astype(np.uint8))
    return cut, dots


def plain(count: int, dots: int, page: bool) -> list[Picture]:
    """Return the library's own images of the same symbols on paper, in the printer's dots."""
    images = []
    for number in range(1, count + 1):
        ours = symbol(code_of(number, page))
        level = {"H": constants.ERROR_CORRECT_H, "Q": constants.ERROR_CORRECT_Q}[ours.level]
        code = main.QRCode(ours.version, level, box_size=10, border=QUIET, mask_pattern=MASK)
        code.add_data(util.QRData(ours.payload, mode=util.MODE_ALPHA_NUM))
        code.make(fit=False)
        drawn = code.make_image().get_image().convert("L")
        side, step = ours.room * dots, 10 / dots
        onto = (step, 0.0, -SHIFT * step, 0.0, step, -SHIFT * step)
        laid = drawn.transform(
            (side, side), Image.Transform.AFFINE, onto, Image.Resampling.BILINEAR, fillcolor=255
        )
        # A printer has no grey: every dot is ink or paper.
        images.append(np.where(np.asarray(laid) < 128, 0, 255).astype(np.uint8))
    return images


def photograph(dots: Picture, dpi: int, seen: Seen, chance: np.random.Generator) -> Picture:
    """Return what a camera sees of a symbol in a printer's dots."""
    side = len(dots)
    half = side * 25.4 / dpi / 2 + 2
    count = round(2 * half * CAMERA_A_MM) * APART
    line = (np.arange(count) + 0.5) / count * 2 * half - half
    at_x, at_y = seen.place(*np.meshgrid(line, line))
    column, row = (np.floor(at * dpi / 25.4 + side / 2) for at in (at_x, at_y))
    inside = (column >= 0) & (column < side) & (row >= 0) & (row < side)
    ink = soiled(dots, dpi, seen.specks, chance) if seen.specks else dots
    rows, columns = (np.clip(at, 0, side - 1).astype(int) for at in (row, column))
    # Beside a label lies more white; beside a cylinder, the grey of the room.
    around = np.where(np.abs(at_x) > 1e5, 120, 255)
    fine = np.where(inside, ink[rows, columns], around).astype(np.uint8)
    coarse = fine.reshape(count // APART, APART, count // APART, APART).mean(axis=(1, 3))
    image = Image.fromarray(np.round(coarse).astype(np.uint8))
    if seen.blur_mm:
        image = image.filter(ImageFilter.GaussianBlur(seen.blur_mm * CAMERA_A_MM))
    faint = 128 + (np.asarray(image, dtype=float) - 128) * seen.contrast
    return np.clip(faint + chance.normal(0, 4, faint.shape), 0, 255).astype(np.uint8)


def soiled(dots: Picture, dpi: int, specks: int, chance: np.random.Generator) -> Picture:
    """Return a symbol with specks of 0.2 to 0.6 mm and a bare scratch of 0.5 mm across it."""
    image = Image.fromarray(dots)
    pen, mm, side = ImageDraw.Draw(image), dpi / 25.4, len(dots)
    for _ in range(specks):
        x, y = chance.uniform(0, side, 2)
        size = chance.uniform(0.2, 0.6) * mm / 2
        pen.ellipse((x - size, y - size, x + size, y + size), fill=int(chance.choice([0, 255])))
    # Drawn through the middle third, where the data lies: no code outlives a lost corner.
    start, end = chance.uniform(side * 0.3, side * 0.7, 2)
    pen.line((0, start, side, end), fill=255, width=round(0.5 * mm))
    return np.asarray(image)


def share_read(images: list[Picture], wanted: set[str], dpi: int, seen: Seen) -> float:
    chance = np.random.default_rng(7)
    read = 0
    for image in images:
        view = photograph(image, dpi, seen, chance)
        found = zxingcpp.read_barcodes(view, formats=QR)
        read += any(each.text in wanted for each in found)
    return 100 * read / len(images)


def measure() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COUNT
    start = time.perf_counter()
    columns = [(dpi, page) for dpi in (203, 300, 600) for page in (False, True)]
    heads = [f"{dpi} {'page' if page else 'roll'}" for dpi, page in columns]
    print(f"% read of {count}: labels / plain image")
    print(f"{'':26}" + "".join(f"{head:>12}" for head in heads))
    pictures = {
        (dpi, page, wrapped): (of[0], plain(count, of[1], page))
        for dpi, page in columns
        for wrapped in (False, True)
        for of in [printed(count, dpi, page, wrapped)]
    }
    for seen in WAYS:
        cells = []
        for dpi, page in columns:
            wanted = {code_of(n, page) for n in range(1, count + 1)}
            both = pictures[dpi, page, seen.wrapped]
            rates = [share_read(images, wanted, dpi, seen) for images in both]
            cells.append(f"{rates[0]:.0f} / {rates[1]:.0f}")
        print(f"{seen.name:26}" + "".join(f"{cell:>12}" for cell in cells), flush=True)
    print(f"{time.perf_counter() - start:.0f} s")


if __name__ == "__main__":
    measure()
