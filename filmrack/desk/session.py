"""A desk's hold on the darkroom file: what it reads, judged anew each second."""

from __future__ import annotations

import os
import socket
from collections import Counter
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from filmrack.desk.outlooks import (
    Class,
    Fan,
    SweepSoFar,
    class_now,
    fans,
    room_warning,
    sweep_so_far,
)
from filmrack.desk.watch import Watch
from filmrack.domain.attention import Dryers, Standing
from filmrack.domain.clock_doubt import doubt
from filmrack.domain.names import Person
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.roll import Roll, owner_of
from filmrack.domain.room import Room
from filmrack.domain.student_desk import By
from filmrack.domain.timetable import Meeting
from filmrack.store import desks, fan, forecasts, ledger, people, rolls
from filmrack.store.clock import is_demo, now_in
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.lessons import dryers_for, learned_by

if TYPE_CHECKING:
    from filmrack.acts.drying import Silence
    from filmrack.acts.group import Hand

_REGRET = timedelta(seconds=30)

Clock = Callable[[], datetime]


class Now(NamedTuple):
    """All that a screen shows at one moment, from one reading of the file."""

    at: datetime
    room: Room
    hanging: tuple[Standing, ...]
    tank: tuple[Standing, ...]
    people: dict[int, Person]
    lesson: Class | None
    """The class that is on; None between classes."""
    fans: tuple[Fan, ...]
    warning: str | None
    """That the class will want more room than its rods have."""
    demo: bool
    sweep: SweepSoFar | None
    by_rod: dict[int, dict[int, Standing]]

    def owner(self, roll: Roll) -> Person | None:
        """Return whose a roll is, or None for an unknown one."""
        return owner_of(roll, self.people)

    @property
    def meeting(self) -> Meeting | None:
        """Return the class that is on, or None."""
        return None if self.lesson is None else self.lesson.meeting

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
        self.machine = machine
        self.file: DarkroomFile = open_file(path, write=write)
        self.desk = f"{socket.gethostname()} {os.getpid()}"
        self.by: By = "teacher"
        self._watch = Watch(path)
        self._opened = self.now
        self._clock_believed = False
        self._did: tuple[int, datetime] | None = None
        self._beaten = False
        self._version = self.file.others_wrote()
        self.stamp = 0
        """Another number after each change of the file, for a screen that keeps a reading."""
        self._reading: tuple[list[Roll], list[Roll], Dryers, dict[int, Person]] | None = None
        self._sweep: SweepSoFar | None = None
        self._seen: Now | None = None
        """What was judged last: all that ask within one second, with nothing done, get the same."""
        self._hung: tuple[tuple[int, datetime], list[int]] | None = None
        """What the class that is on hung on its last days, read once a class."""

    @property
    def now(self) -> datetime:
        """Return what time it is for this file."""
        return now_in(self.file.conn, self.machine())

    def hand(self) -> Hand:
        """Return the hand that acts at this desk now.

        Raises FileTrouble when the file is no longer the one that was opened, Refused while the
        machine's clock is doubted.
        """
        from filmrack.acts.group import Hand  # the first screen acts on nothing

        self._watch.refuse_another()
        why = self.clock_doubt()
        if why is not None:
            raise Refused(
                f"the clock is doubted, for {why}: set the machine's clock, or type “clock”"
            )
        now = self.now
        return Hand(now, now, self.desk, self.by)

    def clock_doubt(self) -> str | None:
        """Return why the machine's clock is doubted; None once it was believed."""
        if self._clock_believed:
            return None
        conn = self.file.conn
        why = None
        if not is_demo(conn):
            newest, alive = ledger.latest_entered(conn), desks.last_beat(conn)
            why = doubt(newest, alive, self.now, self.file.room().timetable)
        self._clock_believed = why is None
        return why

    def believe_clock(self) -> None:
        """Take it from a person that the machine's clock is right."""
        self._clock_believed = True

    def beat(self) -> Silence | None:
        """Keep that this desk is alive, as long as its clock and its file are beyond doubt.

        Returns since when no desk had been alive before, if fans were taken as stopped for it.
        Raises FileTrouble as `hand` does.
        """
        from filmrack.acts.drying import stop_at_silence

        self._watch.refuse_another()
        if self.clock_doubt() is not None:
            return None
        silence = stop_at_silence(self.file, self.hand())
        with self.file.writing() as conn:
            desks.beat(conn, self.desk, self._opened, self.now)
        self._beaten = True
        if silence is not None:
            self.acted()
        return silence

    def changed(self) -> bool:
        """Tell, once, whether another desk or the command line wrote to the file."""
        version = self.file.others_wrote()
        changed = version != self._version
        self._version = version
        if changed:
            self.acted()
        return changed

    def did(self, roll: int | None) -> None:
        """Remember on which roll this desk acted last."""
        self._did = None if roll is None else (roll, self.now)

    @property
    def just_done(self) -> int | None:
        """Return the roll that a student desk may still take its act on back without a scan."""
        if self.by == "teacher" or self._did is None or self.now - self._did[1] > _REGRET:
            return None
        return self._did[0]

    def acted(self) -> None:
        """Forget what was read: the file is another now."""
        self.stamp += 1
        self._reading = self._seen = None

    def look(self) -> Now:
        """Return all that screens show, judged at this second.

        Raises FileTrouble when the file is no longer the one that was opened.
        """
        self._watch.refuse_another()
        room, now = self.file.room(), self.now
        if self._seen is None or self._seen.at != now or self._seen.room is not room:
            self._seen = self._judge(room, now)
        return self._seen

    def _judge(self, room: Room, now: datetime) -> Now:
        if self._reading is None:
            self._reading = self._read(room)
        hung, tank, dryers, owners = self._reading
        hanging = tuple(Standing(roll, room, dryers, now) for roll in hung)
        lesson = class_now(room, dryers, now)
        return Now(
            at=now,
            room=room,
            hanging=hanging,
            tank=tuple(Standing(roll, room, dryers, now) for roll in tank),
            people=owners,
            lesson=lesson,
            fans=fans(room, dryers.runs, hanging, now),
            warning=self._warning(room, lesson) if lesson else None,
            demo=is_demo(self.file.conn),
            sweep=self._sweep,
            by_rod=_by_rod(hanging),
        )

    def owner(self, roll: Roll) -> Person | None:
        """Return whose a roll is, or None for an unknown one."""
        numbers = [] if roll.person is None else [roll.person]
        return owner_of(roll, people.read_people(self.file.conn, numbers))

    def elsewhere(self, roll: int, now: Now) -> Standing | None:
        """Return how a roll stands that neither hangs nor is in a tank; its owner is known then."""
        from filmrack.store.standings import see  # the first screen shows none

        seen = see(self.file, rolls.by_ids(self.file.conn, [roll]), now.at)
        now.people.update(seen.people)
        return seen.standings[0] if seen.standings else None

    def close(self) -> None:
        """Leave the file, and keep that a hand closed this desk and no power cut."""
        if self._beaten:
            with suppress(FileTrouble):
                self._watch.refuse_another()
                with self.file.writing() as conn:
                    desks.close(conn, self.desk, self._opened, self.now)
        self.file.close()

    def _read(self, room: Room) -> tuple[list[Roll], list[Roll], Dryers, dict[int, Person]]:
        conn = self.file.conn
        self._sweep = sweep_so_far(conn, room)
        hung = rolls.hanging(conn)
        tank = rolls.in_tank(conn)
        dryers = dryers_for(conn, room, [*hung, *tank])
        learned = {d.number: dryers.learned.get(d.number) for d in room.dryers}
        runs = fan.runs(conn, self.now - timedelta(days=1))
        whole = Dryers(
            {**runs, **dryers.runs},
            {n: known or learned_by(conn, n) for n, known in learned.items()},
            dryers.counted,
            dryers.taken,
        )
        owners = people.read_people(conn, (r.person for r in (*hung, *tank) if r.person))
        return hung, tank, whole, owners

    def _warning(self, room: Room, lesson: Class) -> str | None:
        period = lesson.meeting.period
        if self._hung is None or self._hung[0] != (period, lesson.meeting.starts):
            counts = forecasts.hung_by_class(self.file.conn, room, period, lesson.meeting.starts)
            self._hung = ((period, lesson.meeting.starts), counts)
        assert self._reading is not None
        hung, _, _, _ = self._reading
        taken = Counter(roll.place.number for roll in hung if roll.place.number is not None)
        today = sum(
            roll.period == period
            and roll.hung_at is not None
            and roll.hung_at >= lesson.meeting.starts
            for roll in hung
        )
        return room_warning(room, period, self._hung[1], today, taken)


def _by_rod(hanging: tuple[Standing, ...]) -> dict[int, dict[int, Standing]]:
    rods: dict[int, dict[int, Standing]] = {}
    for each in hanging:
        place = each.roll.place
        if place.number is not None and place.position is not None:
            rods.setdefault(place.number, {})[place.position] = each
    return rods
