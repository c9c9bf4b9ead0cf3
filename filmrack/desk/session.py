"""A desk's hold on the darkroom file: the hand that acts here, its clock, and what it reads."""

from __future__ import annotations

import os
import socket
from collections.abc import Callable, Collection
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from filmrack.desk.now import Lookout, Now
from filmrack.desk.opened_file import OpenedFile
from filmrack.desk.said import headline
from filmrack.domain.attention import Standing
from filmrack.domain.names import Person
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.roll import Roll, owner_of
from filmrack.domain.student_desk import By
from filmrack.store import people, rolls
from filmrack.store.clock import is_demo, now_in
from filmrack.store.file import DarkroomFile, open_file

if TYPE_CHECKING:
    from filmrack.acts.drying import Silence
    from filmrack.acts.group import Hand

_REGRET = timedelta(seconds=30)

Clock = Callable[[], datetime]


class Session:
    """One desk at one file; knows when somebody else has changed it."""

    def __init__(self, path: Path, machine: Clock, *, write: bool = True) -> None:
        self.path = path
        self.machine = machine
        self.file: DarkroomFile = open_file(path, write=write)
        self.desk = f"{socket.gethostname()} {os.getpid()}"
        self.by: By = "teacher"
        self._opened_file = OpenedFile(path)
        self._opened = self.now
        self._clock_believed = False
        self._did: tuple[int, datetime] | None = None
        self.being_done = ""
        """Long work of this desk that is not on the ledger yet, as `term 26F is being closed`."""
        self.beyond_undo = ""
        """What this desk did last that undo cannot take back; empty for an act of the ledger."""
        self._beaten = False
        self._version = self.file.others_wrote()
        self.stamp = 0
        """Another number after each change of the file, for a screen that keeps a reading."""
        self._reading = Lookout(self.file)

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

        self._opened_file.refuse_another()
        why = self.clock_doubt()
        if why is not None:
            raise Refused(
                f"the clock is doubted, for {why}: set the machine's clock, or type “clock”"
            )
        now = self.now
        return Hand(now, now, self.desk, self.by)

    def refuse_students(self, why: str) -> None:
        """Raise Refused with these words on a desk that is not the teacher's."""
        if self.by != "teacher":
            raise Refused(why)

    def clock_doubt(self) -> str | None:
        """Return why the machine's clock is doubted; None once it was believed."""
        if self._clock_believed:
            return None
        conn = self.file.conn
        why = None
        if not is_demo(conn):
            from filmrack.domain.clock_doubt import doubt  # the first screen acts on nothing
            from filmrack.store import desks, ledger

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
        from filmrack.store import desks

        self._opened_file.refuse_another()
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
        self._reading.forget()

    def look(self) -> Now:
        """Return all that screens show, judged at this second.

        Raises FileTrouble when the file is no longer the one that was opened.
        """
        self._opened_file.refuse_another()
        return self._reading.at(self.now)

    def closed_terms(self) -> Collection[str]:
        """Return the terms that are closed: of their rolls nothing is changed."""
        from filmrack.store.terms import closed

        return closed(self.file.conn).keys()

    def closed_words(self, roll: Roll) -> str:
        """Return that a roll's term is closed and what to do; empty while it is open."""
        if roll.term not in self.closed_terms():
            return ""
        return (
            f"term {roll.term} is closed, so nothing of it changes: “reopen term {roll.term}” first"
        )

    @property
    def term_in_force(self) -> str:
        """Return the code of the term of today; empty before the first one."""
        term = self.file.room().term_at(self.now)
        return "" if term is None else term.code

    def binder(self, term: str, number: int) -> str:
        """Return a binder as it is said today: with its term where that is not the one in force."""
        from filmrack.domain.binder import binder_called

        return binder_called(term, number, self.term_in_force)

    def owner(self, roll: Roll) -> Person | None:
        """Return whose a roll is, or None for an unknown one."""
        numbers = [] if roll.person is None else [roll.person]
        return owner_of(roll, people.read_people(self.file.conn, numbers))

    def headline(self, roll: Roll) -> str:
        """Return whom an answer means, as every desk may show it: `17 → Mara O.`."""
        return headline(roll, self.owner(roll))

    def standing(self, roll: Roll) -> Standing:
        """Return how a roll stands at this second, wherever it is."""
        from filmrack.store.standings import see  # the first screen shows none

        (standing,) = see(self.file, [roll], self.now).standings
        return standing

    def elsewhere(self, roll: int, now: Now) -> Standing | None:
        """Return how a roll stands that neither hangs nor is in a tank; its owner is known then."""
        from filmrack.store.standings import see  # the first screen shows none

        seen = see(self.file, rolls.by_ids(self.file.conn, [roll]), now.at)
        now.people.update(seen.people)
        return seen.standings[0] if seen.standings else None

    def close(self) -> None:
        """Leave the file, and keep that a hand closed this desk and no power cut."""
        if self._beaten:
            from filmrack.store import desks

            with suppress(FileTrouble):
                self._opened_file.refuse_another()
                with self.file.writing() as conn:
                    desks.close(conn, self.desk, self._opened, self.now)
        self.file.close()
