"""The report of a term, and the list of what is handed back at its end, as lines of a page."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import datetime
from functools import partial
from itertools import pairwise

from rich.style import Style
from rich.text import Text

from filmrack.acts import closing
from filmrack.acts.end_of_term import hand_back_list
from filmrack.desk.archive.bars import bar
from filmrack.desk.archive.term_words import still_lent, what_is_open, whether_it_closes
from filmrack.desk.ink import fitted, style, wrapped
from filmrack.desk.now import Now
from filmrack.desk.themes import Palette
from filmrack.domain.clock import day_words
from filmrack.domain.counted import counted
from filmrack.domain.loans import due_words
from filmrack.domain.names import Person, called
from filmrack.domain.roll import Roll, owner_of
from filmrack.domain.schooldays import Term
from filmrack.domain.termreport import IN_WORDS, RollsOfOne, TermReport
from filmrack.store import people, terms
from filmrack.store.borrowing import borrowers
from filmrack.store.file import DarkroomFile
from filmrack.store.standings import written_on

PageLine = Text | Callable[[], Text]
"""A row, or what draws it when it comes in sight: thousands of texts would hold up the desk."""


def report_lines(
    file: DarkroomFile, now: Now, term: Term, width: int, palette: Palette
) -> list[PageLine]:
    """Return where all rolls of a term are, what keeps it from closing, and whose those are."""
    report = closing.report_on(file, term.code)
    closed = terms.closed(file.conn).get(term.code)
    strong, text, quiet = _inks(palette)
    lines: list[PageLine] = [
        Text.assemble(
            (f"Term {term.code}: {counted(report.rolls, 'roll')}", strong),
            (f", {_days(now, term)}{_closed(now, closed)}", quiet),
        ),
        Text(""),
    ]
    across = max(12, min(60, width - 34))
    for kind, number in report.places.items():
        how = text if number else quiet
        lines.append(
            Text.assemble(
                (f"{number:>6}  ", how),
                (f"{IN_WORDS[kind]:<24}", how),
                (bar(number, report.rolls, across), style(palette.wet)),
            )
        )
    lines += [Text(row.plain, style=text) for row in wrapped(_of_these(report), width)]
    verdict = wrapped(_verdict(report, term, closed, terms.why_closed(file.conn, term.code)), width)
    lines += [Text(""), *(Text(row.plain, style=strong) for row in verdict)]
    lines += _groups(file, now, report.unaccounted, width, palette)
    for title, some in (
        ("Borrowed", report.out),
        ("Without a contact sheet", report.no_contact),
        ("Without an owner", report.unclaimed),
    ):
        if some:
            lines += [Text(""), Text(f"{title}: {counted(len(some), 'roll')}", style=strong)]
            lines += _rows(file, now, some, width, palette)
    return lines


def _of_these(report: TermReport) -> str:
    """Return what rolls owe that are counted by their place as well; empty for nothing."""
    unclaimed = f"{len(report.unclaimed)} without an owner" if report.unclaimed else ""
    some = ", ".join(words for words in (report.without_sheet, unclaimed) if words)
    return f"Of these {report.rolls}: {some}; who they are stands at the end" if some else ""


def _verdict(report: TermReport, term: Term, closed: datetime | None, why: str) -> str:
    if closed is None:
        return whether_it_closes(report.places)
    left = what_is_open(report.places)
    though = f" with {left}" if left else ""
    for_it = f" (“{why}”)" if why else ""
    lent = still_lent(report.places)
    return f"Closed{though}{for_it}{lent}: “reopen term {term.code}” lets it be changed"


def hand_back_lines(
    file: DarkroomFile, now: Now, term: Term, width: int, palette: Palette
) -> list[PageLine]:
    """Return what of a term is handed back at its end, by period and owner."""
    _, groups = hand_back_list(file, term.code, now.at)
    strong, _, quiet = _inks(palette)
    rolls = sum(len(some) for _, _, some in groups)
    due = now.room.in_last_week(term.code, now.at)
    when = "the last week" if due else f"not the last week yet: the term is {_days(now, term)}"
    told = f"It is {when}. “hand back” gives a roll to its owner for good; Labels prints the list."
    lines: list[PageLine] = [
        Text.assemble((f"To hand back of {term.code}: {counted(rolls, 'roll')}", strong)),
        *(Text(row.plain, style=quiet) for row in wrapped(told, width)),
    ]
    return [*lines, *_groups(file, now, groups, width, palette)]


def _groups(
    file: DarkroomFile, now: Now, groups: Sequence[RollsOfOne], width: int, palette: Palette
) -> list[PageLine]:
    """Return rolls below their period, by family name."""
    strong, _, _ = _inks(palette)
    by_period: dict[int | None, list[Roll]] = {}
    for period, _, some in groups:
        by_period.setdefault(period, []).extend(some)
    lines: list[PageLine] = []
    for number, rolls in by_period.items():
        known = now.room.period(number)
        name = known.name if known else f"Without a {now.room.period_word}"
        lines += [Text(""), Text(name, style=strong)]
        lines += _rows(file, now, rolls, width, palette)
    return lines


def _rows(
    file: DarkroomFile, now: Now, some: Iterable[Roll], width: int, palette: Palette
) -> list[PageLine]:
    """Return a row for each roll: whose, its number, where it is or who has it until when."""
    rolls, conn = list(some), file.conn
    owners = people.read_people(conn, (roll.person for roll in rolls if roll.person is not None))
    said, lent = written_on(conn, rolls), borrowers(conn, rolls)
    _, text, quiet = _inks(palette)
    space = max(16, min(32, width - 54))

    def row(roll: Roll, before: Roll | None) -> Text:
        where = str(roll.place)
        if roll.loan is not None and roll.place.kind == "out":
            where = f"{lent[roll.id]}, {due_words(roll.loan, now.room, now.at)}"
        elif roll.place.kind == "missing":
            where = f"missing, last seen {roll.seen}"
        same = before is not None and None is not roll.person == before.person
        name = "" if same else called(owner_of(roll, owners), said.get(roll.id))
        return Text.assemble(
            fitted(f"  {name}", space - 1, text),
            " ",
            fitted(roll.number, 14, quiet),
            fitted(where, max(8, width - space - 14), text),
        )

    rolls.sort(key=lambda roll: _by_family(roll, owners))
    return [
        partial(row, roll, before) for before, roll in pairwise([None, *rolls]) if roll is not None
    ]


def _by_family(roll: Roll, owners: Mapping[int, Person]) -> tuple[bool, str, str, int]:
    owner = owner_of(roll, owners)
    return (owner is None, owner.family if owner else "", owner.known_as if owner else "", roll.id)


def _days(now: Now, term: Term) -> str:
    today = now.room.timetable.local_date(now.at)
    return f"{day_words(term.starts, today)} to {day_words(term.ends, today)}"


def _closed(now: Now, closed: datetime | None) -> str:
    if closed is None:
        return ""
    local = now.room.timetable.local_date
    return f", closed since {day_words(local(closed), local(now.at))}"


def _inks(palette: Palette) -> tuple[Style, Style, Style]:
    return style(palette.text, bold=True), style(palette.text), style(palette.quiet)
