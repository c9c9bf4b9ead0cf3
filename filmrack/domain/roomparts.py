"""The parts of a room file that say what stands in the room, and its numbers."""

from __future__ import annotations

from collections.abc import Callable

from filmrack.domain.binder import HIGHEST_BINDER
from filmrack.domain.contact import PAPERS, Paper, paper_name, paper_named, papers_of
from filmrack.domain.film import film_named
from filmrack.domain.refusal import Refused
from filmrack.domain.room import HIGHEST_NUMBER, Binder, Box, Dryer, Period, Rod, period_named
from filmrack.domain.roomkeys import Section
from filmrack.domain.roomrules import Materials, Rules
from filmrack.domain.sleeving import page_named
from filmrack.domain.timetable import LeftBehindRule

LONGEST_NAME = 40

TOP_KEYS = (
    "name",
    "zone",
    "period_word",
    "periods",
    "dryers",
    "rods",
    "boxes",
    "terms",
    "days_off",
    "one_offs",
    "binders",
    "papers",
)
"""Keys that stand above the first table."""


def periods(top: Section) -> tuple[Period, ...]:
    """Return the periods of a room file."""
    found = []
    for entry in top.sections("periods", HIGHEST_NUMBER):
        number = entry.whole("number", 1, HIGHEST_NUMBER)
        found.append(Period(number, entry.text("name", LONGEST_NAME, str(number))))
        entry.close()
    if not found and top.raw("periods") in (None, []):
        top.wrong("periods", 'at least one period, as in { number = 1, name = "1" }')
    return tuple(found)


def period_of(entry: Section, known: tuple[Period, ...], word: str, *, needed: bool) -> int | None:
    """Return the number of the period that an entry names by name or number, or None."""
    value = entry.raw("period")
    if value in (None, "") and not needed:
        return None
    found = None
    if isinstance(value, str):
        found = period_named(value, known, word)
    elif isinstance(value, int):
        found = next((period for period in known if period.number == value), None)
    if found is None:
        names = ", ".join(f'"{period.name}"' for period in known)
        entry.wrong("period", f"one of the periods: {names}" if names else "a period")
        return None
    return found.number


def dryers(top: Section) -> tuple[Dryer, ...]:
    """Return the dryers of a room file."""
    usual = Dryer(1, "Dryer")
    found = []
    for entry in top.sections("dryers", 20):
        number = entry.whole("number", 1, HIGHEST_NUMBER)
        found.append(
            Dryer(
                number,
                entry.text("name", LONGEST_NAME, "Dryer" if number == 1 else f"Dryer {number}"),
                entry.whole("clear_height_mm", 300, 5000, usual.clear_height_mm),
                entry.number("dial_hours", 0.05, 24, usual.dial_hours),
            )
        )
        entry.close()
    if not found and top.raw("dryers") in (None, []):
        top.wrong("dryers", "at least one dryer, as in { number = 1 }")
    return tuple(found)


def rods(top: Section, known: tuple[Period, ...], word: str) -> tuple[Rod, ...]:
    """Return the rods of a room file; one without a period is for everybody."""
    usual = Rod(1, 1, 1, None)
    found = []
    for entry in top.sections("rods", HIGHEST_NUMBER):
        found.append(
            Rod(
                entry.whole("number", 1, HIGHEST_NUMBER),
                entry.whole("dryer", 1, HIGHEST_NUMBER, 1),
                entry.whole("positions", 1, HIGHEST_NUMBER),
                period_of(entry, known, word, needed=False),
                entry.whole("spacing_mm", 10, 500, usual.spacing_mm),
                entry.choice("counted_from", ("left", "right"), usual.counted_from),
            )
        )
        entry.close()
    if not found and top.raw("rods") in (None, []):
        top.wrong("rods", "at least one rod, as in { number = 1, positions = 10 }")
    return tuple(found)


def boxes(top: Section, known: tuple[Period, ...], word: str) -> tuple[Box, ...]:
    """Return the boxes of a room file."""
    found = []
    for entry in top.sections("boxes", HIGHEST_NUMBER):
        number = entry.whole("number", 1, HIGHEST_NUMBER)
        period = period_of(entry, known, word, needed=True)
        if period is not None:
            found.append(Box(number, period))
        entry.close()
    return tuple(found)


def binders(top: Section, known: tuple[Period, ...], word: str) -> tuple[Binder, ...]:
    """Return the binders of a room file."""
    found = []
    for entry in top.sections("binders"):
        term = entry.text("term", 3)
        number = entry.whole("number", 1, HIGHEST_BINDER)
        found.append(Binder(term, number, period_of(entry, known, word, needed=False)))
        entry.close()
    return tuple(found)


def materials(top: Section) -> Materials:
    """Return what the room works with, and its own pages and papers."""
    more_papers = _papers(top)
    section = top.section("materials")
    usual = Materials()
    film = _word(section, "film", usual.film, lambda text: film_named(text).text, "a film: 135-36")
    page, page_120, page_sheet = (
        _word(section, key, each, lambda text: page_named(text).name, f"a sleeve page: {each}")
        for key, each in (
            ("page", usual.page),
            ("page_120", usual.page_120),
            ("page_sheet", usual.page_sheet),
        )
    )
    paper = _word(
        section,
        "paper",
        usual.paper,
        lambda text: paper_named(text, more_papers).name,
        f"a paper: {', '.join(papers_of(more_papers))}",
    )
    pages = []
    for nth, written in enumerate(section.texts("more_pages") or [], 1):
        try:
            pages.append(page_named(written).name)
        except Refused:
            section.wrong(f"more_pages[{nth}]", "a sleeve page, strips x frames a strip: 8x5")
    section.close(TOP_KEYS)
    own = tuple(dict.fromkeys(pages))
    return Materials(film, page, paper, own, more_papers, page_120, page_sheet)


def _word(section: Section, key: str, usual: str, read: Callable[[str], str], what: str) -> str:
    written = section.text(key, LONGEST_NAME, usual)
    try:
        return read(written)
    except Refused:
        if written:
            section.wrong(key, what)
        return usual


def _papers(top: Section) -> tuple[Paper, ...]:
    found = []
    for entry in top.sections("papers", 30):
        name = paper_name(entry.text("name", 20))
        if name in PAPERS:
            entry.wrong("name", f"another name: every room has {', '.join(PAPERS)}")
        sides = [entry.number(key, 20, 2000) for key in ("short_mm", "long_mm")]
        found.append(Paper(name, min(sides), max(sides)))
        entry.close()
    return tuple(found)


def rules(top: Section) -> Rules:
    """Return the room's rules."""
    section = top.section("rules")
    usual = Rules()
    # The choices are those of the type: nothing else is returned.
    left_behind: LeftBehindRule = "day_end"
    if section.choice("left_behind", ("day_end", "next_class"), usual.left_behind) == "next_class":
        left_behind = "next_class"
    found = Rules(
        drying_lag_minutes=section.number("drying_lag_minutes", 0, 120, usual.drying_lag_minutes),
        process_minutes=section.number("process_minutes", 1, 600, usual.process_minutes),
        overnight_hours=section.number("overnight_hours", 1, 96, usual.overnight_hours),
        left_behind=left_behind,
        box_school_days=section.whole("box_school_days", 0, 400, usual.box_school_days),
        contact_school_days=section.whole("contact_school_days", 0, 400, usual.contact_school_days),
        loan_school_days=section.whole("loan_school_days", 1, 400, usual.loan_school_days),
        keep_names_years=section.whole("keep_names_years", 0, 100, usual.keep_names_years),
        desk_idle_minutes=section.number("desk_idle_minutes", 1, 600, usual.desk_idle_minutes),
        helpers_sweep=section.flag("helpers_sweep", default=usual.helpers_sweep),
    )
    section.close(TOP_KEYS)
    return found


def initials_on_sleeves(top: Section) -> bool:
    """Return whether the labels of sleeves show initials."""
    section = top.section("labels")
    found = section.flag("initials_on_sleeves", default=False)
    section.close(TOP_KEYS)
    return found
