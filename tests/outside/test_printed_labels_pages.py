"""Printed pages as paper sees them: rulers measured and symbols read on the raster."""

import io

import numpy as np
import pypdfium2
import pytest

from filmrack.domain import codes
from filmrack.printing import (
    UNTOUCHED,
    BenchCard,
    BinderIndex,
    Calibration,
    ContactLog,
    Page,
    PeopleSheet,
    PersonRow,
    RulerPage,
    SweepSlip,
    print_pages,
)
from tests.printed import symbols_on


def raster(page: Page, paper: str, dpi: int, calibration: Calibration = UNTOUCHED) -> np.ndarray:
    out = io.BytesIO()
    print_pages([page], paper, out, dpi=dpi, calibration=calibration)
    document = pypdfium2.PdfDocument(out.getvalue())
    return document[0].render(scale=(dpi - 1e-4) / 72, grayscale=True).to_numpy().copy()


def texts(image: np.ndarray) -> list[str]:
    return sorted(symbols_on(image))


@pytest.mark.parametrize("dpi", [203, 300])
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_every_symbol_of_a_page_reads_at_the_printers_dpi(paper: str, dpi: int) -> None:
    assert texts(raster(BenchCard(), paper, dpi)) == sorted(map(codes.action_code, codes.ACTIONS))
    people = tuple(PersonRow(number, "Ida", "K") for number in range(1, 31))
    read = texts(raster(PeopleSheet("Period 3", people), paper, dpi))
    assert read == sorted(codes.person_code(number) for number in range(1, 31))
    roll = codes.roll_code("26F", 142)
    assert texts(raster(ContactLog(roll, "135-36", "26F", "", ((1, 2),)), paper, dpi)) == [roll]
    assert texts(raster(SweepSlip(3, "Period 3", "", ()), paper, dpi)) == [codes.box_code(3)]
    index = BinderIndex("26F", 1, "", ())
    assert texts(raster(index, paper, dpi)) == [codes.binder_code("26F", 1)]


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_rulers_of_the_test_page_are_true_to_a_tenth_of_a_millimetre(paper: str) -> None:
    dpi = 600
    image = raster(RulerPage(), paper, dpi)
    across, down = ruler(image, dpi)
    # From 8 mm before the cross at 20 mm to the end of a ruler of 150 or 200 mm.
    assert across == pytest.approx((12, 170), abs=0.1)
    assert down == pytest.approx((12, 220), abs=0.1)


def test_a_countered_test_page_is_stretched_and_moved() -> None:
    dpi = 600
    moved = Calibration(right_mm=1.0, down_mm=-1.0, stretch_x=1.01, stretch_y=0.99)
    across, down = ruler(raster(RulerPage(), "a4", dpi, moved), dpi)
    assert across == pytest.approx((12 * 1.01 + 1, 170 * 1.01 + 1), abs=0.1)
    assert down == pytest.approx((12 * 0.99 - 1, 220 * 0.99 - 1), abs=0.1)


def ruler(image: np.ndarray, dpi: int) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the ends in mm of the longest dark line across and of the longest one down."""
    dark = image < 128
    row = dark[np.argmax(dark.sum(axis=1))]
    column = dark[:, np.argmax(dark.sum(axis=0))]
    mm = 25.4 / dpi
    return _ends(row, mm), _ends(column, mm)


def _ends(line: np.ndarray, mm: float) -> tuple[float, float]:
    ink = np.flatnonzero(line)
    return float(ink[0]) * mm, float(ink[-1] + 1) * mm
