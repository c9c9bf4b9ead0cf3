"""The dryer: its fan, its dial, and the effective minutes that a hanging roll has had.

Effective minutes pass at rate 1 while the fan runs and at a small rate while it stands still
(STILL_RATE, from memory and corrected by nothing, so never enough for "dry"). A roll's minutes are
kept apart by the way up it hung.
"""

import math
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from typing import NamedTuple, Self

from filmrack.domain.refusal import Refused

STILL_RATE = 0.1
"""Effective minutes that pass in one minute without the fan."""

OVERNIGHT_HOURS = 12.0
"""Film that hung so long is dry, where the room does not say otherwise; common practice."""

_MINUTE = timedelta(minutes=1)


class _FanSetting(NamedTuple):
    at: datetime
    hours: float
    assumed: bool = False


class FanSetting(_FanSetting):
    """The dial was turned to so many hours, or assumed to be; 0 hours is the fan found off.

    Raises Refused for hours that no dial has.
    """

    __slots__ = ()

    def __new__(cls, at: datetime, hours: float, assumed: bool = False) -> Self:
        """Check and keep a setting."""
        if not 0 <= hours < math.inf:
            raise Refused(
                f"the dial cannot be set to {hours:g} h because it counts hours from 0 "
                "upwards: give the hours that the dial shows"
            )
        return super().__new__(cls, at, hours, assumed)


class FanRun(NamedTuple):
    """The fan runs from one moment to another.

    `refuted` marks an assumed run that was cut short by what somebody saw: nobody knows
    whether it ran at all.
    """

    starts: datetime
    ends: datetime
    assumed: bool = False
    refuted: bool = False


class WayUp(NamedTuple):
    """A stretch on the rod one way up; `flipped` is False the first way up.

    `until` is None while the roll hangs there.
    """

    hung: datetime
    until: datetime | None = None
    flipped: bool = False


class Minutes(NamedTuple):
    """Effective minutes hung the first way up (`a`) and flipped (`b`)."""

    a: float
    b: float


def flipped_after(flip: float, minutes: float) -> Minutes:
    """Return what film has had of so many effective minutes that is flipped after `flip`."""
    return Minutes(min(minutes, flip), max(0.0, minutes - flip))


def fan_runs(settings: Iterable[FanSetting]) -> tuple[FanRun, ...]:
    """Fold the settings of one dryer into the runs of its fan, in time order and apart.

    A later setting replaces the run that is on from then on. An assumed run that a logged
    setting cuts short is refuted; one that is assumed to have stopped is not. Settings at the same
    moment count in the order given.
    """
    runs: list[FanRun] = []
    for setting in sorted(settings, key=lambda each: each.at):
        if runs and runs[-1].ends > setting.at:
            on = runs.pop()
            refuted = on.assumed and not setting.assumed
            if on.starts < setting.at:
                runs.append(on._replace(ends=setting.at, refuted=refuted))
        ends = setting.at + timedelta(hours=setting.hours)
        if ends > setting.at:
            runs.append(FanRun(setting.at, ends, setting.assumed))
    return tuple(runs)


def runs_met(stays: Iterable[tuple[WayUp, Iterable[FanRun]]]) -> tuple[FanRun, ...]:
    """Return the runs that a roll hung under which moved between dryers.

    `stays` in time order, each with the runs of the dryer it was in. Runs are cut to their stay;
    those of a stay that lasts are whole at their end.
    """
    return tuple(
        run._replace(
            starts=max(run.starts, stay.hung),
            ends=run.ends if stay.until is None else min(run.ends, stay.until),
        )
        for stay, runs in stays
        for run in runs
        if run.ends > stay.hung and (stay.until is None or run.starts < stay.until)
    )


def fan_until(runs: Iterable[FanRun], now: datetime) -> datetime | None:
    """Return when the fan that runs now will stop, or None when it stands still now."""
    until = None
    for run in runs:
        if run.starts <= (until or now) < run.ends:
            until = run.ends
    return until


def dial_hours(minutes: float, mark: float = 0.5) -> float:
    """Return the hours to turn the dial to for so many fan minutes: up to the next mark (h)."""
    return max(1, math.ceil(minutes / 60 / mark - 1e-9)) * mark


def minutes_hung(
    stays: Iterable[WayUp],
    runs: Sequence[FanRun],
    now: datetime,
    *,
    still_rate: float = STILL_RATE,
    refuted_count: bool = True,
) -> Minutes:
    """Return the effective minutes that a roll has had until now.

    `still_rate` is what a minute without the fan is worth. With `refuted_count` False the fan
    counts as off during refuted runs.
    """
    had = [0.0, 0.0]
    for stay in stays:
        end = now if stay.until is None else min(stay.until, now)
        if end <= stay.hung:
            continue
        fan = sum(
            (min(end, run.ends) - max(stay.hung, run.starts)) / _MINUTE
            for run in runs
            if run.ends > stay.hung and run.starts < end and (refuted_count or not run.refuted)
        )
        whole = (end - stay.hung) / _MINUTE
        had[stay.flipped] += fan + still_rate * (whole - fan)
    return Minutes(*had)
