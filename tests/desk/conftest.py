"""What several screens are tested on: a full file, and a desk's sentences without a screen."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.desk.bench import Bench
from tests.desk.full_room import build
from tests.desk.settled import wait_exactly

wait_exactly()


@pytest.fixture(scope="session")
def full(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a file with eighty-four hanging rolls; nobody writes to it but heartbeats."""
    path = tmp_path_factory.mktemp("full") / "darkroom.db"
    build(path)
    return path


@pytest.fixture
def bench(db: Path) -> Iterator[Bench]:
    """Return the sentences of a desk on the small school's file."""
    bench = Bench(db)
    yield bench
    bench.session.close()
