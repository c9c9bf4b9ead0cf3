"""Rods with film on them, and the documents that slips are printed to."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from filmrack.acts import hanging, refitting
from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.group import Hand
from filmrack.acts.locking import set_passphrase
from filmrack.domain.default_room import default_room
from filmrack.domain.names import Person
from filmrack.store import people
from filmrack.store.file import open_file
from tests.conftest import IVO, OLU, TUESDAY_9_00, School, longer_rods
from tests.desk.sweep.at_sweep import EVENING, FORTY

AWKWARD = ("[/x] [bold]", "😀👩‍👩‍👧 Emoji", "أحمد", "W" * 60)


@pytest.fixture(scope="session")
def _forty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file with forty rolls on seven rods since nine; clips 1 to 40 from the first rod on."""
    path = tmp_path_factory.mktemp("forty") / "built.db"
    room = default_room("America/Chicago", TUESDAY_9_00.date(), periods=7, positions=8)
    with make_darkroom_file(path, room, TUESDAY_9_00) as file:
        file.conn.execute("PRAGMA synchronous = OFF")  # no power cut is tested with this
        clips = iter(range(1, 41))
        for period, many in enumerate(FORTY, 1):
            for _ in range(many):
                clip = next(clips)
                given = AWKWARD[clip - 1] if clip <= len(AWKWARD) else f"Student{clip}"
                with file.writing() as conn:
                    people.add(conn, Person(clip, given, "Hale"))
                    people.enrol(conn, clip, "26F", period)
                hand = Hand(TUESDAY_9_00, TUESDAY_9_00, "desk 1")
                hanging.hang(file, hand, person=clip, clip=clip, rod=period)
    return path


@pytest.fixture
def forty(_forty: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(_forty, tmp_path / "darkroom.db"))


@pytest.fixture
def documents(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the documents of whoever is at the desk."""
    folder = tmp_path / "home" / "Documents"
    folder.mkdir(parents=True)
    monkeypatch.setenv("HOME", str(folder.parent))
    for name in ("XDG_DOCUMENTS_DIR", "XDG_CONFIG_HOME"):
        monkeypatch.delenv(name, raising=False)
    return folder


@pytest.fixture
def partly_dry(db: Path, school: School) -> Path:
    longer_rods(school, 10)
    for clip in (1, 2, 3):
        hanging.hang(school.file, school.hand(), person=OLU, clip=clip, rod=2)
    school.wait(400)
    for clip in range(4, 11):
        hanging.hang(school.file, school.hand(), person=IVO, clip=clip, rod=2)
    return db


@pytest.fixture
def helpers(forty: Path) -> Path:
    """A room with a passphrase that lets helpers and substitutes sweep."""
    with open_file(forty, write=True) as file:
        room = file.room()
        refitting.refit(
            file,
            Hand(EVENING, EVENING),
            room._replace(rules=room.rules._replace(helpers_sweep=True)),
        )
        set_passphrase(file, "three dry clips", None, EVENING)
    return forty
