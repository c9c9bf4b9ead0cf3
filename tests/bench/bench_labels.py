"""Measures the printing of labels beside a bare reportlab loop that does the same in one run.

Run: PYTHONPATH=. python tests/bench/bench_labels.py [labels]
"""

from __future__ import annotations

import io
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pypdfium2
import zxingcpp
from scipy import ndimage

from filmrack.domain import codes
from filmrack.printing import SleeveLabel, print_labels, stock
from tests.bench.pairs import by_turns

COUNT = 3000
QR = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)

ALONE = """
import io, sys
from pathlib import Path
from filmrack.domain import codes
from filmrack.printing import SleeveLabel, print_labels, stock
labels = [SleeveLabel(codes.roll_code("26F", n), "135-36", "26F", "1 Oct 2026")
          for n in range(1, int(sys.argv[1]) + 1)]
print_labels(labels, stock("letter-30"), io.BytesIO())
status = Path("/proc/self/status").read_text()
print(int(status.partition("VmHWM:")[2].split()[0]) / 1024)
"""


def labels(count: int) -> list[SleeveLabel]:
    return [
        SleeveLabel(codes.roll_code("26F", n), "135-36", "26F", f"{n % 28 + 1} Oct 2026")
        for n in range(1, count + 1)
    ]


def ours(count: int, dpi: int = 300) -> bytes:
    out = io.BytesIO()
    print_labels(labels(count), stock("letter-30"), out, dpi=dpi)
    return out.getvalue()


def bare(count: int) -> bytes:
    """The same content without any layout: sizes fixed, nothing checked, nothing measured."""
    from qrcode import constants, main, util
    from reportlab.pdfgen.canvas import Canvas

    from filmrack.printing import lettering

    out = io.BytesIO()
    canvas = Canvas(out, pagesize=(612, 792), invariant=1, pageCompression=1)
    module = 6 * 72 / 300
    for place, label in enumerate(labels(count)):
        row, column = divmod(place % 30, 3)
        if place and place % 30 == 0:
            canvas.showPage()
        x, y = 13.5 + column * 198, 756 - row * 72
        code = main.QRCode(1, constants.ERROR_CORRECT_H, border=0, mask_pattern=6)
        code.add_data(util.QRData(label.code, mode=util.MODE_ALPHA_NUM))
        code.make(fit=False)
        canvas.saveState()
        canvas.translate(x + 12, y - 20)
        canvas.scale(module, -module)
        path = canvas.beginPath()
        for down, modules in enumerate(code.modules):
            start = None
            for across, dark in enumerate([*modules, False]):
                if dark and start is None:
                    start = across
                elif not dark and start is not None:
                    path.rect(start, down, across - start, 1)
                    start = None
        canvas.drawPath(path, stroke=0, fill=1)
        canvas.restoreState()
        canvas.setFont(lettering.face(True), 20)
        canvas.drawString(x + 50, y - 30, label.code)
        canvas.setFont(lettering.face(False), 9)
        canvas.drawString(x + 50, y - 45, label.film)
        canvas.drawString(x + 50, y - 57, f"{label.term} · {label.date}")
    canvas.save()
    return out.getvalue()


def memory(count: int) -> float:
    """Return the largest resident size in MiB of a process that only prints labels (Linux)."""
    done = subprocess.run(
        [sys.executable, "-c", ALONE, str(count)],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )
    return float(done.stdout)


def decoded(pdf: bytes, dpi: int, worse: Callable[[np.ndarray, int], np.ndarray]) -> int:
    found = 0
    for page in pypdfium2.PdfDocument(pdf):
        image = page.render(scale=(dpi - 1e-4) / 72, grayscale=True).to_numpy().copy()
        found += len(zxingcpp.read_barcodes(worse(image, dpi), formats=QR))
    return found


def clean(image: np.ndarray, dpi: int) -> np.ndarray:
    return image


def blurred(image: np.ndarray, dpi: int) -> np.ndarray:
    soft: np.ndarray = ndimage.gaussian_filter(image, 0.15 * dpi / 25.4)
    return soft


def noisy(image: np.ndarray, dpi: int) -> np.ndarray:
    grain = np.random.default_rng(7).normal(0, 10, image.shape)
    faint = 60 + blurred(image, dpi) * 0.6
    return np.clip(faint + grain, 0, 255).astype(np.uint8)


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COUNT
    mine, ratio = by_turns(lambda: ours(count), lambda: bare(count), 5)
    print(f"{count} labels: {mine / 1000:.2f} s, {ratio:.2f} times the bare loop")
    print(f"size: {len(ours(count)) / 1e6:.2f} MB, bare loop {len(bare(count)) / 1e6:.2f} MB")
    print(f"memory: {memory(count):.0f} MiB at most, {memory(1):.0f} for one label")
    for dpi in (203, 300, 600):
        pdf = ours(300, dpi)
        counts = [f"{way.__name__} {decoded(pdf, dpi, way)}" for way in (clean, blurred, noisy)]
        print(f"decoded of 300 at {dpi} dpi: {', '.join(counts)}")


if __name__ == "__main__":
    main()
