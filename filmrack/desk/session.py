"""A desk's hold on the darkroom file: what it reads, judged anew each second."""

from __future__ import annotations

import os
import socket
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

from filmrack.acts.group import Hand
from filmrack.domain.attention import Dryers, Standing, standing
from filmrack.domain.bell import start_developing_by
from filmrack.domain.dryer import FanRun, fan_until
from filmrack.domain.names import Person
from filmrack.domain.roll import Roll
from filmrack.domain.room import Room
from filmrack.domain.timetable import Meeting
from filmrack.store import fan, people, rolls
from filmrack.store.clock import is_demo, now_in
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.lessons import dryers_for, learned_by

Clock = Callable[[], datetime]


@dataclass(frozen=True, slots=True)
class Now:
    """All that a screen shows at one moment, from one reading of the file."""

    at: datetime
    room: Room
    hanging: tuple[Standing, ...]
    tank: tuple[Standing, ...]
    people: dict[int, Person]
    meeting: Meeting | None
    fan_until: datetime | None
    fan_assumed: bool
    start_by: datetime | None
    """Until when to start developing, for film to leave dry; None outside class."""
    demo: bool
    by_rod: dict[int, dict[int, Standing]] = field(default_factory=dict)

    def owner(self, roll: Roll) -> Person | None:
        """Return whose a roll is, or None for an unknown one."""
        return None if roll.person is None else self.people.get(roll.person)

    @property
    def wet(self) -> int:
        """Return how many rolls are not dry yet."""
        return sum(each.state != "dry" for each in self.hanging)

    @property
    def ready(self) -> int:
        """Return how many are dry and still hang."""
        return sum(each.state == "dry" for each in self.hanging)

    @property
    def left_behind(self) -> int:
        """Return how many were left behind."""
        return sum(each.left_behind for each in self.hanging)


class Session:
    """One desk at one file; knows when somebody else has changed it."""

    def __init__(self, path: Path, machine: Clock, *, write: bool = True) -> None:
        self.path = path
        self._machine = machine
        self.file: DarkroomFile = open_file(path, write=write)
        self.desk = f"{socket.gethostname()} {os.getpid()}"
        self._version = -1
        self._reading: tuple[list[Roll], list[Roll], Dryers, dict[int, Person]] | None = None

    @property
    def now(self) -> datetime:
        """Return what time it is for this file."""
        return now_in(self.file.conn, self._machine())

    def hand(self) -> Hand:
        """Return the hand that acts at this desk now."""
        now = self.now
        return Hand(now, now, self.desk)

    def changed(self) -> bool:
        """Tell, once, whether another desk or the command line wrote to the file."""
        version: int = self.file.conn.execute("PRAGMA data_version").fetchone()[0]
        changed = version != self._version
        self._version = version
        if changed:
            self._reading = None
        return changed

    def acted(self) -> None:
        """Forget what was read: this desk has changed something itself."""
        self._reading = None

    def look(self) -> Now:
        """Return all that screens show, judged at this moment."""
        room, now = self.file.room(), self.now
        if self._reading is None:
            self._reading = self._read(room)
        hung, tank, dryers, owners = self._reading
        hanging = tuple(standing(roll, room, dryers, now) for roll in hung)
        runs = [run for its_runs in dryers.runs.values() for run in its_runs]
        return Now(
            at=now,
            room=room,
            hanging=hanging,
            tank=tuple(standing(roll, room, dryers, now) for roll in tank),
            people=owners,
            meeting=room.timetable.meeting_at(now),
            fan_until=fan_until(runs, now),
            fan_assumed=_assumed(runs, now),
            start_by=self._start_by(room, dryers, now),
            demo=is_demo(self.file.conn),
            by_rod=_by_rod(hanging),
        )

    def close(self) -> None:
        """Leave the file."""
        self.file.close()

    def _read(self, room: Room) -> tuple[list[Roll], list[Roll], Dryers, dict[int, Person]]:
        conn = self.file.conn
        hung = rolls.hanging(conn)
        tank = rolls.read(conn, "place = 'tank' AND sleeved_at IS NULL ORDER BY first_at, id")
        dryers = dryers_for(conn, room, hung)
        learned = {d.number: dryers.learned.get(d.number) for d in room.dryers}
        runs = fan.runs(conn, self.now - timedelta(days=1))
        whole = Dryers(
            {**runs, **dryers.runs},
            {n: known or learned_by(conn, n) for n, known in learned.items()},
            dryers.counted,
        )
        owners = people.read_people(conn, (r.person for r in (*hung, *tank) if r.person))
        return hung, tank, whole, owners

    def _start_by(self, room: Room, dryers: Dryers, now: datetime) -> datetime | None:
        meeting = room.timetable.meeting_at(now)
        if meeting is None:
            return None
        rods = room.rods_of(meeting.period)
        number = rods[0].dryer if rods else room.dryers[0].number
        return start_developing_by(
            meeting.ends,
            dryers.learned[number],
            room.rules.process_minutes,
            lag_minutes=room.rules.drying_lag_minutes,
        )


def _assumed(runs: list[FanRun], now: datetime) -> bool:
    return any(run.assumed for run in runs if run.starts <= now < run.ends)


def _by_rod(hanging: tuple[Standing, ...]) -> dict[int, dict[int, Standing]]:
    rods: dict[int, dict[int, Standing]] = {}
    for each in hanging:
        place = each.roll.place
        if place.number is not None and place.position is not None:
            rods.setdefault(place.number, {})[place.position] = each
    return rods
