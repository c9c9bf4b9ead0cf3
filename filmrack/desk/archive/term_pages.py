"""The pages that lie over the archive of a term: its report, its figures, what is handed back."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import datetime
from functools import partial
from itertools import pairwise
from typing import NamedTuple

from rich.style import Style
from rich.text import Text

from filmrack.acts import closing
from filmrack.acts.end_of_term import hand_back_list
from filmrack.desk.archive.bars import bar
from filmrack.desk.archive.term_figures import term_figures
from filmrack.desk.archive.term_words import still_lent, what_is_open
from filmrack.desk.ink import fitted, style, wrapped
from filmrack.desk.now import Now
from filmrack.desk.session import Session
from filmrack.desk.themes import Palette
from filmrack.domain.clock import day_words
from filmrack.domain.counted import counted
from filmrack.domain.loans import due_words
from filmrack.domain.names import Person, called
from filmrack.domain.refusal import FileTrouble
from filmrack.domain.roll import Roll, owner_of
from filmrack.domain.schooldays import Term
from filmrack.domain.termreport import IN_WORDS, RollsOfOne, TermReport
from filmrack.store import people, terms
from filmrack.store.borrowing import borrowers
from filmrack.store.figures import figures
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.standings import written_on
from filmrack.store.trouble import damage_in

_PAGES = ("report", "figures", "hand-back list")


_Line = Text | Callable[[], Text]
"""A row, or what draws it when it comes in sight: thousands of texts would hold up the desk."""


class TermPages:
    """Draws these pages; one that was read is kept for the hour, or until the file changes.

    A page is read beside the desk, on a connection of its own: `beside` does some work in a thread
    and has the screen drawn when it is done.
    """

    def __init__(self, session: Session, beside: Callable[[Callable[[], None]], None]) -> None:
        self._session = session
        self._beside = beside
        self.name = ""
        """The page that lies there: one of _PAGES, or none."""
        self._first = 0
        self._kept: _PageRead | None = None
        self._reading: tuple[object, ...] | None = None
        self._since = session.now

    def lay(self, name: str) -> None:
        """Lay a page there from its beginning, or take it away."""
        assert name in ("", *_PAGES)
        self.name, self._first = name, 0

    def turn(self, key: str, page: int) -> None:
        """Take a key: up, down, page_up, page_down, first, last; `page` is in rows."""
        steps = {"up": -1, "down": 1, "page_up": -page, "page_down": page}
        ends = {"first": -self._first, "last": len(self._kept.lines) if self._kept else 0}
        self._first = max(0, self._first + {**steps, **ends}.get(key, 0))

    def lines(self, now: Now, term: Term, size: tuple[int, int], palette: Palette) -> list[Text]:
        """Return the rows in sight of the page for a term; `size` is their width and number.

        While it is read they say so, unless the same page lies there as it was a moment ago.
        Raises what its reading has raised.
        """
        hour = now.at.replace(minute=0, second=0, microsecond=0)
        asked = (self.name, term, size, palette.name, self._session.stamp, hour)
        if (self._kept is None or self._kept.asked != asked) and self._reading != asked:
            self._reading, self._since = asked, now.at
            self._beside(partial(self._read, asked, now, term, size, palette))
        if self._kept is None or self._kept.asked[:4] != asked[:4]:
            seconds = int((now.at - self._since).total_seconds())
            words = f"Reading {self.name} of {term.code}, {seconds} s … Esc leaves it."
            return [Text(words, style=style(palette.quiet))]
        if self._kept.trouble is not None:
            raise self._kept.trouble
        lines, height = self._kept.lines, size[1]
        self._first = max(0, min(self._first, len(lines) - height))
        shown = lines[self._first : self._first + height]
        return [line if isinstance(line, Text) else line() for line in shown]

    def _read(
        self,
        asked: tuple[object, ...],
        now: Now,
        term: Term,
        size: tuple[int, int],
        palette: Palette,
    ) -> None:
        """Read a page in a thread; one that nobody waits for any more is let go."""
        path = self._session.path
        try:
            with damage_in(path), open_file(path, write=False) as file:
                lines: list[_Line] = []
                match asked[0]:
                    case "figures":
                        told = figures(file, term, now.at)
                        lines += term_figures(told, term, *size, palette)
                    case "report":
                        lines += _report(file, now, term, size[0], palette)
                    case _:
                        lines += _hand_back(file, now, term, size[0], palette)
            read = _PageRead(asked, lines)
        except FileTrouble as trouble:
            read = _PageRead(asked, [], trouble)
        if self._reading == asked:
            self._kept, self._reading = read, None


class _PageRead(NamedTuple):
    """A page that was read: for what question, its lines, or what went wrong."""

    asked: tuple[object, ...]
    lines: list[_Line]
    trouble: FileTrouble | None = None


def _report(file: DarkroomFile, now: Now, term: Term, width: int, palette: Palette) -> list[_Line]:
    report = closing.report_on(file, term.code)
    closed = terms.closed(file.conn).get(term.code)
    strong, text, quiet = _inks(palette)
    lines: list[_Line] = [
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
    left, lent = what_is_open(report.places), still_lent(report.places)
    if closed is not None:
        though = f" with {left}" if left else ""
        for_it = f" (“{why}”)" if why else ""
        return f"Closed{though}{for_it}{lent}: “reopen term {term.code}” lets it be changed"
    if left:
        return f"Keeps it from closing: {left}{lent}"
    return f"Every roll is accounted for{lent}: “close term” closes it"


def _hand_back(
    file: DarkroomFile, now: Now, term: Term, width: int, palette: Palette
) -> list[_Line]:
    _, groups = hand_back_list(file, term.code, now.at)
    strong, _, quiet = _inks(palette)
    rolls = sum(len(some) for _, _, some in groups)
    due = now.room.in_last_week(term.code, now.at)
    when = "the last week" if due else f"not the last week yet: the term is {_days(now, term)}"
    told = f"It is {when}. “hand back” gives a roll to its owner for good; Labels prints the list."
    lines: list[_Line] = [
        Text.assemble((f"To hand back of {term.code}: {counted(rolls, 'roll')}", strong)),
        *(Text(row.plain, style=quiet) for row in wrapped(told, width)),
    ]
    return [*lines, *_groups(file, now, groups, width, palette)]


def _groups(
    file: DarkroomFile, now: Now, groups: Sequence[RollsOfOne], width: int, palette: Palette
) -> list[_Line]:
    """Return rolls below their period, by family name."""
    strong, _, _ = _inks(palette)
    by_period: dict[int | None, list[Roll]] = {}
    for period, _, some in groups:
        by_period.setdefault(period, []).extend(some)
    lines: list[_Line] = []
    for number, rolls in by_period.items():
        known = now.room.period(number)
        name = known.name if known else f"Without a {now.room.period_word}"
        lines += [Text(""), Text(name, style=strong)]
        lines += _rows(file, now, rolls, width, palette)
    return lines


def _rows(
    file: DarkroomFile, now: Now, some: Iterable[Roll], width: int, palette: Palette
) -> list[_Line]:
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
