"""All that the screens show at one moment: read when the file has changed, judged each second."""

from collections import Counter
from datetime import datetime, timedelta
from typing import NamedTuple

from filmrack.desk.outlooks import (
    ClassOn,
    Fan,
    SweepSoFar,
    class_now,
    fans,
    room_warning,
    sweep_so_far,
)
from filmrack.domain.attention import Dryers, Standing
from filmrack.domain.names import Person
from filmrack.domain.roll import Roll, owner_of
from filmrack.domain.room import Room
from filmrack.domain.timetable import Meeting
from filmrack.store import fan, forecasts, people, rolls
from filmrack.store.clock import is_demo
from filmrack.store.file import DarkroomFile
from filmrack.store.lessons import dryers_for, learned_by


class Now(NamedTuple):
    """All that a screen shows at one moment, from one reading of the file."""

    at: datetime
    room: Room
    hanging: tuple[Standing, ...]
    tank: tuple[Standing, ...]
    people: dict[int, Person]
    class_on: ClassOn | None
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
    def wet(self) -> int:
        """Return how many rolls are wet by the clock."""
        return sum(each.state not in ("touch", "dry") for each in self.hanging)

    @property
    def to_touch(self) -> int:
        """Return how many are probably dry, and want a touch."""
        return sum(each.state == "touch" for each in self.hanging)

    @property
    def ready(self) -> int:
        """Return how many are dry and still hang."""
        return sum(each.state == "dry" for each in self.hanging)

    @property
    def left_behind(self) -> int:
        """Return how many were left behind."""
        return sum(each.left_behind for each in self.hanging)


class _Underway(NamedTuple):
    """What was read of the file: the rolls on rods and in tanks, and what judges them."""

    hung: list[Roll]
    tank: list[Roll]
    dryers: Dryers
    owners: dict[int, Person]
    sweep: SweepSoFar | None


class Lookout:
    """Reads the file for one desk, and judges what was read at each moment."""

    def __init__(self, file: DarkroomFile) -> None:
        self._file = file
        self._read: _Underway | None = None
        self._judged: Now | None = None
        """What was judged last: all that ask within one second, with nothing done, get the same."""
        self._hung_before: tuple[tuple[int, datetime], list[int]] | None = None
        """What the class that is on hung on its last days, read once a class."""

    def forget(self) -> None:
        """Read the file anew at the next look."""
        self._read = self._judged = None

    def at(self, now: datetime) -> Now:
        """Return all that screens show, judged at a second."""
        room = self._file.room()
        if self._judged is None or self._judged.at != now or self._judged.room is not room:
            if self._read is None:
                self._read = _read(self._file, room, now)
            self._judged = self._judge(self._read, room, now)
        return self._judged

    def _judge(self, read: _Underway, room: Room, now: datetime) -> Now:
        hanging = tuple(Standing(roll, room, read.dryers, now) for roll in read.hung)
        class_on = class_now(room, read.dryers, now)
        return Now(
            at=now,
            room=room,
            hanging=hanging,
            tank=tuple(Standing(roll, room, read.dryers, now) for roll in read.tank),
            people=read.owners,
            class_on=class_on,
            fans=fans(room, read.dryers.runs, hanging, now),
            warning=self._warning(read.hung, room, class_on.meeting) if class_on else None,
            demo=is_demo(self._file.conn),
            sweep=read.sweep,
            by_rod=_by_rod(hanging),
        )

    def _warning(self, hung: list[Roll], room: Room, meeting: Meeting) -> str | None:
        period, starts = meeting.period, meeting.starts
        if self._hung_before is None or self._hung_before[0] != (period, starts):
            counts = forecasts.hung_by_class(self._file.conn, room, period, starts)
            self._hung_before = (period, starts), counts
        taken = Counter(roll.place.number for roll in hung if roll.place.number is not None)
        today = sum(
            roll.period == period and roll.hung_at is not None and roll.hung_at >= starts
            for roll in hung
        )
        return room_warning(room, period, self._hung_before[1], today, taken)


def _read(file: DarkroomFile, room: Room, now: datetime) -> _Underway:
    conn = file.conn
    hung, tank = rolls.hanging(conn), rolls.in_tank(conn)
    dryers = dryers_for(conn, room, [*hung, *tank])
    learned = {d.number: dryers.learned.get(d.number) for d in room.dryers}
    runs = fan.runs(conn, now - timedelta(days=1))
    whole = Dryers(
        {**runs, **dryers.runs},
        {n: known or learned_by(conn, n) for n, known in learned.items()},
        dryers.counted,
        dryers.taken,
    )
    owners = people.read_people(conn, (r.person for r in (*hung, *tank) if r.person))
    hanging = [Standing(roll, room, whole, now) for roll in hung]
    return _Underway(hung, tank, whole, owners, sweep_so_far(conn, room, hanging))


def _by_rod(hanging: tuple[Standing, ...]) -> dict[int, dict[int, Standing]]:
    rods: dict[int, dict[int, Standing]] = {}
    for each in hanging:
        place = each.roll.place
        if place.number is not None and place.position is not None:
            rods.setdefault(place.number, {})[place.position] = each
    return rods
