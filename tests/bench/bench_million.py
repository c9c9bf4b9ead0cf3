"""Measures everything at 1 k, 100 k and 1 M rolls, each beside its peer in the same run.

Run: PYTHONPATH=. python tests/bench/bench_million.py FOLDER [rolls …]

The files are made in FOLDER and kept there; acts work on copies. Two tables are printed. The
first has the milliseconds of each measure and how many times its peer's they are (the median of
pairs taken by turns), and the growth from the smallest file to the largest, of lookups by turns
too. The second has how many times ahead a lookup is of the spreadsheet's stand-ins, Python's csv
and grep.
Goals: acts at most 1.5 × bare statements that write the same rows whole; lookups at most 1.5 ×
from 1 k to 1 M and at least 10 × ahead of the csv at 100 k; the first screen at most 1.3 × an empty
app's; memory at 1 M at most 1.3 × that at 1 k.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from pathlib import Path

from tests.bench.million_acts import acts
from tests.bench.million_desk import desk
from tests.bench.million_file import made
from tests.bench.million_lookups import ahead, growth, lookups
from tests.bench.million_whole import whole
from tests.bench.pairs import Pair

SIZES = (1_000, 100_000, 1_000_000)


def table(
    title: str, sizes: list[int], found: list[dict[str, Pair]], grown: Mapping[str, float]
) -> None:
    """Print the measures of each size; growth not taken by turns is that of the medians."""
    heads = "".join(f"{f'{size:,}':>12}{'ratio':>8}" for size in sizes)
    print(f"\n{title:<34}{heads}{'growth':>9}")
    for name in found[0]:
        pairs = [each[name] for each in found]
        cells = "".join(f"{pair.ours:>12.2f}{pair.ratio:>8.2f}" for pair in pairs)
        grew = grown.get(name, pairs[-1].ours / pairs[0].ours)
        print(f"{name:<34}{cells}{grew:>9.2f}", flush=True)


def main(folder: Path, sizes: list[int]) -> None:
    parts: list[Callable[[Path], dict[str, Pair]]] = [lookups, acts, desk, whole]
    measured: list[dict[str, Pair]] = []
    sheets: list[dict[str, Pair]] = []
    for size in sizes:
        path = made(folder, size)
        of_size: dict[str, Pair] = {}
        for part in parts:
            found = part(path)
            of_size |= found
            for name, (ours, ratio) in found.items():
                print(f"{size:>9,}  {name}: {ours:.2f}, {ratio:.2f}", file=sys.stderr, flush=True)
        measured.append(of_size)
        sheets.append(ahead(path))
    grown = growth(made(folder, sizes[0]), made(folder, sizes[-1]))
    table("ms (memory: MiB), × the peer", sizes, measured, grown)
    table("ms of csv or grep, × ours", sizes, sheets, {})


if __name__ == "__main__":
    main(Path(sys.argv[1]), [int(text) for text in sys.argv[2:]] or list(SIZES))
