"""Modules in whole dots: the table of printers and labels, and what is said when nothing fits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from filmrack.domain.refusal import Refused
from filmrack.printing import ClipTag, print_labels, stock
from filmrack.printing.modules import LEAST_MM, module_size, module_size_on


@pytest.mark.parametrize(
    ("dpi", "wrapped", "dots", "mm"),
    # 25.4 mm an inch divided by the dpi, times the dots. At least 4 dots a module flat: a maker's
    # advice; 0.396 to 0.990 mm is the retail range of GS1 General Specifications 5.12.3.1.
    [
        (203, False, 4, 0.500),
        (300, False, 6, 0.508),
        (600, False, 12, 0.508),
        (203, True, 3, 0.375),
        (300, True, 5, 0.423),
        (600, True, 10, 0.423),
    ],
)
def test_modules_are_whole_dots_of_the_printer(
    dpi: int, wrapped: bool, dots: int, mm: float
) -> None:
    size = module_size(29, 100, dpi, wrapped)
    assert size is not None
    assert size.dots == dots
    assert size.mm == pytest.approx(mm, abs=0.0006)


@given(st.integers(21, 45), st.floats(1, 60), st.integers(150, 2400), st.booleans())
def test_a_module_always_fits_its_room_and_is_never_under_a_third_of_a_millimetre(
    modules: int, room: float, dpi: int, wrapped: bool
) -> None:
    size = module_size(modules, room, dpi, wrapped)
    if size is None:
        assert module_size(modules, room - 0.2, dpi, wrapped) is None
        return
    assert size.mm >= LEAST_MM
    assert size.mm * modules <= room + 0.001
    larger = module_size(modules, room + 10, dpi, wrapped)
    assert larger is not None
    assert larger.dots >= size.dots


def test_a_printer_that_the_stock_does_not_serve_is_refused_with_those_that_it_does() -> None:
    with pytest.raises(Refused, match="300 or 600 or 1200 dpi"):
        module_size_on(stock("letter-80"), 21, 203, 12.7)


def test_a_label_too_small_for_its_symbol_is_refused_saying_what_would_fit() -> None:
    low = stock("letter-80")._replace(height=10.0, name="low", dpi=(203, 300, 600))
    # 29 modules of 3 dots at 203 dpi are 10.9 mm; 8 dots at 600 dpi are 29 × 0.339 = 9.8 mm.
    with pytest.raises(Refused) as refusal:
        print_labels([ClipTag(1, "A")], low, _Nowhere(), dpi=203)
    assert "printer of 300 or 600 dpi" in str(refusal.value)
    assert "10.9 mm" in str(refusal.value)
    flat = low._replace(height=8.0)
    with pytest.raises(Refused, match=r"a label at least 9\.8 mm"):
        print_labels([ClipTag(1, "A")], flat, _Nowhere(), dpi=600)


class _Nowhere:
    """A file that nothing may be written to."""
