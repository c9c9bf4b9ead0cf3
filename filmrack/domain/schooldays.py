"""School days: terms, days off, one-off days and the rotation of day letters.

Everything here is a local date; times of day are the timetable's business. Days are counted by
arithmetic, so a date forty years off costs no more than tomorrow.

What beats what: a one-off day, because somebody named that very date; then a day off; then the
terms, if any are given (outside all of them is no school); then the weekdays of the school.
"""

from datetime import date, timedelta
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple, Self

from filmrack.domain.clock import whole_day
from filmrack.domain.daycount import DayCount, open_runs
from filmrack.domain.dayplan import DayPlan, day_plan
from filmrack.domain.refusal import Refused

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
SCHOOL_WEEK = WEEKDAYS[:5]

NO_SCHOOL = "No school"
"""What a day off is called where nobody says."""

LONGEST_DAY_NAME = 80
"""Characters of the name of a day off or a one-off day."""

SEARCHED_DAYS = 366
"""A search for a coming or a past day gives up after a year."""


class _Term(NamedTuple):
    code: str
    starts: date
    ends: date


class Term(_Term):
    """A term of the school, first and last day included."""

    __slots__ = ()

    def __new__(cls, code: str, starts: date, ends: date) -> Self:
        """Check and keep a term. Raises Refused for one that ends before it starts."""
        _refuse_backwards(f"term {code}", starts, ends)
        return super().__new__(cls, code, starts, ends)


class _DayOff(NamedTuple):
    name: str
    first: date
    last: date


class DayOff(_DayOff):
    """A day or a stretch of days without school, first and last included."""

    __slots__ = ()

    def __new__(cls, name: str, first: date, last: date) -> Self:
        """Check and keep a day off. Raises Refused for one that ends before it starts."""
        _refuse_backwards(name, first, last)
        return super().__new__(cls, name, first, last)


class _OneOff(NamedTuple):
    day: date
    name: str
    plan: str | DayPlan
    keeps_letter: bool = False


class OneOff(_OneOff):
    """A date with a plan of its own: early release, a Saturday school, a snow day.

    `plan` names one of the timetable's plans or is a day plan itself; the empty one says that
    nobody comes. `keeps_letter` leaves the day's letter to the next school day; else it is used
    up, also by a snow day.
    """

    __slots__ = ()

    def __new__(cls, day: date, name: str, plan: str | DayPlan, keeps_letter: bool = False) -> Self:
        """Keep a one-off day, its plan in the order of the day.

        Raises Refused as `day_plan` does.
        """
        ordered = plan if isinstance(plan, str) else day_plan(plan)
        return super().__new__(cls, day, name, ordered, keeps_letter)


class _Rotation(NamedTuple):
    letters: tuple[str, ...]
    first_day: date


class Rotation(_Rotation):
    """Letters of days, or of weeks, in turn; the first one falls on `first_day`, or that week.

    Without school there, it falls on the next school day, or week, after it.
    """

    __slots__ = ()

    def __new__(cls, letters: tuple[str, ...], first_day: date) -> Self:
        """Check and keep a rotation. Raises Refused for no letters, or one that comes twice."""
        if not letters or len(set(letters)) < len(letters):
            raise Refused(
                f"the letters {', '.join(letters) or '(none)'} make no rotation because each "
                "day needs one letter of its own: list every letter once"
            )
        return super().__new__(cls, letters, first_day)


class _SchoolDays(NamedTuple):
    weekdays: tuple[str, ...] = SCHOOL_WEEK
    terms: tuple[Term, ...] = ()
    days_off: tuple[DayOff, ...] = ()
    one_offs: tuple[OneOff, ...] = ()
    rotation: Rotation | None = None
    weeks: Rotation | None = None


class SchoolDays(_SchoolDays):
    """Which dates are school days, and which letter they have.

    `rotation` gives each day a letter in turn, `weeks` each week; a school has one of them or none.
    `weekdays` are those on which the school teaches, whether the darkroom is used or not. A
    one-off day is a school day unless its plan is the empty one.
    """

    def __new__(
        cls,
        weekdays: tuple[str, ...] = SCHOOL_WEEK,
        terms: tuple[Term, ...] = (),
        days_off: tuple[DayOff, ...] = (),
        one_offs: tuple[OneOff, ...] = (),
        rotation: Rotation | None = None,
        *,
        weeks: Rotation | None = None,
    ) -> Self:
        """Check and keep school days.

        Raises Refused for letters of days and of weeks at once, for what is no weekday, and for two
        one-off days on one date.
        """
        if rotation is not None and weeks is not None:
            raise Refused(
                "days cannot have letters of their own and of their week at once because either"
                " would name the plan: keep one of the two"
            )
        for weekday in weekdays:
            if weekday not in WEEKDAYS:
                raise Refused(
                    f"“{weekday}” is no school weekday because weekdays are written "
                    f"{' '.join(WEEKDAYS)}: use one of these"
                )
        for earlier, later in pairwise(sorted(one_offs, key=lambda one_off: one_off.day)):
            if earlier.day == later.day:
                raise Refused(
                    f"{whole_day(later.day)} cannot be both {earlier.name} and {later.name} because"
                    " a day has one plan: keep one of the two"
                )
        return super().__new__(cls, weekdays, terms, days_off, one_offs, rotation, weeks)

    @cached_property
    def _one_off_on(self) -> dict[date, OneOff]:
        return {one_off.day: one_off for one_off in self.one_offs}

    @cached_property
    def _ordinary(self) -> DayCount:
        return DayCount(
            tuple(WEEKDAYS.index(weekday) for weekday in dict.fromkeys(self.weekdays)),
            open_runs(
                [(term.starts, term.ends) for term in self.terms],
                [(off.first, off.last) for off in self.days_off],
            ),
        )

    @cached_property
    def _school(self) -> DayCount:
        return self._tally({one.day: one.plan != () for one in self.one_offs})

    @cached_property
    def _lettered(self) -> DayCount:
        return self._tally({one.day: not one.keeps_letter for one in self.one_offs})

    def _tally(self, wanted: dict[date, bool]) -> DayCount:
        ordinary = self._ordinary
        changes = (
            (day, int(counts) - int(ordinary.holds(day))) for day, counts in sorted(wanted.items())
        )
        return DayCount(ordinary.weekdays, ordinary.runs, tuple(changes))

    def one_off(self, day: date) -> OneOff | None:
        """Return the one-off day of that date, or None on an ordinary one."""
        return self._one_off_on.get(day)

    def is_school_day(self, day: date) -> bool:
        """Tell whether the school teaches on that date."""
        return self._school.holds(day)

    def letter(self, day: date) -> str | None:
        """Return the day letter of a date, before or after the rotation's first day.

        None without a rotation, without school, and on a one-off day that leaves its letter to
        the next one, unless that day runs the plan of a letter: then it shows that letter.
        """
        if self.rotation is None or not self.is_school_day(day):
            return None
        letters = self.rotation.letters
        one_off = self.one_off(day)
        if one_off is not None and one_off.plan in letters:
            return str(one_off.plan)
        if not self._lettered.holds(day):
            return None
        turn = self._lettered.before(day)
        turn -= self._lettered.before(self.rotation.first_day)
        return letters[turn % len(letters)]

    def week(self, day: date) -> str | None:
        """Return the letter of a date's week; None without weeks of several kinds, or school.

        A week without a school day has no letter: the next week takes it, as with day letters.
        """
        if self.weeks is None or not self.is_school_day(day):
            return None
        monday, first = monday_of(day), monday_of(self.weeks.first_day)
        some = range(0, abs((monday - first).days), 7)
        begins = min(monday, first)
        taught = sum(self._teaches_in(begins + timedelta(days=ahead)) for ahead in some)
        turn = taught if monday >= first else -taught
        return self.weeks.letters[turn % len(self.weeks.letters)]

    def _teaches_in(self, monday: date) -> bool:
        return self.between(monday - timedelta(days=1), monday + timedelta(days=6)) > 0

    def between(self, earlier: date, later: date) -> int:
        """Return the school days after `earlier` up to and with `later`: Friday to Monday is 1.

        The other way round the count is negative.
        """
        return self._school.through(later) - self._school.through(earlier)

    def school_day_after(self, day: date, number: int = 1) -> date | None:
        """Return the school day that comes `number` school days after a date, as for a loan.

        None when it does not come within a year.
        """
        for ahead in range(1, SEARCHED_DAYS + 1):
            candidate = day + timedelta(days=ahead)
            if self.is_school_day(candidate) and self.between(day, candidate) >= number:
                return candidate
        return None

    def term_in_force(self, day: date) -> Term | None:
        """Return the term that started last, also in the holidays after it.

        None before the first term.
        """
        started = [term for term in self.terms if term.starts <= day]
        return max(started, key=lambda term: (term.starts, term.code), default=None)


def monday_of(day: date) -> date:
    """Return the Monday of a date's week."""
    return day - timedelta(days=day.weekday())


def _refuse_backwards(what: str, first: date, last: date) -> None:
    if last < first:
        raise Refused(
            f"{what} cannot end on {last} because it starts on {first}: give a later last day"
        )
