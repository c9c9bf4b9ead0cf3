"""Measures the archive of large terms: to the first page, each further page, report and figures.

Run: PYTHONPATH=. python tests/bench/bench_archive.py [rolls of the largest file]

Files hold 1 k to 1 M rolls in terms of at most 25 k, all filed but each fiftieth, with six hundred
students in six periods who stay for four terms. What the desk's archive screen reads is measured
as it reads it.
Goals: a term of 25,000 rolls to its first page in 100 ms, and pages that cost the same from 1 k to
1 M rolls.
"""

from __future__ import annotations

import json
import statistics
import sys
import tempfile
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from filmrack.acts.closing import report_on
from filmrack.acts.founding import make_darkroom_file
from filmrack.domain.default_room import default_room
from filmrack.store import archive
from filmrack.store.figures import figures
from filmrack.store.file import open_file
from filmrack.store.times import to_text
from tests.bench.pairs import ms

NOW = datetime(2026, 11, 17, 15, 0, tzinfo=UTC)
FIRST = datetime(2026, 8, 24, 14, 0, tzinfo=UTC)
SIZES = (1_000, 25_000, 100_000, 1_000_000)
A_TERM = 25_000
PEOPLE = 600
STAY = 4
TERMS = [f"{year}{letter}" for year in range(26, 46) for letter in "SF"]
PAGE = 100


def build(path: Path, count: int) -> str:
    """Write a file with so many rolls, as acts would have left them; return its first term."""
    people = min(PEOPLE, count // 40)
    room = default_room("America/Chicago", NOW.date())
    with make_darkroom_file(path, room, NOW) as file, file.writing() as conn:
        conn.execute("DELETE FROM terms")
        conn.executemany(
            "INSERT INTO terms (code, starts, ends) VALUES (?, '2026-08-24', '2026-12-18')",
            ((term,) for term in TERMS),
        )
        conn.executemany(
            "INSERT INTO people (id, given, family) VALUES (?, ?, ?)",
            ((n, f"Given{n}", f"Family{n * 7919 % 500}") for n in range(1, 10 * people + 1)),
        )
        conn.executemany(
            "INSERT INTO binders VALUES (?, ?, NULL)",
            ((term, n) for term in TERMS for n in range(1, 91)),
        )
        conn.executemany(
            "INSERT INTO rolls (id, term, serial, person, period, film, frames, place, binder,"
            " since, seen, seen_at, first_at, hung_at, stays, page_name, sleeved_at, filed_at)"
            " VALUES (?, ?, ?, ?, ?, '135-36', 36, ?, ?, ?, ?, ?, ?, ?, ?, '7x5', ?, ?)",
            (_row(n, people) for n in range(1, count + 1)),
        )
        conn.executemany(
            "INSERT INTO sleeves VALUES (?, 1, '[5,5,5,5,5,5,6]')",
            ((n,) for n in range(1, count + 1)),
        )
        conn.executemany(
            "INSERT INTO contact_sheets VALUES (?, 0, '2026-11-16T15:00:00Z', '8x10in', '[4]')",
            ((n,) for n in range(1, count + 1) if n % 20),
        )
    return TERMS[0]


def _row(number: int, people: int) -> tuple[object, ...]:
    term, serial = divmod(number - 1, A_TERM)
    at = FIRST + serial * (timedelta(days=80) / A_TERM)
    hung, down, sleeved = (to_text(at + timedelta(hours=h)) for h in (0, 1, 50))
    person = 1 + number * 31 % people + term // STAY * people
    filed = number % 50 != 0
    stays = json.dumps([[1 + person % 6, hung, down, 1]])
    return (
        number,
        TERMS[term],
        serial + 1,
        person,
        1 + person % 6,
        "binder" if filed else "sleeve",
        1 + number % 90 if filed else None,
        sleeved,
        "sleeve",
        sleeved,
        hung,
        hung,
        stays,
        sleeved,
        sleeved if filed else None,
    )


def median_ms(act: Callable[[], object], times: int = 9) -> float:
    return statistics.median(ms(act) for _ in range(times))


def first_page(path: Path, term: str) -> None:
    with open_file(path, write=False) as file, file.reading() as conn:
        piles = archive.piles(conn, term)
        archive.page(conn, term, "all", piles[0], first=0, many=PAGE)


def measure(path: Path, count: int, code: str) -> None:
    """Print a line of measures; the whole archive is paged through for the cost of one page."""
    with open_file(path, write=False) as file:
        conn = file.conn
        piles = archive.piles(conn, code)
        turn = iter(range(10**9))

        def page() -> None:
            pile = piles[next(turn) * 37 % len(piles)]
            archive.page(conn, code, "all", pile, first=0, many=PAGE)

        term = next(term for term in file.room().terms if term.code == code)
        measures = (
            median_ms(lambda: first_page(path, code)),
            median_ms(lambda: archive.piles(conn, code)),
            median_ms(page, 200),
            median_ms(lambda: report_on(file, code), 3),
            median_ms(lambda: figures(file, term, NOW), 3),
        )
    print(f"{count:>9,}" + "".join(f"{each:>12.2f}" for each in measures), flush=True)


def main() -> None:
    largest = int(sys.argv[1]) if len(sys.argv) > 1 else SIZES[-1]
    heads = ("to page 1", "its piles", "a page", "report", "figures")
    print("    rolls" + "".join(f"{head:>12}" for head in heads) + "   (ms, median)")
    with tempfile.TemporaryDirectory() as folder:
        for count in (size for size in SIZES if size <= largest):
            path = Path(folder) / f"{count}.db"
            measure(path, count, build(path, count))
            path.unlink()


if __name__ == "__main__":
    main()
