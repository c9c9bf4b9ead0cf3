"""Which pages are wanted, read from the darkroom file: all that is no label."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from filmrack.acts.hand_back_pages import hand_back_pages
from filmrack.acts.inscriptions import (
    dated,
    owners_initials,
    owners_of,
    period_title,
    printed_initials,
    printed_name,
    sleeve_codes,
    sleeve_numbers,
)
from filmrack.acts.locking import is_locked
from filmrack.acts.slips import slips
from filmrack.acts.wanted_labels import binders_asked
from filmrack.domain.clock import clock, printed_day, time_words, whole_day
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.domain.sleeving import strips_of
from filmrack.printing import (
    GUIDES,
    BenchCard,
    BinderIndex,
    ContactLog,
    DayPeriod,
    Guide,
    HangRow,
    HangSheet,
    IndexRow,
    Page,
    PeopleSheet,
    PersonRow,
    RulerPage,
    SubstitutePage,
)
from filmrack.store import people, rolls, search
from filmrack.store.binders import binders_of
from filmrack.store.file import DarkroomFile


def pages_wanted(
    file: DarkroomFile, kind: str, asked: Sequence[str], moment: datetime
) -> tuple[Page, ...]:
    """Return the pages of a kind that were asked for; see PAGE_KINDS.

    Without anything asked: each period's, each binder's of the term, each box's of the latest
    sweep. `moment` says for which day. Raises Refused when what was asked for is not there.
    """
    return tuple(PAGE_KINDS[kind](file, " ".join(asked).strip(), moment))


def _people(file: DarkroomFile, asked: str, moment: datetime) -> list[Page]:
    room = file.room()
    term = room.term_meant(None, moment).code
    sheets: list[Page] = []
    for period in _periods(room, asked) or [period.number for period in room.periods]:
        there = [each for each in people.in_period(file.conn, term, period) if each.known_as]
        if there or asked:
            listed = tuple(PersonRow(p.number, *printed_name(p)) for p in there)
            sheets.append(PeopleSheet(period_title(room, period), listed))
    if not sheets:
        raise Refused(f"nobody is enrolled in term {term}: take in a roster first")
    return sheets


def _bench(file: DarkroomFile, _asked: str, _moment: datetime) -> list[Page]:
    return [BenchCard(file.room().name)]


def _hangsheet(file: DarkroomFile, asked: str, moment: datetime) -> list[Page]:
    room = file.room()
    day = room.timetable.local_date(moment)
    meeting = [one.period for one in room.timetable.meetings_on(day)]
    known = [period.number for period in room.periods]
    there = sorted(rolls.in_places(file.conn, "tank", "rod"), key=lambda roll: roll.clip or 0)
    owners = owners_of(file, there)

    def row(roll: Roll) -> HangRow:
        owner = owners.get(roll.person)
        loaded = clock(roll.first_at, room.timetable.zone, moment)
        return HangRow(str(roll.clip or ""), printed_initials(owner) if owner else "", loaded)

    return [
        HangSheet(
            period_title(room, period),
            whole_day(day),
            _numbered("rod", [rod.number for rod in room.rods_of(period)]),
            tuple(row(roll) for roll in there if roll.period == period),
        )
        for period in _periods(room, asked) or list(dict.fromkeys(meeting)) or known
    ]


def _substitute(file: DarkroomFile, _asked: str, moment: datetime) -> list[Page]:
    room = file.room()
    zone, day = room.timetable.zone, room.timetable.local_date(moment)
    periods = []
    for meeting in room.timetable.meetings_on(day):
        starts, ends = (each.astimezone(zone) for each in (meeting.starts, meeting.ends))
        box = room.box_of(meeting.period)
        periods.append(
            DayPeriod(
                period_title(room, meeting.period),
                f"{time_words(starts)} to {time_words(ends)}",
                ", ".join(str(rod.number) for rod in room.rods_of(meeting.period)),
                str(box.number) if box else "",
            )
        )
    if not periods:
        raise Refused(f"no class meets on {whole_day(day)}: print it for a school day")
    today = {meeting.period for meeting in room.timetable.meetings_on(day)}
    for rod in room.rods:
        if rod.period not in today:
            called = "anyone" if rod.period is None else period_title(room, rod.period)
            own = None if rod.period is None else room.box_of(rod.period)
            number = str(own.number) if own else ""
            periods.append(DayPeriod(called, "no class today", str(rod.number), number))
    hours = {f"{dryer.dial_hours:g} h" for dryer in room.dryers}
    each = ", ".join(f"{dryer.dial_hours:g} h ({dryer.name})" for dryer in room.dryers)
    dial = hours.pop() if len(hours) == 1 else each
    sweeps = not is_locked(file) or room.rules.helpers_sweep
    return [SubstitutePage(room.name, whole_day(day), dial, tuple(periods), sweeps)]


def _index(file: DarkroomFile, asked: str, moment: datetime) -> list[Page]:
    room = file.room()
    pages: list[Page] = []
    for term, number in binders_asked(file, asked, moment):
        made = {each.number: each for each in binders_of(file.conn, term)}
        if number not in made:
            raise Refused(f"there is no binder {term}-{number:02d}: file the first roll in it")
        filed = rolls.of_binder(file.conn, term, number)
        initials = owners_initials(file, filed)
        rows = [
            IndexRow(number, roll.film, initials.get(roll.id, ""), dated(roll, room), _note(roll))
            for roll in filed
            for number in sleeve_numbers(roll)
        ]
        pages.append(
            BinderIndex(term, number, period_title(room, made[number].period), tuple(rows))
        )
    return pages


def _note(roll: Roll) -> str:
    if roll.loan is not None:
        return f"borrowed, due {printed_day(roll.loan.due)}"
    return "missing" if roll.place.kind == "missing" else ""


def _contactlog(file: DarkroomFile, asked: str, _moment: datetime) -> list[Page]:
    room = file.room()
    if not asked:
        raise Refused("which roll is not said: name the rolls whose frames are to be listed")
    wanted = search.which_all(file.conn, asked.replace(",", " ").split())
    initials = owners_initials(file, wanted)
    logs: list[Page] = []
    for roll in wanted:
        if not any(roll.pages):
            raise Refused(f"no strips of {roll.number} are noted ({roll.place}): sleeve it first")
        strips = iter(strips_of([frames for page in roll.pages for frames in page]))
        picks = frozenset(roll.picks)
        for code, page in zip(sleeve_codes(roll), roll.pages, strict=True):
            cut = (next(strips) for _ in page)
            frames = tuple(tuple(range(strip.first, strip.last + 1)) for strip in cut)
            logs.append(
                ContactLog(
                    code,
                    roll.film,
                    roll.term,
                    dated(roll, room),
                    frames,
                    picks,
                    initials.get(roll.id, ""),
                )
            )
    return logs


def _sweepslip(file: DarkroomFile, asked: str, moment: datetime) -> list[Page]:
    return list(slips(file, asked, moment))


def _guide(whom: str) -> Callable[[DarkroomFile, str, datetime], list[Page]]:
    """Return what makes the guide for one of the people at work."""
    return lambda file, _asked, _moment: [Guide(GUIDES[whom], file.room().name)]


def _test(_file: DarkroomFile, asked: str, _moment: datetime) -> list[Page]:
    return [RulerPage(asked)]


def _periods(room: Room, asked: str) -> list[int]:
    """Return the periods that were named: the whole line as one name, or each part of it."""
    whole = room.period_named(asked) if asked else None
    if whole is not None:
        return [whole.number]
    numbers = [room.period_meant(text).number for text in asked.replace(",", " ").split()]
    return list(dict.fromkeys(numbers))


def _numbered(what: str, numbers: Sequence[int]) -> str:
    listed = ", ".join(map(str, numbers))
    return f"{what}{'s' if len(numbers) > 1 else ''} {listed}" if numbers else ""


PAGE_KINDS: dict[str, Callable[[DarkroomFile, str, datetime], list[Page]]] = {
    "people": _people,
    "bench": _bench,
    "hangsheet": _hangsheet,
    "substitute": _substitute,
    "sweepslip": _sweepslip,
    "index": _index,
    "hand-back": hand_back_pages,
    "contactlog": _contactlog,
    "guide-student": _guide("student"),
    "guide-cabinet": _guide("cabinet"),
    "guide-binders": _guide("binders"),
    "test": _test,
}
"""What is printed on whole pages."""
