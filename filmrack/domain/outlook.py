"""What one hanging roll's state and times are: the one judge that all screens ask.

"Dry" is said by the roll's own latest touch check, by estimate (see course), or after a night on
the rod (12 h, common practice). The own latest check beats every estimate.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import datetime
from functools import cached_property, lru_cache
from typing import Literal

from filmrack.domain.course import Course, DryingRules
from filmrack.domain.dryer import FanRun, Minutes, WayUp
from filmrack.domain.drying import Ends, dry_fraction, dryer_minutes, ends
from filmrack.domain.learning import CheckedRoll, Learned
from filmrack.domain.refusal import Refused
from filmrack.domain.roll import TouchCheck

State = Literal["wet", "flip", "touch", "dry"]
KnownBy = Literal["touch", "estimate", "overnight"]

_remembered = lru_cache(maxsize=1024)(Course)


class Outlook:
    """How a hanging roll stands at one moment; worked out as far as it is asked for.

    `flip_at`, `likely_at`, `dry_at` are past or coming; None for what does not come before the
    fan runs out; `dry_at` is None too while only the night will do. `course` is what stays the
    same until something happens.
    """

    def __init__(self, course: Course, now: datetime) -> None:
        self.course = course
        self._now = now

    @cached_property
    def state(self) -> State:
        """Return how it is by touch, by estimate or of the night."""
        course, now = self.course, self._now
        if course.found_dry is not None or course.overnight <= now:
            return "dry"
        # What is surely dry is likely dry: the later moment is asked for once the earlier is past.
        if course.likely_by(now):
            return "dry" if course.dry_by(now) else "touch"
        return "flip" if course.flip_by(now) else "wet"

    @cached_property
    def by(self) -> KnownBy | None:
        """Return what says "dry", if it is."""
        if self.state != "dry":
            return None
        if self.course.found_dry is not None:
            return "touch"
        return "estimate" if self._by_estimate else "overnight"

    @property
    def flip_at(self) -> datetime | None:
        """Return when to flip it."""
        return self.course.timely(self.course.flip, self._now)

    @property
    def likely_at(self) -> datetime | None:
        """Return when a touch is worth while."""
        return self.course.timely(self.course.likely, self._now)

    @cached_property
    def dry_at(self) -> datetime | None:
        """Return when "dry" is said."""
        course = self.course
        if course.found_dry is not None:
            return course.found_dry
        moment = course.estimate if self._by_estimate else course.overnight
        return moment if self.state == "dry" else course.timely(moment, self._now)

    @cached_property
    def had(self) -> Minutes:
        """Return the effective minutes so far."""
        return self.course.had(self._now)

    @property
    def dryer_minutes(self) -> float:
        """Return the dryer minutes so far: time, not water."""
        return dryer_minutes(self.had.a, self.had.b)

    @property
    def top_fraction(self) -> float:
        """Return how far, from 0 to 1, the end is that hangs at the top."""
        return dry_fraction(self._ends.top, self.course.learned.median)

    @property
    def bottom_fraction(self) -> float:
        """Return how far, from 0 to 1, the end is that hangs at the bottom."""
        return dry_fraction(self._ends.bottom, self.course.learned.median)

    @property
    def found_tacky(self) -> bool:
        """Tell whether the last finger on it found it tacky."""
        return bool(self.course.own) and self.course.found_dry is None

    @property
    def p_dry(self) -> float:
        """Return the chance that it is dry, allowing for a wrong check of its own."""
        course = self.course
        return 1 - course.left_open * (1 - course.posterior.p_dry(*self.had))

    @property
    def _by_estimate(self) -> bool:
        course = self.course
        return course.estimate is not None and course.estimate <= course.overnight

    @cached_property
    def _ends(self) -> Ends:
        return ends(self.had.a, self.had.b, flipped=self.course.stays[-1].flipped)


def not_dry_words(states: Iterable[str | None]) -> str:
    """Return what is not known to be dry: `5 wet, 3 to touch`; nothing where all of it is.

    What is to touch is probably dry, so that it is never called wet.
    """
    many = Counter("to touch" if state == "touch" else "wet" for state in states if state != "dry")
    return ", ".join(f"{many[what]} {what}" for what in ("wet", "to touch") if many[what])


def how_not_dry(state: str | None) -> str:
    """Return how one roll is that is not known to be dry; the same two apart."""
    return "probably dry" if state == "touch" else "wet by the clock"


def course_of(
    stays: Sequence[WayUp],
    runs: Sequence[FanRun],
    checks: Sequence[TouchCheck],
    learned: Learned,
    *,
    rules: DryingRules | None = None,
    counted: CheckedRoll | None = None,
) -> Course:
    """Return the course of a hanging roll; remembered, so ask with the same `learned`.

    `stays` in time order; `checks` are its own. `counted` is this roll as it is counted in
    `learned`, if it is, so that its checks do not count twice.

    Raises Refused for a roll that never hung.
    """
    if not stays:
        raise Refused("a roll that does not hang has no drying times: hang it first")
    own = tuple(sorted(checks, key=lambda check: check.at))
    return _remembered(
        stays=tuple(stays),
        runs=tuple(run for run in runs if run.ends > stays[0].hung),
        own=own,
        learned=learned,
        rules=rules or DryingRules(),
        counted=counted if own else None,
    )
