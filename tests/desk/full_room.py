"""A full room: a hundred students, and every one of eighty-four positions taken."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from filmrack.acts import drying, hanging
from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.group import Hand
from filmrack.domain.default_room import default_room
from filmrack.domain.names import Person
from filmrack.store import people
from filmrack.store.file import DarkroomFile

NOW = datetime(2026, 11, 17, 19, 40, tzinfo=UTC)
"""A Tuesday, 13:40, four minutes into the seventh period."""

PERIODS, POSITIONS, STUDENTS = 7, 12, 105
GIVEN = ("Ada", "Ben", "Cleo", "Dan", "Edda", "Finn", "Gus", "Hana", "Ines", "Jon", "Kaia", "Liam")
_FAMILY = (
    "Abara",
    "Brandt",
    "Costa",
    "Dahl",
    "Ekwue",
    "Fiore",
    "Goto",
    "Hale",
    "Ito",
    "Lund",
    "Moss",
)
AWKWARD = (
    "[/x] [bold]",
    "😀👩‍👩‍👧 Emoji",
    "أحمد",
    "दीपिका",
    "Wolfeschlegelsteinhausenbergerdorffwelchevoralternwaren Extra",
)


def build(path: Path) -> None:
    """Make the file. The first students have names that garble careless screens."""
    with empty_room(path) as file:
        fill(file)


def empty_room(path: Path) -> DarkroomFile:
    """Make the file of the room and its students, where nothing hangs yet, and open it."""
    room = default_room("America/Chicago", NOW.date(), periods=PERIODS, positions=POSITIONS)
    file = make_darkroom_file(path, room, NOW - timedelta(days=30))
    file.conn.execute("PRAGMA synchronous = OFF")  # no power cut is tested with this
    with file.writing() as conn:
        for number in range(1, STUDENTS + 1):
            given = AWKWARD[number - 1] if number <= len(AWKWARD) else GIVEN[number % 12]
            people.add(conn, Person(number, given, _FAMILY[number % 11], None, None))
            people.enrol(conn, number, "26F", 1 + (number - 1) % PERIODS)
    return file


def fill(file: DarkroomFile) -> None:
    """Hang a roll at every position, and load five more."""
    for clip in range(1, PERIODS * POSITIONS + 1):
        ago = 24 - (clip - 1) % 24 if clip > 60 else 330 - 4 * clip
        at = NOW - timedelta(minutes=ago)
        hand = Hand(at, NOW, "desk 1")
        loaded = hanging.load(file, hand, clip, [clip]).rolls[0]
        hanging.hang(file, hand, roll=loaded.id)
        if clip % 5 == 0:
            drying.flip(file, Hand(NOW, NOW, "desk 1"), [loaded.id])
    for person in range(85, 90):
        hand = Hand(NOW - timedelta(minutes=3), NOW, "desk 1")
        hanging.load(file, hand, person, [person])
