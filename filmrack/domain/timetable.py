"""The timetable: which class meets when, and from when on a roll counts as left behind.

Moments are aware datetimes; what is returned is in UTC. A meeting holds its start and not its
end, so a period has ended at the very minute at which it ends.
"""

from collections.abc import Iterable, Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from functools import cached_property
from typing import Literal, NamedTuple, Self
from zoneinfo import ZoneInfo

from filmrack.domain.dayplan import DayPlan, day_plan
from filmrack.domain.refusal import Refused
from filmrack.domain.schooldays import SEARCHED_DAYS, WEEKDAYS, SchoolDays

LeftBehindRule = Literal["day_end", "next_class"]


class Meeting(NamedTuple):
    """One class of one period, from `starts` up to `ends`, both in UTC."""

    period: int
    starts: datetime
    ends: datetime


_ANY_DAYS = SchoolDays()


def of_weekday(weekday: str, weeks: Iterable[str]) -> tuple[str, ...]:
    """Return the names of the plans of a weekday: `mon`, and `mon A` for each kind of week."""
    return (weekday, *(f"{weekday} {week}" for week in weeks))


class _Timetable(NamedTuple):
    zone: tzinfo
    plans: Mapping[str, DayPlan]
    days: SchoolDays = _ANY_DAYS


class Timetable(_Timetable):
    """The day plans of a room, the school days they are for, and the room's time zone.

    `plans` maps a weekday (`mon` … `sun`), or a day letter when the school days have a rotation,
    to its day plan; in weeks of the letter B `mon B` goes before `mon`. Further names are plans
    for one-off days. A school day without a plan is a school day on which no class uses the room.

    Raises Refused when a plan overlaps itself, a plan that is named is not there, or a weekday
    without school has classes.
    """

    def __new__(
        cls, zone: tzinfo, plans: Mapping[str, DayPlan], days: SchoolDays = _ANY_DAYS
    ) -> Self:
        """Check and keep a timetable, its plans in the order of the day."""
        ordered = {name: day_plan(slots) for name, slots in plans.items()}
        named = {one.plan: f"{one.name} on {one.day}" for one in days.one_offs}
        if days.rotation is not None:
            named |= {letter: f"day {letter}" for letter in days.rotation.letters}
        for plan, what in named.items():
            if isinstance(plan, str) and plan not in ordered:
                raise Refused(
                    f"{what} has no plan because there is none named “{plan}”: add that plan or "
                    f"name one of {', '.join(ordered) or 'those that you add'}"
                )
        if days.rotation is None:
            for weekday in WEEKDAYS:
                kinds = days.weeks.letters if days.weeks else ()
                taught = any(ordered.get(name) for name in of_weekday(weekday, kinds))
                if taught and weekday not in {*days.weekdays, *named}:
                    raise Refused(
                        f"classes cannot meet on {weekday} because the school's weekdays are "
                        f"{' '.join(days.weekdays)}: add {weekday} to them or drop its plan"
                    )
        return super().__new__(cls, zone, ordered, days)

    @cached_property
    def _meetings(self) -> dict[date, tuple[Meeting, ...]]:
        """What was asked for before, since many rolls ask for the same days."""
        return {}

    def plan_on(self, day: date) -> DayPlan:
        """Return the plan of a local date, empty when no class meets."""
        one_off = self.days.one_off(day)
        if one_off is not None:
            return self.plans[one_off.plan] if isinstance(one_off.plan, str) else one_off.plan
        if not self.days.is_school_day(day):
            return ()
        if self.days.rotation is not None:
            return self.plans.get(self.days.letter(day) or "", ())
        weekday = WEEKDAYS[day.weekday()]
        return self.plans.get(f"{weekday} {self.days.week(day)}", self.plans.get(weekday, ()))

    def meetings_on(self, day: date) -> tuple[Meeting, ...]:
        """Return the meetings of a local date in their order."""
        known = self._meetings.get(day)
        if known is None:
            known = tuple(
                Meeting(
                    slot.period,
                    wall_to_utc(day, slot.starts, self.zone),
                    wall_to_utc(day, slot.ends, self.zone),
                )
                for slot in self.plan_on(day)
            )
            self._meetings[day] = known
        return known

    def local_date(self, moment: datetime) -> date:
        """Return the date on the room's calendar at a moment."""
        return local_date(moment, self.zone)

    def meeting_at(self, moment: datetime) -> Meeting | None:
        """Return the meeting that is going on, or None in a break and out of school."""
        for meeting in reversed(self.meetings_on(self.local_date(moment))):
            if meeting.starts <= moment < meeting.ends:
                return meeting
        return None

    def last_meeting_before(self, moment: datetime, period: int | None = None) -> Meeting | None:
        """Return the latest meeting (of a period, or of any) that had ended by a moment.

        None when there was none within a year.
        """
        for meeting in self._from(self.local_date(moment), -1):
            if meeting.ends <= moment and period in (None, meeting.period):
                return meeting
        return None

    def next_meeting_after(self, moment: datetime, period: int | None = None) -> Meeting | None:
        """Return the first meeting (of a period, or of any) that starts after a moment.

        None when there is none within a year.
        """
        for meeting in self._from(self.local_date(moment), 1):
            if meeting.starts > moment and period in (None, meeting.period):
                return meeting
        return None

    def school_day_ends(self, day: date) -> datetime | None:
        """Return when the last class of a date ends, or None when none meets."""
        meetings = self.meetings_on(day)
        return meetings[-1].ends if meetings else None

    def school_days_since(self, then: datetime, now: datetime) -> int:
        """Return how many school days have begun since: Friday to Monday is 1."""
        return self.days.between(self.local_date(then), self.local_date(now))

    def left_behind_from(
        self, hung_at: datetime, period: int, rule: LeftBehindRule
    ) -> datetime | None:
        """Return the moment from which a roll that still hangs counts as left behind.

        `day_end`: the end of the school day on which it was hung, or of the next one when it was
        hung after the last class or without school. `next_class`: the end of its period's first
        meeting that starts after it was hung, for its owner has had that class to fetch it; when
        no such class comes within a year, the end of the day counts. None when neither comes.
        """
        if rule == "next_class":
            fetching = self.next_meeting_after(hung_at, period)
            if fetching is not None:
                return fetching.ends
        day = self.local_date(hung_at)
        ends = self.school_day_ends(day)
        if ends is not None and hung_at < ends:
            return ends
        coming = self.next_meeting_after(hung_at)
        return None if coming is None else self.school_day_ends(self.local_date(coming.starts))

    def _from(self, day: date, step: Literal[1, -1]) -> Iterator[Meeting]:
        for _ in range(SEARCHED_DAYS + 1):
            yield from self.meetings_on(day)[::step]
            day += timedelta(days=step)


def local_date(moment: datetime, zone: tzinfo) -> date:
    """Return the date that a moment has in a zone.

    Raises ValueError for a datetime without a zone, which would mean another moment on every
    machine.
    """
    if moment.utcoffset() is None:
        raise ValueError(f"{moment} has no time zone")
    return moment.astimezone(zone).date()


def wall_to_utc(day: date, wall: time, zone: tzinfo) -> datetime:
    """Return the moment, in UTC, at which the clock on the wall shows a time.

    A time that spring skips is read with the offset before the change, and so moves forward by
    the length of the gap; of two in autumn it is the first (RFC 5545 section 3.3.5).
    """
    return datetime.combine(day, wall.replace(fold=0), zone).astimezone(UTC)


def zone_named(name: str) -> ZoneInfo:
    """Return a time zone by its name in the IANA time zone database.

    Raises Refused for a name that is not in it.
    """
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        raise Refused(
            f"“{name}” is no time zone because the time zone database does not know it: give one "
            "such as America/Chicago or Europe/Berlin"
        ) from None
