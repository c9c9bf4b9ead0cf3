"""A sample of printed labels read by OpenCV, whose decoder shares no code with zxing-cpp.

Each label is cut out of the raster by its stock's numbers, for OpenCV reads one symbol at a time,
and gets a little white paper around it: of a hundred such labels read without, it missed one.
"""

from __future__ import annotations

import cv2
import numpy as np
import pypdfium2
import pytest

from filmrack.printing import stock
from tests.outside.paper import EACH_KIND, SHEETS, Window, printed, raster

PAPER_AROUND = 20
SAMPLE = ("letter-30", "letter-80", "a4-21", "roll-2x1", "tags-letter")
LARGE = ("a4-21", "tags-letter")
"""Left out at 1200 dpi, where OpenCV takes seconds for labels of this size."""
DECLARED = [
    (name, dpi) for name in SAMPLE for dpi in stock(name).dpi if dpi < 1200 or name not in LARGE
]


@pytest.mark.parametrize(("name", "dpi"), DECLARED)
def test_a_second_reader_reads_a_label_of_every_kind(name: str, dpi: int) -> None:
    reader = cv2.QRCodeDetector()
    sheet = SHEETS[name]
    pdf = pypdfium2.PdfDocument(printed(EACH_KIND, name, dpi))
    said = []
    for index in range(len(EACH_KIND)):
        page, place = divmod(index, sheet.places)
        label = Window(*sheet.corner(place), sheet.width, sheet.height)
        image = np.pad(raster(pdf, dpi, page, label), PAPER_AROUND, constant_values=255)
        said.append(reader.detectAndDecode(image)[0])
    assert said == [label.payload for label in EACH_KIND]
