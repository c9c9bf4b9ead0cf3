"""What one hanging roll's state and times are: the one judge that all screens ask.

"Dry" is said by the roll's own latest touch check, by estimate (see course), or after a night on
the rod (12 h, common practice). The own latest check beats every estimate.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import Literal, NamedTuple

from filmrack.domain.course import Course, DryingRules, Touch, course
from filmrack.domain.dryer import FanRun, Minutes, Stay
from filmrack.domain.drying import dry_fraction, dryer_minutes, ends
from filmrack.domain.learning import CheckedRoll, Learned
from filmrack.domain.refusal import Refused

State = Literal["wet", "flip", "check", "dry"]
By = Literal["touch", "estimate", "overnight"]
End = Literal["top", "bottom"]


class Outlook(NamedTuple):
    """How a hanging roll stands.

    `flip_at`, `likely_at`, `dry_at` are past or coming; None for what does not come before the
    fan runs out; `dry_at` is None too while only the night will do. `top_fraction` and
    `bottom_fraction` (0 to 1) are the ends as they hang now. `fan_runs_out`: the fan stops before
    "dry" can be said by estimate. `had` are the minutes so far, `course` is what stays the same
    until something happens.
    """

    state: State
    by: By | None
    flip_at: datetime | None
    likely_at: datetime | None
    dry_at: datetime | None
    top_fraction: float
    bottom_fraction: float
    slow_end: End
    fan_runs_out: bool
    had: Minutes
    course: Course

    @property
    def overnight_at(self) -> datetime:
        """Return when the night on the rod is over."""
        return self.course.overnight

    @property
    def dryer_minutes(self) -> float:
        """Return the dryer minutes so far: time, not water."""
        return dryer_minutes(self.had.a, self.had.b)

    @property
    def p_dry(self) -> float:
        """Return the chance that it is dry, allowing for a wrong check of its own."""
        way = self.course
        return 1 - way.left_open * (1 - way.posterior.p_dry(*self.had))


def outlook(
    stays: Sequence[Stay],
    runs: Sequence[FanRun],
    checks: Sequence[Touch],
    learned: Learned,
    now: datetime,
    *,
    rules: DryingRules | None = None,
    counted: CheckedRoll | None = None,
) -> Outlook:
    """Judge a hanging roll at one moment.

    `stays` in time order; `checks` are its own. `counted` is this roll as it is counted in
    `learned`, if it is, so that its checks do not count twice. Everything but `now` is worked
    out once per change of the record and remembered.

    Raises Refused for a roll that never hung.
    """
    way = way_of(stays, runs, checks, learned, rules=rules, counted=counted)
    return outlook_at(way, now)


def way_of(
    stays: Sequence[Stay],
    runs: Sequence[FanRun],
    checks: Sequence[Touch],
    learned: Learned,
    *,
    rules: DryingRules | None = None,
    counted: CheckedRoll | None = None,
) -> Course:
    """Return the course of a hanging roll: see `outlook`."""
    if not stays:
        raise Refused("A roll that does not hang has no drying times: hang it first.")
    own = tuple(sorted(checks, key=lambda check: check.at))
    return course(
        stays=tuple(stays),
        runs=tuple(run for run in runs if run.ends > stays[0].hung),
        own=own,
        learned=learned,
        rules=rules or DryingRules(),
        counted=counted if own else None,
    )


def outlook_at(way: Course, now: datetime) -> Outlook:
    """Judge a roll of which the course is known: see `outlook`."""
    had = way.had(now)
    state, by, dry_at = _said(way, now)
    at = ends(had.a, had.b, flipped=way.stays[-1].flipped)
    return Outlook(
        state=state,
        by=by,
        flip_at=way.timely(way.flip, now),
        likely_at=way.timely(way.likely, now),
        dry_at=dry_at,
        top_fraction=dry_fraction(at.top, way.learned.median),
        bottom_fraction=dry_fraction(at.bottom, way.learned.median),
        slow_end="top" if at.top < at.bottom else "bottom",
        fan_runs_out=dry_at is None,
        had=had,
        course=way,
    )


def _said(way: Course, now: datetime) -> tuple[State, By | None, datetime | None]:
    """Return the state, what says "dry", and when that is said."""
    if way.own and way.own[-1].dry:
        return "dry", "touch", way.own[-1].at
    by_estimate = way.estimate is not None and way.estimate <= way.overnight
    dry_at = way.estimate if by_estimate else way.overnight
    if dry_at is not None and dry_at <= now:
        return "dry", "estimate" if by_estimate else "overnight", dry_at
    coming = way.timely(dry_at, now)
    if way.likely is not None and way.likely <= now:
        return "check", None, coming
    if way.flip is not None and way.flip <= now:
        return "flip", None, coming
    return "wet", None, coming
