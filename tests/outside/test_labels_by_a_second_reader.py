"""A sample of printed labels read by OpenCV, whose decoder shares no code with zxing-cpp.

Each label is cut out of the raster by its stock's numbers, for OpenCV reads one symbol at a time,
and gets a little white paper around it: of a hundred such labels read without, it missed one.
"""

from __future__ import annotations

import io

import cv2
import numpy as np
import pypdfium2
import pytest

from filmrack.domain import codes
from filmrack.printing import (
    BinderLabel,
    BoxLabel,
    ClipTag,
    Label,
    RodLabel,
    SleeveLabel,
    Stock,
    print_labels,
    stock,
)

EACH_KIND: list[Label] = [
    ClipTag(17, "A"),
    SleeveLabel(codes.roll_code("26F", 142), "135-36", "26F", "14 Oct 2026"),
    SleeveLabel(codes.page_code("26F", 142, 2), "120 6×6", "26F", "14 Oct 2026", "page 2 of 2"),
    RodLabel(3, "Period 3"),
    BoxLabel(3, "Period 3"),
    BinderLabel("26F", 1, "Photography 1"),
]
PAPER_AROUND = 20
DECLARED = [(name, dpi) for name in ("letter-30", "a4-21", "roll-2x1") for dpi in stock(name).dpi]


def labels_on_paper(labels: list[Label], on: Stock, dpi: int) -> list[np.ndarray]:
    out = io.BytesIO()
    print_labels(labels, on, out, dpi=dpi)
    dots = dpi / 25.4
    cut = []
    pages = [
        page.render(scale=(dpi - 1e-4) / 72, grayscale=True).to_numpy().copy()
        for page in pypdfium2.PdfDocument(out.getvalue())
    ]
    for index in range(len(labels)):
        page, place = divmod(index, on.places)
        x, y = (round(mm * dots) for mm in on.corner(place))
        label = pages[page][y : y + round(on.height * dots), x : x + round(on.width * dots)]
        cut.append(np.pad(label, PAPER_AROUND, constant_values=255))
    return cut


@pytest.mark.parametrize(("name", "dpi"), DECLARED)
def test_a_second_reader_reads_a_label_of_every_kind(name: str, dpi: int) -> None:
    reader = cv2.QRCodeDetector()
    images = labels_on_paper(EACH_KIND, stock(name), dpi)
    read = [reader.detectAndDecode(image)[0] for image in images]
    assert read == [label.payload for label in EACH_KIND]
