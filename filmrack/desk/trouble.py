"""What a desk says of a file that cannot be used; the desk itself goes on."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from filmrack.domain.refusal import FileTrouble
from filmrack.store.trouble import against_a_rule, damage_in


class Troubles:
    """Says each trouble with its way back; backups are read to their end once, not each second."""

    def __init__(self, path: Path, machine: Callable[[], datetime]) -> None:
        self._path = path
        self._machine = machine
        self._said: dict[str, str] = {}

    @contextmanager
    def passed_to(self, tell: Callable[[str], None]) -> Iterator[None]:
        """Tell what is wrong with the file, if anything, and go on."""
        try:
            with damage_in(self._path):
                yield
        except sqlite3.IntegrityError as error:
            tell(str(against_a_rule(self._path, error)))
        except FileTrouble as trouble:
            tell(self._words(trouble))

    def _words(self, trouble: FileTrouble) -> str:
        known = self._said.get(str(trouble))
        if known is None:
            from filmrack.store.keeping import with_the_way_back  # mostly there is no trouble

            known = self._said[str(trouble)] = with_the_way_back(trouble, self._machine())
        return known
