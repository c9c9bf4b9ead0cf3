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
from filmrack.store.file import open_file
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
        target, bare = Path(folder) / "ours.db", Path(folder) / "bare.db"
        with open_file(copy, write=True) as file, closing(sqlite3.connect(copy)) as conn:
            some = [
                roll_number(*row)
                for row in conn.execute(
                    "SELECT term, serial FROM rolls WHERE place = 'binder' LIMIT ?", (ROLLS,)
                )
            ]

            def labels() -> None:
                wanted = order(file, "sleeves", some, NOW).wanted.labels
                assert len(wanted) == 2 * ROLLS
                print_labels(wanted, stock("letter-30"), io.BytesIO())

            def check() -> None:
                assert not problems(file)

            def bare_check() -> None:
                conn.execute("PRAGMA integrity_check").fetchall()
                conn.execute("PRAGMA foreign_key_check").fetchall()

            def backup() -> None:
                target.unlink(missing_ok=True)
                back_up(file, target)

            def bare_backup() -> None:
                bare.unlink(missing_ok=True)
                with closing(sqlite3.connect(bare)) as out:
                    conn.backup(out)
                    out.execute("PRAGMA quick_check").fetchall()

            return {
                "300 labels, × reportlab": by_turns(
                    labels, lambda: bench_labels.bare(2 * ROLLS), 5
                ),
                "backup read back, × sqlite3": by_turns(backup, bare_backup, times),
                "check, × SQLite's own checks": by_turns(check, bare_check, times),
            }
