"""A darkroom file before the first roll, and one with film on two rods to be swept."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from filmrack.acts.founding import make_darkroom_file
from filmrack.acts.hanging import hang
from filmrack.domain.default_room import default_room
from filmrack.store.file import DarkroomFile
from tests.conftest import IVO, MARA, OLU, TUESDAY_9_00, School


@pytest.fixture
def file(tmp_path: Path) -> Iterator[DarkroomFile]:
    """Return the file of a usual room, just made, at nine on a Tuesday."""
    room = default_room("America/Chicago", TUESDAY_9_00.date())
    with make_darkroom_file(tmp_path / "darkroom.db", room, TUESDAY_9_00) as opened:
        yield opened


@pytest.fixture
def hung(school: School) -> list[int]:
    """Mara's roll on rod 1, then Olu's, Ivo's and Mara's second on rod 2: clips 1 to 4."""
    numbers = [
        hang(school.file, school.hand(), person=person, clip=clip, rod=rod).roll.id
        for clip, (person, rod) in enumerate([(MARA, 1), (OLU, 2), (IVO, 2), (MARA, 2)], 1)
    ]
    school.wait(400)
    return numbers


def places(school: School, numbers: list[int]) -> list[str]:
    return [str(school.roll(number).place) for number in numbers]
