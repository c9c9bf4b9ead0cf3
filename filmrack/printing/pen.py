"""The pen: draws on PDF pages in millimetres from the upper left corner.

Same strokes, same bytes: the document carries no date and no random name.
"""

from __future__ import annotations

from io import BytesIO
from typing import Literal, NamedTuple

from filmrack.domain.refusal import Refused
from filmrack.printing import lettering
from filmrack.printing.symbols import Symbol, rectangles

Alignment = Literal["left", "centre", "right"]
Point = tuple[float, float]
"""x and y in mm from the upper left corner of the page, or a width and a height."""

_PT = lettering.POINTS_A_MM


class Calibration(NamedTuple):
    """What one printer does to a page, and so what is done against it.

    The page is stretched by `stretch_x` and `stretch_y` from its upper left corner, then moved
    right by `right_mm` and down by `down_mm`.
    """

    right_mm: float = 0.0
    down_mm: float = 0.0
    stretch_x: float = 1.0
    stretch_y: float = 1.0

    def check(self) -> None:
        """Refuse a shift of more than 15 mm or a stretch of more than 3 %."""
        if max(abs(self.right_mm), abs(self.down_mm)) > 15:
            raise Refused(
                "the printer's shift is more than 15 mm, which no printer needs: "
                "print the test page again and measure from the paper's edge to the cross"
            )
        if max(abs(self.stretch_x - 1), abs(self.stretch_y - 1)) > 0.03:
            raise Refused(
                "the printer's stretch is more than 3 %, which is a print dialog that fits to the "
                "page: choose “actual size” there and print the test page again"
            )


UNTOUCHED = Calibration()


class Pen:
    """A PDF document that is being drawn; sizes in mm, y grows downwards."""

    def __init__(
        self,
        width_mm: float,
        height_mm: float,
        dpi: int,
        title: str,
        calibration: Calibration = UNTOUCHED,
    ) -> None:
        from reportlab.pdfgen.canvas import Canvas

        calibration.check()
        self.width = width_mm
        self.height = height_mm
        self.dpi = dpi
        self.pages = 0
        self._calibration = calibration
        self._file = BytesIO()
        self._canvas = Canvas(
            self._file,
            pagesize=(width_mm * _PT, height_mm * _PT),
            invariant=1,
            pageCompression=1,
        )
        self._canvas.setTitle(title)
        self._canvas.setProducer("Filmrack")
        self._canvas.setCreator("Filmrack")
        # Without this a print dialog offers to fit the page, and a module is no whole dot.
        self._canvas.setViewerPreference("PrintScaling", "None")

    def start_page(self) -> None:
        """Begin the next page."""
        if self.pages:
            self._canvas.showPage()
        self.pages += 1
        move = self._calibration
        if move != UNTOUCHED:
            # The upper left corner stays where it is while the page is stretched.
            fall = self.height * (1 - move.stretch_y) - self.snap(move.down_mm)
            self._canvas.translate(self.snap(move.right_mm) * _PT, fall * _PT)
            self._canvas.scale(move.stretch_x, move.stretch_y)

    def finish(self) -> bytes:
        """Return the whole document."""
        self._canvas.save()
        return self._file.getvalue()

    def snap(self, mm: float) -> float:
        """Return the nearest whole dot of the printer, in mm."""
        return round(mm * self.dpi / 25.4) * 25.4 / self.dpi

    def text(
        self, at: Point, text: str, points: float, *, bold: bool = False, align: Alignment = "left"
    ) -> None:
        """Write one line that starts at, is centred on or ends at a point of its baseline."""
        x, baseline = at
        if align != "left":
            width = lettering.width_mm(text, points, bold)
            x -= width if align == "right" else width / 2
        self._canvas.setFont(lettering.face(bold), points)
        self._canvas.drawString(x * _PT, (self.height - baseline) * _PT, text)

    def symbol(self, at: Point, module_mm: float, symbol: Symbol) -> None:
        """Draw a symbol; its first module begins at the printer's dot nearest to a point.

        One filled path, one unit a module.
        """
        canvas = self._canvas
        canvas.saveState()
        canvas.translate(self.snap(at[0]) * _PT, (self.height - self.snap(at[1])) * _PT)
        canvas.scale(module_mm * _PT, -module_mm * _PT)
        path = canvas.beginPath()
        for rectangle in rectangles(symbol):
            path.rect(*rectangle)
        canvas.drawPath(path, stroke=0, fill=1)
        canvas.restoreState()

    def line(self, start: Point, end: Point, *, width_mm: float = 0.2, grey: float = 0.0) -> None:
        """Draw a straight line."""
        self._canvas.setLineWidth(width_mm * _PT)
        self._canvas.setStrokeGray(grey)
        (x, y), (to_x, to_y) = start, end
        self._canvas.line(x * _PT, (self.height - y) * _PT, to_x * _PT, (self.height - to_y) * _PT)

    def box(self, at: Point, size: Point, *, line_mm: float = 0.2, fill: float = 1.0) -> None:
        """Draw a rectangle filled with a grey (1 is white); a line of 0 mm draws no edge."""
        canvas = self._canvas
        canvas.setFillGray(fill)
        canvas.setStrokeGray(0)
        canvas.setLineWidth(line_mm * _PT)
        x, y = at[0] * _PT, (self.height - at[1] - size[1]) * _PT
        canvas.rect(x, y, size[0] * _PT, size[1] * _PT, stroke=int(line_mm > 0), fill=1)
        canvas.setFillGray(0)

    def ring(self, at: Point, diameter: float) -> None:
        """Draw a grey circle around a point with a small cross in it: where to punch."""
        x, y = at
        self._canvas.setLineWidth(0.2 * _PT)
        self._canvas.setStrokeGray(0.5)
        self._canvas.circle(x * _PT, (self.height - y) * _PT, diameter / 2 * _PT)
        self.line((x - 0.8, y), (x + 0.8, y), width_mm=0.15, grey=0.5)
        self.line((x, y - 0.8), (x, y + 0.8), width_mm=0.15, grey=0.5)
