"""How a roll stands: dry or not, left behind or not, and why it wants attention."""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, timedelta
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from filmrack.domain import dryer
from filmrack.domain.clock import clock
from filmrack.domain.course import Course, DryingRules
from filmrack.domain.dryer import FanRun
from filmrack.domain.learning import CheckedRoll, Learned
from filmrack.domain.next_step import Step, next_step
from filmrack.domain.outlook import Outlook, course_of
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room

if TYPE_CHECKING:  # what a roll on its way never needs is imported where it is
    from filmrack.domain.bell import DryByBell
    from filmrack.domain.places import Places

URGENCY = (
    "flip due",
    "touch check due",
    "ready",
    "left behind",
    "on the wrong rod",
    "in the wrong box",
    "missing",
    "loan overdue",
    "long in its box",
    "long with its owner",
    "no contact sheet yet",
    "unknown roll",
)
"""Why a roll wants attention, the most urgent first."""


class Dryers(NamedTuple):
    """What is known of each dryer, by its number: the runs of its fan, what it has taught.

    `counted` are rolls that hang now and were counted in what it has taught; `taken` returns the
    places on the rods that are not free, which few ask for.
    """

    runs: Mapping[int, Sequence[FanRun]]
    learned: Mapping[int, Learned]
    counted: Mapping[int, CheckedRoll]
    taken: Callable[[], "Places"] = frozenset


class Standing:
    """A roll with all that follows from its record at one moment, worked out when it is asked for.

    A lookup asks for two or three of these, and never waits for the others.
    """

    def __init__(self, roll: Roll, room: Room, dryers: Dryers, now: datetime) -> None:
        self.roll = roll
        self._room = room
        self._dryers = dryers
        self._now = now

    def at(self, moment: datetime) -> "Standing":
        """Return how it stands at another moment, by the same record."""
        return Standing(self.roll, self._room, self._dryers, moment)

    @cached_property
    def outlook(self) -> Outlook | None:
        """Return how it dries; None unless it hangs."""
        if self.roll.place.kind != "rod":
            return None
        return Outlook(self._course(self._stays), self._now)

    @property
    def state(self) -> str | None:
        """Return wet, flip, touch or dry while it hangs."""
        return None if self.outlook is None else self.outlook.state

    @property
    def dry_words(self) -> str:
        """Return whether it can be taken: `dry`, `not dry until about 14:20`; empty where only a
        touch tells, and for what does not hang.
        """
        if self.outlook is None or self.state == "touch":
            return ""
        if self.state == "dry":
            return "dry"
        likely = self.outlook.likely_at
        if likely is None or likely <= self._now:
            return "not dry"
        return f"not dry until about {clock(likely, self._room.timetable.zone, self._now)}"

    @property
    def left_behind(self) -> bool:
        """Tell whether it still hangs though it should have been fetched."""
        return self._left_from is not None and self._left_from <= self._now

    @cached_property
    def why(self) -> tuple[tuple[str, datetime], ...]:
        """Return each reason for attention with the moment since when, most urgent first."""
        why = _reasons(self.roll, self._room, self.outlook, self._now)
        if self.left_behind and self._left_from is not None:
            why = [each for each in why if each[0] != "ready"]
            why.append(("left behind", self._left_from))
        return tuple(sorted(why, key=lambda each: URGENCY.index(each[0])))

    @property
    def urgency(self) -> tuple[int, datetime]:
        """Return a key that sorts the most urgent first."""
        why, since = self.why[0] if self.why else (URGENCY[-1], self.roll.since)
        return URGENCY.index(why), since

    @cached_property
    def next(self) -> Step:
        """Return its next step."""
        return next_step(self.roll, self._room, self.outlook, self._dryers.taken, self._now)

    @cached_property
    def before_bell(self) -> "DryByBell | None":
        """Tell whether it is dry before the bell if it is flipped in time.

        None unless it hangs, and when no class is on.
        """
        now, hangs = self._now, self.roll.place.kind == "rod"
        meeting = self._room.timetable.meeting_at(now) if hangs else None
        if meeting is None:
            return None
        course = self._course(self._stays)
        if course.dry_by(now):
            return "yes"
        flip_at = course.timely(course.flip, now)
        if flip_at is not None and not self._stays[-1].flipped:
            # A flip that is overdue is taken to come with the next full minute, so that the answer
            # is worked out once a minute and not each second.
            minute = now.replace(second=0, microsecond=0) + timedelta(minutes=1)
            turned = flip_at if flip_at > now else minute
            *before, last = self._stays
            course = self._course(
                (*before, last._replace(until=turned), dryer.WayUp(turned, flipped=True))
            )
        from filmrack.domain.bell import before_bell

        return before_bell(meeting.ends, course, now, self._room.rules.drying_lag_minutes)

    @cached_property
    def _left_from(self) -> datetime | None:
        roll, room = self.roll, self._room
        if roll.place.kind != "rod" or roll.hung_at is None:
            return None
        return room.timetable.left_behind_from(
            roll.hung_at, roll.period or 0, room.rules.left_behind
        )

    @cached_property
    def _stays(self) -> tuple[dryer.WayUp, ...]:
        return tuple(stay.way_up for stay in self.roll.stays)

    def _course(self, stays: Sequence[dryer.WayUp]) -> Course:
        """Return the course of a hanging roll, had it hung, or were it to hang, so."""
        roll, dryers = self.roll, self._dryers
        numbers = [self._room.dryer_of(stay.rod).number for stay in roll.stays]
        runs: Sequence[FanRun] = dryers.runs.get(numbers[-1], ())
        if len({*numbers}) > 1:
            each = (dryers.runs.get(number, ()) for number in numbers)
            runs = dryer.runs_met(zip(self._stays, each, strict=True))
        return course_of(
            stays,
            runs,
            [*roll.checks],
            dryers.learned[numbers[-1]],
            rules=drying_rules(self._room),
            counted=dryers.counted.get(roll.id),
        )


def drying_rules(room: Room) -> DryingRules:
    """Return what the room's rules say of drying."""
    return DryingRules(overnight_hours=room.rules.overnight_hours)


def _reasons(
    roll: Roll, room: Room, drying: Outlook | None, now: datetime
) -> list[tuple[str, datetime]]:
    reasons: list[tuple[str, datetime]] = []
    if drying is not None:
        match drying.state:
            case "flip":
                reasons.append(("flip due", drying.flip_at or now))
            case "touch":
                reasons.append(("touch check due", drying.likely_at or now))
            case "dry":
                reasons.append(("ready", drying.dry_at or now))
        if _astray(roll, room):
            reasons.append(("on the wrong rod", roll.since))
    if roll.person is None and roll.filed_at is None:
        reasons.append(("unknown roll", roll.first_at))
    if roll.place.kind == "missing":
        reasons.append(("missing", roll.seen_at))
    if roll.loan is not None:
        from filmrack.domain.loans import overdue

        if overdue(roll, room, now):
            reasons.append(("loan overdue", roll.loan.at))
    if roll.place.kind == "box" and _wrong_box(roll, room):
        reasons.append(("in the wrong box", roll.since))
    rules = room.rules
    long_uncut = {"box": "long in its box", "owner": "long with its owner"}.get(roll.place.kind)
    if (
        long_uncut is not None
        and room.timetable.school_days_since(roll.since, now) > rules.box_school_days
    ):
        reasons.append((long_uncut, roll.since))
    if (
        roll.sleeved_at is not None
        and not roll.sheets
        and roll.place.kind == "sleeve"
        and room.timetable.school_days_since(roll.sleeved_at, now) > rules.contact_school_days
    ):
        reasons.append(("no contact sheet yet", roll.sleeved_at))
    return reasons


def _astray(roll: Roll, room: Room) -> bool:
    """Tell whether a roll hangs on another period's rod, and not because Filmrack said so."""
    rod = room.rod(roll.place.number or 0)
    return (
        not roll.sent
        and rod is not None
        and None not in (rod.period, roll.period)
        and rod.period != roll.period
    )


def _wrong_box(roll: Roll, room: Room) -> bool:
    box = room.box(roll.place.number or 0)
    return box is not None and roll.period is not None and box.period != roll.period
