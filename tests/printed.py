"""What a scanner reads of a printed page: rasterised by pypdfium2, read by zxing-cpp."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pypdfium2
import zxingcpp


def symbols(pdf: Path) -> list[str]:
    """Return what the symbols on all pages say, at 300 dpi."""
    pages = pypdfium2.PdfDocument(pdf)
    images = (page.render(scale=300 / 72, grayscale=True).to_numpy() for page in pages)
    return [text for image in images for text in symbols_on(image)]


def symbols_on(image: Any) -> list[str]:
    """Return what the symbols on one raster say, an array of rows of grey."""
    found = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
    return [code.text for code in found]
