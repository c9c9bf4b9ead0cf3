"""Measure after how long four open desks show what another desk or a command did.

.venv/bin/python tests/bench/desks_follow.py [ROUNDS]
"""

from __future__ import annotations

import contextlib
import io
import statistics
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.conftest import build
from tests.faults.test_desks_together import follow


def main() -> None:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 20
    with tempfile.TemporaryDirectory() as folder:
        db = Path(folder) / "darkroom.db"
        build(db)
        with contextlib.redirect_stdout(io.StringIO()):
            took = follow(db, rounds)
    print(
        f"{len(took)} looks: median {statistics.median(took):.2f} s, longest {max(took):.2f} s,"
        f" within a second {sum(each < 1 for each in took) / len(took):.0%}"
    )


if __name__ == "__main__":
    main()
