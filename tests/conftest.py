"""A small school: two periods, three people, four clips in use, and a clock that tests turn."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import settings

from filmrack.acts import archiving, fetching, hanging, refitting
from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.group import Hand
from filmrack.domain.default_room import default_room
from filmrack.domain.names import Person
from filmrack.domain.roll import Roll
from filmrack.domain.room import Rod
from filmrack.store import people, rolls
from filmrack.store.file import DarkroomFile, open_file

settings.register_profile("usual", deadline=None)
settings.register_profile("long", deadline=None, max_examples=3000, stateful_step_count=60)
settings.load_profile("usual")

TUESDAY_9_00 = datetime(2026, 11, 17, 15, 0, tzinfo=UTC)
"""In Chicago, where this school is: four minutes into the second period."""

MARA, OLU, IVO = 1, 2, 3
"""Mara is in period 1, Olu and Ivo are in period 2."""


@dataclass
class School:
    """A darkroom file and the clock on its wall."""

    file: DarkroomFile
    now: datetime

    def hand(self, ago: float = 0, desk: str = "desk 1") -> Hand:
        """Return a hand that acts now, or tells of so many minutes ago."""
        return Hand(self.now - timedelta(minutes=ago), self.now, desk)

    def wait(self, minutes: float) -> None:
        self.now += timedelta(minutes=minutes)

    def roll(self, number: int) -> Roll:
        return rolls.by_id(self.file.conn, number)

    def boxed(self, person: int, clip: int) -> int:
        """Hang a roll and put it in its box; return its number in the file."""
        roll = hanging.hang(self.file, self.hand(), person=person, clip=clip).roll.id
        fetching.box(self.file, self.hand(), [roll])
        return roll

    def sleeved(self, person: int, clip: int) -> int:
        """Hang a roll, take it down, cut and sleeve it; return its number in the file."""
        roll = hanging.hang(self.file, self.hand(), person=person, clip=clip).roll.id
        fetching.take(self.file, self.hand(), roll)
        archiving.sleeve(self.file, self.hand(), roll)
        return roll

    def dump(self) -> str:
        """Return all that the file holds, to see whether something was changed."""
        return "\n".join(self.file.conn.iterdump())


def longer_rods(school: School, positions: int) -> None:
    """Give each rod of the school that many positions."""
    room = school.file.room()
    rods = tuple(rod._replace(positions=positions) for rod in room.rods)
    refitting.refit(school.file, school.hand(), room._replace(rods=rods))


def build(path: Path) -> None:
    """Make the school's file: rods 1 and 2 with three positions each, rod 3 for nobody with two."""
    room = default_room("America/Chicago", TUESDAY_9_00.date(), periods=2, positions=3)
    room = room._replace(rods=(*room.rods, Rod(3, 1, 2, None)))
    names = [("Mara", "Okafor", "S-101"), ("Olu", "Adeyemi", "S-102"), ("Ivo", "Lindqvist", None)]
    with make_darkroom_file(path, room, TUESDAY_9_00) as file, file.writing() as conn:
        for number, (given, family, school_id) in enumerate(names, 1):
            people.add(conn, Person(number, given, family, None, school_id))
            people.enrol(conn, number, "26F", min(number, 2))


def open_school(path: Path) -> School:
    file = open_file(path, write=True)
    file.conn.execute("PRAGMA synchronous = OFF")  # no power cut is tested with this
    return School(file, TUESDAY_9_00)


def entries(path: Path) -> int:
    """Return how many entries stand in the ledger of a file."""
    with open_file(path, write=False) as file:
        number: int = file.conn.execute("SELECT count(*) FROM ledger").fetchone()[0]
    return number


@pytest.fixture(scope="session")
def _built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("school") / "built.db"
    build(path)
    return path


@pytest.fixture
def db(_built: Path, tmp_path: Path) -> Path:
    """Return the path of a fresh copy of the school's file."""
    return Path(shutil.copy(_built, tmp_path / "darkroom.db"))


@pytest.fixture
def school(db: Path) -> Iterator[School]:
    """Return the school on a fresh file."""
    school = open_school(db)
    yield school
    school.file.close()
