"""Rolls that lie in period boxes."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import fetching, hanging
from filmrack.acts.group import Hand
from filmrack.domain.roll import Roll
from filmrack.store import rolls
from filmrack.store.file import open_file
from filmrack.store.waiting import to_be_sleeved
from tests.conftest import IVO, MARA, OLU, School
from tests.desk.full_room import NOW


@pytest.fixture
def boxed(school: School) -> list[Roll]:
    """Mara's roll in box 1, two of Olu's in box 2, Ivo's with him; clips 1 to 4."""
    for clip, person in enumerate((MARA, OLU, OLU, IVO), 1):
        roll = hanging.hang(school.file, school.hand(), person=person, clip=clip).roll.id
        school.wait(1)
        if person == IVO:
            fetching.take(school.file, school.hand(), roll)
        else:
            fetching.box(school.file, school.hand(), [roll])
    return rolls.read(school.file.conn, "clip IS NOT NULL ORDER BY clip")


@pytest.fixture
def eighty(full: Path, tmp_path: Path) -> Path:
    """Return a file with eighty-four rolls in seven boxes."""
    path = tmp_path / "darkroom.db"
    path.write_bytes(full.read_bytes())
    with open_file(path, write=True) as file:
        file.conn.execute("PRAGMA synchronous = OFF")  # no power cut is tested with this
        hung = [roll.id for roll in rolls.hanging(file.conn)]
        fetching.box(file, Hand(NOW, NOW, "desk 1"), hung)
        assert len(to_be_sleeved(file, NOW).standings) == 84
    return path
