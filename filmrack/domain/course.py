"""When a hanging roll that nothing more is done to comes to flip, to a touch, to dry.

"Dry" is said by estimate when its chance is high enough (`Learned.sure`) twice over: also as if
minutes without the fan and minutes of refuted runs were worth nothing. A tacky check is taken at
its word: the chance of having dried since is what counts from then on, and night and fallback
begin again. One that gainsays all that is known leaves no such chance: only another touch or the
night tells then.
"""

import math
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from filmrack.domain.crossing import crossing
from filmrack.domain.dryer import OVERNIGHT_HOURS, FanRun, Minutes, WayUp, minutes_hung
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.learning import CheckedRoll, Learned
from filmrack.domain.posterior import TELLS_APART
from filmrack.domain.roll import TouchCheck
from filmrack.domain.touch import TimedCheck

LIKELY = 0.5
"""The chance from which a touch is worth while."""

_Chance = Callable[[float, float], float]
"""From effective minutes the first way up and flipped to how likely film is dry after them."""
_Value = Callable[[datetime, _Chance], float]
"""What is 0 or above from a moment on that is sought."""

_MINUTE, _SECOND = timedelta(minutes=1), timedelta(seconds=1)


class DryingRules(NamedTuple):
    """By what drying is judged before a dryer has taught anything.

    `overnight_hours`, the room's own: on the rod after which a roll is dry; `unproven_minutes`: fan
    minutes before which a dryer that has not taught enough calls nothing dry.
    """

    overnight_hours: float = OVERNIGHT_HOURS
    unproven_minutes: float = 40.0


class Course:
    """How a roll dries if nothing more is done to it; worked out as far as it is asked for.

    `flip`, `likely` and `estimate` are moments, None for what comes neither under the fan nor
    within the night. `posterior` is what is believed without this roll's own checks, `own`, in
    time order, and `found_dry` when the last of these said "dry", if it did; `counted` is the roll
    as it is counted in `learned`.
    """

    def __init__(
        self,
        *,
        stays: tuple[WayUp, ...],
        runs: tuple[FanRun, ...],
        own: tuple[TouchCheck, ...],
        learned: Learned,
        rules: DryingRules,
        counted: CheckedRoll | None,
    ) -> None:
        self.stays, self.own = stays, own
        self.found_dry = own[-1].at if own and own[-1].dry else None
        self.posterior = learned.posterior
        if counted is not None:
            self.posterior = self.posterior.without(counted.evidence)
        self.learned = learned
        self._runs, self._rules, self._counted = runs, rules, counted
        self._flipped = any(stay.flipped for stay in stays)
        self._since = max((check.at for check in own if not check.dry), default=stays[0].hung)
        self.overnight = _overnight(stays, self._since, rules.overnight_hours)
        self.fan_ends = _fan_ends(runs, stays)
        self._horizon = max(self.overnight, self.fan_ends)
        self._had: tuple[datetime, Minutes] | None = None
        self._wet_then = self._surely_wet_then = 1.0
        if self._since > stays[0].hung:
            self._wet_then -= self.posterior.p_dry(*self.had(self._since))
            self._surely_wet_then -= self.posterior.p_dry(*self._surely_had(self._since))
        self._looked: dict[str, datetime] = {}

    @property
    def past_telling(self) -> bool:
        """Tell whether a tacky check came when nothing but dry was likely: nothing is estimated."""
        return self._wet_then < TELLS_APART

    def had(self, at: datetime) -> Minutes:
        """Return the effective minutes until a moment; most ask for the same one several times."""
        known = self._had
        if known is None or known[0] != at:
            known = self._had = at, minutes_hung(self.stays, self._runs, at)
        return known[1]

    def _surely_had(self, at: datetime) -> Minutes:
        return minutes_hung(self.stays, self._runs, at, still_rate=0.0, refuted_count=False)

    @cached_property
    def left_open(self) -> float:
        """By how much its own checks change its chance of being tacky."""
        checks = [TimedCheck(*self.had(check.at), check.dry) for check in self.own]
        return self.posterior.left_open(checks)

    @cached_property
    def flip(self) -> datetime | None:
        """When to flip it; None too when it was flipped, or called dry and found tacky then."""
        if self._flipped or self._was_dry:
            return None
        return self._moment(self._half, self.stays[0].hung, 1)

    @cached_property
    def likely(self) -> datetime | None:
        """When a touch is worth while."""
        return self._moment(self._likely, self._since, 2)

    @cached_property
    def estimate(self) -> datetime | None:
        """When "dry" is said by estimate."""
        return self._moment(self._sure, self._since, 4)

    def flip_by(self, at: datetime) -> bool:
        """Tell whether it is to be flipped at a moment."""
        hangs = not self._flipped and at >= self.stays[0].hung
        return hangs and self._come("flip", self._half, at) and not self._was_dry

    @cached_property
    def _was_dry(self) -> bool:
        """Tell whether a night or the estimate called it dry before a finger found it tacky, or a
        finger did and it was taken down: both its ends have had all that turning it over gives.
        """
        since = self._since
        if since == self.stays[0].hung:
            return False
        put_back = self.stays[-1].hung
        before = Course(
            stays=tuple(stay for stay in self.stays if stay.hung < since),
            runs=self._runs,
            own=tuple(c for c in self.own if c.at < since and (c.at < put_back or not c.dry)),
            learned=self.learned,
            rules=self._rules,
            counted=self._counted,
        )
        return before.dry_by(since) or before._was_dry

    def likely_by(self, at: datetime) -> bool:
        """Tell whether a touch is worth while at a moment."""
        return at >= self._since and self._come("likely", self._likely, at)

    def dry_by(self, at: datetime) -> bool:
        """Tell whether "dry" is said at a moment, by its own touch, by estimate or of the night."""
        if self.found_dry is not None:
            return at >= self.found_dry
        if at < self._since:
            return False
        return at >= self.overnight or self._come("estimate", self._sure, at)

    def _come(self, name: str, value: _Value, at: datetime) -> bool:
        """Tell whether a moment has come. One look tells who asks of one time, mostly a rough one;
        who asks of another will ask each second, so the moment itself is worked out.
        """
        if self._looked.setdefault(name, at) == at:
            posterior, asked = self.posterior, False

            def at_least(a: float, b: float) -> float:
                nonlocal asked
                asked = True
                return posterior.p_dry_at_least(a, b)

            if self._wet_then < 1:  # what a bound is off by counts many times behind a tacky check
                return value(at, posterior.p_dry) >= 0
            return value(at, at_least) >= 0 or (asked and value(at, posterior.p_dry) >= 0)
        moment: datetime | None = getattr(self, name)
        return moment is not None and moment <= at

    def timely(self, moment: datetime | None, now: datetime) -> datetime | None:
        """Return a moment unless the fan has run out by then."""
        return None if moment is None or moment > max(now, self.fan_ends) else moment

    def _half(self, at: datetime, _: _Chance) -> float:
        return self.had(at).a - self.learned.flip

    def _likely(self, at: datetime, p_dry: _Chance) -> float:
        minutes = self.had(at)
        if self.posterior is self.learned.posterior:
            # No film dries sooner than flipped exactly halfway, and half of that needs the median.
            beyond = sum(minutes) - self.learned.median
            if beyond < 0:
                return beyond
        return _dried_since(p_dry(*minutes), self._wet_then) - LIKELY

    def _sure(self, at: datetime, p_dry: _Chance) -> float:
        minutes, sure_minutes = self.had(at), self._surely_had(at)
        if self.learned.proven:
            beyond = dryer_minutes(*sure_minutes) - self.learned.least
        else:
            before = self._surely_had(self._since) if self._since > self.stays[0].hung else ()
            beyond = sum(sure_minutes) - sum(before) - self._rules.unproven_minutes
        if beyond < 0:
            return beyond
        surely = self.learned.sure(flipped=self._flipped)
        dried = _dried_since(p_dry(*sure_minutes), self._surely_wet_then) - surely
        if dried < 0 or (minutes == sure_minutes and self._wet_then == self._surely_wet_then):
            return dried
        return min(dried, _dried_since(p_dry(*minutes), self._wet_then) - surely)

    def _moment(self, value: _Value, start: datetime, medians: float) -> datetime | None:
        """Return the first moment, to the second, when a value has come to 0, where it must stay.

        So many times the minutes that half the rolls need is how long it takes as a rule: fewer
        moments are looked at when it does.
        """
        p_dry, whole = self.posterior.p_dry, (self._horizon - start) / _SECOND
        as_a_rule = medians * self.learned.median * _MINUTE / _SECOND
        for low, high in pairwise((0.0, min(as_a_rule, whole), whole)):
            seconds = crossing(lambda each: value(start + each * _SECOND, p_dry), low, high, to=1.0)
            if seconds is not None:
                found = start + math.ceil(seconds) * _SECOND
                before = found - _SECOND
                return before if before >= start and value(before, p_dry) >= 0 else found
        return None


def _dried_since(p_dry: float, wet_then: float) -> float:
    """Return the chance of dry, given wet with chance `wet_then` at a check that said so."""
    if wet_then < TELLS_APART:
        return 0.0
    return 1 - (1 - p_dry) / wet_then


def _overnight(stays: tuple[WayUp, ...], since: datetime, hours: float) -> datetime:
    left = timedelta(hours=hours)
    for stay in stays[:-1]:
        until = stay.until or stay.hung
        left -= max(timedelta(0), until - max(stay.hung, since))
    return max(stays[-1].hung, since) + max(timedelta(0), left)


def _fan_ends(runs: tuple[FanRun, ...], stays: tuple[WayUp, ...]) -> datetime:
    """Return when the fan that serves this roll stops for good, by the record."""
    return max([run.ends for run in runs] + [stays[-1].hung])
