"""A darkroom file without people, for acts that come before the first roll."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from filmrack.acts.founding import make_darkroom_file
from filmrack.domain.default_room import default_room
from filmrack.store.file import DarkroomFile
from tests.conftest import TUESDAY_9_00


@pytest.fixture
def file(tmp_path: Path) -> Iterator[DarkroomFile]:
    """Return the file of a usual room, just made, at nine on a Tuesday."""
    room = default_room("America/Chicago", TUESDAY_9_00.date())
    with make_darkroom_file(tmp_path / "darkroom.db", room, TUESDAY_9_00) as opened:
        yield opened
