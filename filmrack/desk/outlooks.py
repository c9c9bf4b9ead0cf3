"""What the top row knows of each class and dryer: when to start, when to hang, is there room."""

import sqlite3
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import NamedTuple

from filmrack.domain.attention import Dryers, Standing
from filmrack.domain.bell import latest_hang, minutes_to_likely_dry, start_developing_by
from filmrack.domain.dryer import FanRun, fan_until
from filmrack.domain.forecast import will_be_short
from filmrack.domain.room import Dryer, Rod, Room
from filmrack.domain.timetable import Meeting
from filmrack.store.begun import a_sweep_goes_on


class Fan(NamedTuple):
    """The fan of one dryer at a moment: `until` is None while it stands still."""

    dryer: Dryer
    until: datetime | None
    assumed: bool
    wet: int
    """How many rolls in this dryer are not dry yet."""


class ClassOn(NamedTuple):
    """The class that is on: until when to start developing and to hang, to leave dry."""

    meeting: Meeting
    start_by: datetime
    hang_by: datetime


class SweepSoFar(NamedTuple):
    """The sweep that goes on, at whichever desk: how many of its rods are through."""

    through: int
    rods: int


def sweep_so_far(
    conn: sqlite3.Connection, room: Room, hanging: Sequence[Standing]
) -> SweepSoFar | None:
    """Return how far the sweep is that was begun and not finished; None for none."""
    if not a_sweep_goes_on(conn):
        return None
    from filmrack.store import sweeps  # most of the day there is none
    from filmrack.store.unseen import rods_through

    going = sweeps.going_on(conn)
    if going is None:
        return None
    through = rods_through(conn, going.id, hanging)
    return SweepSoFar(len(through), len(room.rods_swept(going.period)))


def fans(
    room: Room, runs: Mapping[int, Sequence[FanRun]], hanging: Sequence[Standing], now: datetime
) -> tuple[Fan, ...]:
    """Return every dryer's fan."""
    wet: dict[int, int] = {}
    for each in hanging:
        if each.state != "dry" and each.roll.place.number is not None:
            number = room.dryer_of(each.roll.place.number).number
            wet[number] = wet.get(number, 0) + 1
    return tuple(
        Fan(
            dryer,
            fan_until(runs.get(dryer.number, ()), now),
            any(r.assumed for r in runs.get(dryer.number, ()) if r.starts <= now < r.ends),
            wet.get(dryer.number, 0),
        )
        for dryer in room.dryers
    )


def class_now(room: Room, dryers: Dryers, now: datetime) -> ClassOn | None:
    """Return the class that is on, or None between classes."""
    meeting = room.timetable.meeting_at(now)
    if meeting is None:
        return None
    rods = room.rods_of(meeting.period)
    learned = dryers.learned[rods[0].dryer if rods else room.dryers[0].number]
    process, lag = room.rules.process_minutes, room.rules.drying_lag_minutes
    return ClassOn(
        meeting,
        start_developing_by(meeting.ends, learned, process_minutes=process, lag_minutes=lag),
        latest_hang(meeting.ends, minutes_to_likely_dry(learned), lag),
    )


def room_warning(
    room: Room, period: int, counts: Sequence[int], hung_today: int, taken: Mapping[int, int]
) -> str | None:
    """Return `rod 3 will be full, use rod 8` when the class will want more room, else None.

    `taken` are the positions taken now, by rod.
    """
    own = room.rods_of(period)
    if not own:
        return None
    free = sum(rod.positions - taken.get(rod.number, 0) for rod in own)
    if not will_be_short(counts, hung_today, free):
        return None
    spare = _spare(room, taken)
    advice = f"use rod {spare.number}" if spare else "take down what is dry"
    return f"rod {own[0].number} will be full, {advice}"


def _spare(room: Room, taken: Mapping[int, int]) -> Rod | None:
    """The emptiest rod that is given to nobody, else the emptiest of all."""
    rods = sorted(
        room.rods,
        key=lambda rod: (rod.period is not None, taken.get(rod.number, 0) - rod.positions),
    )
    return next((rod for rod in rods if taken.get(rod.number, 0) < rod.positions), None)
