"""What reads a file as a whole, or prints from it: labels, check, backup."""

from __future__ import annotations

import io
import shutil
import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

from filmrack.acts.labelling import order
from filmrack.domain.roll import roll_number
from filmrack.printing import print_labels, stock
from filmrack.store.backup import back_up
from filmrack.store.checking import problems
from filmrack.store.file import DarkroomFile, open_file
from tests.bench import bench_labels
from tests.bench.pairs import Pair, by_turns
from tests.desk.full_room import NOW

ROLLS = 150
"""They have two sleeves each, so three hundred labels."""


def whole(path: Path) -> dict[str, Pair]:
    """Return labels × bare reportlab, check × SQLite's own checks, backup × SQLite's own."""
    times = 1 if path.stat().st_size > 10**8 else 3
    with tempfile.TemporaryDirectory(dir=path.parent) as folder:
        copy = Path(shutil.copy(path, Path(folder) / "copy.db"))
        with open_file(copy, write=True) as file, closing(sqlite3.connect(copy)) as bare:
            return {
                "300 labels, × reportlab": _labels(file, bare),
                "backup read back, × sqlite3": _backup(file, bare, Path(folder), times),
                "check, × SQLite's own checks": _check(file, bare, times),
            }


def _labels(file: DarkroomFile, bare: sqlite3.Connection) -> Pair:
    filed = "SELECT term, serial FROM rolls WHERE place = 'binder' LIMIT ?"
    some = [roll_number(*row) for row in bare.execute(filed, (ROLLS,))]

    def ours() -> None:
        wanted = order(file, "sleeves", some, NOW).wanted.labels
        assert len(wanted) == 2 * ROLLS
        print_labels(wanted, stock("letter-30"), io.BytesIO())

    return by_turns(ours, lambda: bench_labels.bare(2 * ROLLS), 5)


def _check(file: DarkroomFile, bare: sqlite3.Connection, times: int) -> Pair:
    def ours() -> None:
        assert not problems(file)

    def peer() -> None:
        bare.execute("PRAGMA integrity_check").fetchall()
        bare.execute("PRAGMA foreign_key_check").fetchall()

    return by_turns(ours, peer, times)


def _backup(file: DarkroomFile, bare: sqlite3.Connection, folder: Path, times: int) -> Pair:
    target, other = folder / "ours.db", folder / "bare.db"

    def ours() -> None:
        target.unlink(missing_ok=True)
        back_up(file, target)

    def peer() -> None:
        other.unlink(missing_ok=True)
        with closing(sqlite3.connect(other)) as out:
            bare.backup(out)
            out.execute("PRAGMA quick_check").fetchall()

    return by_turns(ours, peer, times)
