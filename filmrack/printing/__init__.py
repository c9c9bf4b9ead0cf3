"""QR symbols, label sheets and pages, to PDF. The only place that knows a PDF library."""

from filmrack.printing.labels import (
    BinderLabel,
    BoxLabel,
    ClipTag,
    Label,
    RodLabel,
    SleeveLabel,
    clip_pairs,
)
from filmrack.printing.pen import UNTOUCHED, Calibration
from filmrack.printing.sheets import Printed, Progress, print_labels
from filmrack.printing.stock import Stock, read_stock, stock, stock_names

__all__ = [
    "UNTOUCHED",
    "BinderLabel",
    "BoxLabel",
    "Calibration",
    "ClipTag",
    "Label",
    "Printed",
    "Progress",
    "RodLabel",
    "SleeveLabel",
    "Stock",
    "clip_pairs",
    "print_labels",
    "read_stock",
    "stock",
    "stock_names",
]
