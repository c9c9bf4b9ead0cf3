"""Files that several screens are tested on."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.desk.full_room import build
from tests.desk.settled import wait_exactly

wait_exactly()


@pytest.fixture(scope="session")
def full(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a file with eighty-four hanging rolls; nobody writes to it but heartbeats."""
    path = tmp_path_factory.mktemp("full") / "darkroom.db"
    build(path)
    return path
