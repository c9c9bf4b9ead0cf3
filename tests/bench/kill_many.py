"""Kill one of four writing desks a thousand times, then let four write for a minute.

    .venv/bin/python tests/bench/kill_many.py [KILLS] [SECONDS]

Prints what was lost (nothing), half done (nothing) or not as the ledger says (nothing), and how
many acts that is said of.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.conftest import build
from tests.faults.test_killed_writers import run


def main() -> None:
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    seconds = float(sys.argv[2]) if len(sys.argv) > 2 else 60
    for what, number in (("kill", kills), ("write", seconds)):
        with tempfile.TemporaryDirectory() as folder:
            db = Path(folder) / "darkroom.db"
            build(db)
            print(what, run(what, db, number))


if __name__ == "__main__":
    main()
