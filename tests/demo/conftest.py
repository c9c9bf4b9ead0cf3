from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from filmrack.shipped import shipped
from filmrack.store.file import DarkroomFile, open_file


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DarkroomFile]:
    """The shipped demo school, standing at its moment; a copy, for nobody to write to."""
    path = tmp_path_factory.mktemp("demo") / "demo.db"
    shutil.copyfile(shipped("demo.db"), path)
    with open_file(path, write=False) as file:
        yield file


@pytest.fixture(scope="module")
def shipped_demo() -> Path:
    return shipped("demo.db")
