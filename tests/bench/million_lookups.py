"""Lookups in a file, beside the bare select of the same rows; and in the same data as a sheet."""

from __future__ import annotations

import csv
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

from rapidfuzz.distance import DamerauLevenshtein

from filmrack.domain.roll import roll_number
from filmrack.store import rolls
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.standings import look_for, see
from tests.bench.bench_find import seconds
from tests.bench.pairs import Pair, by_turns, installed, pair
from tests.desk.full_room import NOW

TIMES = 31
GROWTH_TIMES = 201
MOST = 50
LETTERS, MISTYPED = "dan", "cosat"
"""Dan is a frequent name of all years; one family of the full room is called Costa."""

_WITH_OWNER = "SELECT r.*, p.given, p.family FROM rolls r JOIN people p ON p.id = r.person"
_OF_NAME = (
    f"{_WITH_OWNER} WHERE r.person IN (SELECT person FROM name_tokens WHERE token >= ? AND token"
    f" < ?) ORDER BY r.id DESC LIMIT {MOST}"
)


def lookups(path: Path) -> dict[str, Pair]:
    """Return each lookup in process beside sqlite3, and `find` as a whole beside bare Python."""
    with open_file(path, write=False) as file, open_file(path, write=False) as other:
        bare = other.conn
        _, term, serial = _middle(file.conn)

        def select(sql: str, *values: object) -> Callable[[], object]:
            return lambda: bare.execute(sql, values).fetchall()

        def mistyped() -> None:
            words = [row[0] for row in bare.execute("SELECT DISTINCT token FROM name_tokens")]
            near = [word for word in words if DamerauLevenshtein.distance(word, MISTYPED) < 2]
            select(_OF_NAME, near[0], near[0] + "\U0010ffff")()

        peers: dict[str, Callable[[], object]] = {
            "exact code": select(f"{_WITH_OWNER} WHERE r.term = ? AND r.serial = ?", term, serial),
            "three letters": select(_OF_NAME, LETTERS, LETTERS + "\U0010ffff"),
            "typing error": mistyped,
            "dryer now": select(
                f"{_WITH_OWNER} WHERE r.rod IS NOT NULL ORDER BY r.rod, r.position"
            ),
        }
        found = {"start of find, × bare Python": _start(path)}
        return found | {
            _row(name): by_turns(ours, peers[name], TIMES) for name, ours in _asked(file).items()
        }


def growth(small: Path, large: Path) -> dict[str, float]:
    """Return how many times as long each lookup takes in a large file as in a small one.

    Both are timed by turns: what the files' own measures say of it lies minutes apart.
    """
    with open_file(small, write=False) as one, open_file(large, write=False) as other:
        in_small, in_large = _asked(one), _asked(other)
        return {
            _row(name): by_turns(in_large[name], in_small[name], GROWTH_TIMES).ratio
            for name in in_small
        }


def _asked(file: DarkroomFile) -> dict[str, Callable[[], object]]:
    """Return the lookups of a file, by what is asked."""
    number, *_ = _middle(file.conn)
    return {
        "exact code": lambda: look_for(file, number, NOW),
        "three letters": lambda: look_for(file, LETTERS, NOW),
        "typing error": lambda: look_for(file, MISTYPED, NOW),
        "dryer now": lambda: see(file, rolls.hanging(file.conn), NOW),
    }


def _row(name: str) -> str:
    return f"{name}, × sqlite3"


def ahead(path: Path) -> dict[str, Pair]:
    """Return how many times as long as ours the sheet's stand-ins take for the same questions."""
    sheet = path.with_suffix(".csv")
    times = 7 if sheet.stat().st_size < 10**7 else 3

    def rows(wanted: Callable[[list[str]], bool]) -> list[list[str]]:
        with sheet.open(newline="", encoding="utf-8") as lines:
            return [row for row in csv.reader(lines) if wanted(row)]

    def named(row: list[str]) -> bool:
        return row[1].casefold().startswith(LETTERS) or row[2].casefold().startswith(LETTERS)

    def near(row: list[str]) -> bool:
        return any(
            DamerauLevenshtein.distance(name.casefold(), MISTYPED, score_cutoff=1) < 2
            for name in row[1:3]
        )

    def grep(*arguments: str) -> Callable[[], object]:
        command = ["grep", *arguments, str(sheet)]
        # Not to /dev/null: grep sees that and stops at the first line it finds.
        return lambda: subprocess.run(command, stdout=subprocess.PIPE, check=True)

    with open_file(path, write=False) as file:
        number, *_ = _middle(file.conn)
        asked: dict[str, tuple[str, Callable[[], object]]] = {
            "exact code, csv": (number, lambda: rows(lambda row: row[0] == number)),
            "exact code, grep": (number, grep("-F", number)),
            "three letters, csv": (LETTERS, lambda: rows(named)),
            "three letters, grep": (LETTERS, grep("-i", f",{LETTERS}")),
            "typing error, csv": (MISTYPED, lambda: rows(near)),
        }
        found = {
            name: by_turns(peer, partial(look_for, file, line, NOW), times)
            for name, (line, peer) in asked.items()
        }
        found["dryer now, csv"] = by_turns(
            lambda: rows(lambda row: row[5] == "rod"),
            lambda: see(file, rolls.hanging(file.conn), NOW),
            times,
        )
        return found


def _middle(conn: sqlite3.Connection) -> tuple[str, str, int]:
    """Return the roll in the middle of the file: its number, its term, its serial."""
    term, serial = conn.execute(
        "SELECT term, serial FROM rolls WHERE id = (SELECT max(id) / 2 FROM rolls)"
    ).fetchone()
    return roll_number(term, serial), term, serial


def _start(path: Path) -> Pair:
    ours = [*installed(), "--db", str(path), "find", "clip", "17"]
    bare = [sys.executable, "-c", "import sqlite3, click"]
    with tempfile.TemporaryDirectory() as folder:
        compiled = Path(folder)
        seconds(ours, compiled), seconds(bare, compiled)
        return pair(
            (1000 * seconds(ours, compiled)[0], 1000 * seconds(bare, compiled)[0])
            for _ in range(11)
        )
