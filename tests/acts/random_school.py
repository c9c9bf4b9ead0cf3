"""A small school of its own for each run of random acts."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from hypothesis.stateful import RuleBasedStateMachine

from filmrack.acts.group import Hand
from filmrack.domain.refusal import Refused
from tests.conftest import build, open_school

_kept = tempfile.TemporaryDirectory()  # as long as the tests run
_template = Path(_kept.name) / "school.db"


class RandomSchool(RuleBasedStateMachine):
    """Copies one file that is built once; a refused act must leave it as it was."""

    def __init__(self) -> None:
        super().__init__()
        if not _template.exists():
            build(_template)
        self.folder = tempfile.TemporaryDirectory()
        path = Path(shutil.copy(_template, Path(self.folder.name) / "darkroom.db"))
        self.school = open_school(path)

    def teardown(self) -> None:
        self.school.file.close()
        self.folder.cleanup()

    def do(self, hand: tuple[int, str], act: Callable[[Hand], object]) -> None:
        """Do it so many minutes ago, at a desk."""
        before = self.school.dump()
        with suppress(Refused):
            act(self.school.hand(*hand))
            return
        assert self.school.dump() == before
