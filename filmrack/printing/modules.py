"""How large a module is printed: always a whole number of the printer's dots."""

from __future__ import annotations

from typing import NamedTuple

from filmrack.domain.refusal import Refused
from filmrack.printing.stock import Stock
from filmrack.printing.symbols import QUIET

LEAST_MM = 0.33
"""Below this a handheld scanner starts to miss (0.33 mm: 13 mil; common practice)."""

_FLAT_A_INCH = 50
_WRAPPED_A_INCH = 60
_USUAL_DPI = (203, 300, 600)


class ModuleSize(NamedTuple):
    """The size of one module: `dots` of a printer of `dpi`."""

    dots: int
    dpi: int

    @property
    def mm(self) -> float:
        """The module's side in millimetres."""
        return self.dots * 25.4 / self.dpi


def module_size(modules: int, room_mm: float, dpi: int, wrapped: bool = False) -> ModuleSize | None:
    """Return the largest good module for `modules` a side, quiet zone counted, in `room_mm`.

    A flat label gets modules of about 1/50 in (0.508 mm), one wrapped on 12 mm or less 1/60 in
    (0.423 mm), in whole dots. Where the room does not hold them, the next smaller whole dot is
    taken down to 0.33 mm; None when nothing fits.
    """
    dots = round(dpi / (_WRAPPED_A_INCH if wrapped else _FLAT_A_INCH))
    while dots and ModuleSize(dots, dpi).mm >= LEAST_MM:
        if modules * ModuleSize(dots, dpi).mm <= room_mm + 1e-6:
            return ModuleSize(dots, dpi)
        dots -= 1
    return None


def check_dpi(stock: Stock, dpi: int) -> None:
    """Refuse a printer that a stock does not serve, naming those that it does."""
    if dpi not in stock.dpi:
        raise Refused(
            f"{stock.name} does not serve a printer of {dpi} dpi because its modules would not be "
            f"whole dots of a good size: print at {_listed(stock.dpi)} dpi or choose larger labels"
        )


def module_size_on(stock: Stock, side: int, dpi: int, room_mm: float) -> ModuleSize:
    """Return the module for a symbol of `side` modules on a stock, or refuse.

    The refusal says what would fit: another printer, or how large a label has to be.
    """
    check_dpi(stock, dpi)
    modules = side + 2 * QUIET
    size = module_size(modules, room_mm, dpi, stock.wrapped)
    if size is not None:
        return size
    least = -(-dpi * LEAST_MM // 25.4)
    needed = modules * ModuleSize(int(least), dpi).mm + min(stock.width, stock.height) - room_mm
    others = [other for other in _USUAL_DPI if module_size(modules, room_mm, other, stock.wrapped)]
    printers = f"a printer of {_listed(others)} dpi, or " if others else ""
    raise Refused(
        f"a symbol of {side} modules does not fit {stock.name} at {dpi} dpi because a module would "
        f"be under {LEAST_MM} mm: {printers}a label at least {needed:.1f} mm wide and high "
        f"would hold it"
    )


def _listed(values: tuple[int, ...] | list[int]) -> str:
    return " or ".join(map(str, values))
