"""When a hanging roll that nothing more is done to comes to flip, to a touch, to dry.

"Dry" is said by estimate when its chance is high enough (`Learned.sure`) twice over: also as if
minutes without the fan and minutes of refuted runs were worth nothing. A tacky check is taken at
its word: the chance of having dried since is what counts from then on, and night and fallback
begin again.
"""

import math
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import lru_cache
from typing import NamedTuple

from filmrack.domain.dryer import STILL_RATE, FanRun, Minutes, Stay, minutes_hung
from filmrack.domain.drying import dryer_minutes
from filmrack.domain.learning import CheckedRoll, Learned
from filmrack.domain.posterior import Posterior, crossing
from filmrack.domain.touch import Check

LIKELY = 0.5
"""The chance from which a touch is worth while."""

_SECOND = timedelta(seconds=1)


class DryingRules(NamedTuple):
    """What a room decides about drying.

    `still_rate`: effective minutes in a minute without the fan; `overnight_hours` on the rod
    after which a roll is dry; `unproven_minutes`: fan minutes before which a dryer that has not
    taught enough calls nothing dry.
    """

    still_rate: float = STILL_RATE
    overnight_hours: float = 12.0
    unproven_minutes: float = 40.0


class Touch(NamedTuple):
    """A touch check of this roll at both ends, and when."""

    at: datetime
    dry: bool


class Course(NamedTuple):
    """The moments of a roll; None for what comes neither under the fan nor within the night.

    `posterior` is what is believed without this roll's own checks, `left_open` by how much these
    change its chance of being tacky.
    """

    posterior: Posterior
    left_open: float
    flip: datetime | None
    likely: datetime | None
    estimate: datetime | None
    overnight: datetime
    fan_ends: datetime


@lru_cache(maxsize=1024)
def course(
    *,
    stays: tuple[Stay, ...],
    runs: tuple[FanRun, ...],
    own: tuple[Touch, ...],
    learned: Learned,
    rules: DryingRules,
    counted: CheckedRoll | None,
) -> Course:
    """Work out the moments of a roll; remembered, so ask with the same Learned.

    `own` are its touch checks in time order; `counted` is the roll as it is counted in `learned`.
    """
    flipped = any(stay.flipped for stay in stays)
    surely = learned.sure(flipped=flipped)
    posterior = learned.posterior
    if counted is not None:
        posterior = posterior.without(counted.evidence)

    def had(at: datetime) -> Minutes:
        return minutes_hung(stays, runs, at, still_rate=rules.still_rate)

    def surely_had(at: datetime) -> Minutes:
        return minutes_hung(stays, runs, at, still_rate=0.0, refuted_count=False)

    start = stays[0].hung
    since = max((check.at for check in own if not check.dry), default=start)
    tacky, surely_tacky = had(since), surely_had(since)
    wet_then = 1 - posterior.p_dry(*tacky)
    surely_wet_then = 1 - posterior.p_dry(*surely_tacky)

    def likely(at: datetime) -> bool:
        return _dried_since(posterior.p_dry(*had(at)), wet_then) >= LIKELY

    def sure(at: datetime) -> bool:
        sure_minutes = surely_had(at)
        if learned.proven:
            enough = dryer_minutes(*sure_minutes) >= learned.least
        else:
            enough = sum(sure_minutes) - sum(surely_tacky) >= rules.unproven_minutes
        return (
            enough
            and _dried_since(posterior.p_dry(*sure_minutes), surely_wet_then) >= surely
            and _dried_since(posterior.p_dry(*had(at)), wet_then) >= surely
        )

    overnight = _overnight(stays, since, rules.overnight_hours)
    fan_ends = _fan_ends(runs, stays)
    horizon = max(overnight, fan_ends)
    return Course(
        posterior=posterior,
        left_open=posterior.left_open([Check(*had(check.at), check.dry) for check in own]),
        flip=None if flipped else _moment(lambda at: had(at).a >= learned.flip, start, horizon),
        likely=_moment(likely, since, horizon),
        estimate=_moment(sure, since, horizon),
        overnight=overnight,
        fan_ends=fan_ends,
    )


def _dried_since(p_dry: float, wet_then: float) -> float:
    """Return the chance of dry, given wet with chance `wet_then` at a check that said so."""
    if wet_then < 1e-9:  # the check contradicts all that is known: no estimate any more
        return 0.0
    return 1 - (1 - p_dry) / wet_then


def _overnight(stays: tuple[Stay, ...], since: datetime, hours: float) -> datetime:
    left = timedelta(hours=hours)
    for stay in stays[:-1]:
        until = stay.until or stay.hung
        left -= max(timedelta(0), until - max(stay.hung, since))
    return max(stays[-1].hung, since) + max(timedelta(0), left)


def _fan_ends(runs: tuple[FanRun, ...], stays: tuple[Stay, ...]) -> datetime:
    """Return when the fan that serves this roll stops for good, by the record."""
    return max([run.ends for run in runs] + [stays[-1].hung])


def _moment(reached: Callable[[datetime], bool], start: datetime, end: datetime) -> datetime | None:
    """Return the first moment, to the second, at which a condition that stays true is true."""
    if not reached(end):
        return None
    if reached(start):
        return start
    seconds = crossing(
        lambda each: reached(start + each * _SECOND), 0.0, (end - start) / _SECOND, to=1.0
    )
    return start + math.ceil(seconds) * _SECOND
