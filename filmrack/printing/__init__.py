"""QR symbols, label sheets and pages, to PDF. The only place that knows a PDF library."""

from filmrack.printing.archive_pages import (
    BinderIndex,
    HandBackList,
    HandBackRow,
    IndexRow,
    SlipRoll,
    SweepSlip,
)
from filmrack.printing.bench_card import BenchCard
from filmrack.printing.cautions import CAUTIONS
from filmrack.printing.contact_log import ContactLog
from filmrack.printing.guide import GUIDES, Guide
from filmrack.printing.hand_over import send, view
from filmrack.printing.hang_sheet import HangRow, HangSheet
from filmrack.printing.labels import (
    BinderLabel,
    BoxLabel,
    ClipTag,
    Label,
    RodLabel,
    SleeveLabel,
    clip_pairs,
    named_clips,
)
from filmrack.printing.pages import PAPERS, Page, print_pages
from filmrack.printing.pen import UNTOUCHED, Calibration
from filmrack.printing.people_sheet import PeopleSheet, PersonRow
from filmrack.printing.print_run import Printed, Progress
from filmrack.printing.ruler_page import RulerPage, measured
from filmrack.printing.sheets import print_labels
from filmrack.printing.stock import Stock, read_stock, stock, stock_names
from filmrack.printing.substitute_page import DayPeriod, SubstitutePage

__all__ = [
    "CAUTIONS",
    "GUIDES",
    "PAPERS",
    "UNTOUCHED",
    "BenchCard",
    "BinderIndex",
    "BinderLabel",
    "BoxLabel",
    "Calibration",
    "ClipTag",
    "ContactLog",
    "DayPeriod",
    "Guide",
    "HandBackList",
    "HandBackRow",
    "HangRow",
    "HangSheet",
    "IndexRow",
    "Label",
    "Page",
    "PeopleSheet",
    "PersonRow",
    "Printed",
    "Progress",
    "RodLabel",
    "RulerPage",
    "SleeveLabel",
    "SlipRoll",
    "Stock",
    "SubstitutePage",
    "SweepSlip",
    "clip_pairs",
    "measured",
    "named_clips",
    "print_labels",
    "print_pages",
    "read_stock",
    "send",
    "stock",
    "stock_names",
    "view",
]
