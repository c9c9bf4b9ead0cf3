"""Throw ten thousand generated scans, lines, rosters, room files, designs and files at Filmrack.

    .venv/bin/python tests/bench/fuzz.py [ATTACKS] [SEED]

Prints how many there were of each outcome, and each thing that did harm (none).
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from filmrack.acts.hanging import hang
from filmrack.store import checking
from tests.conftest import OLU, build, open_school
from tests.faults.hostile import Attacker, harm


def main() -> None:
    attacks = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    chance = random.Random(int(sys.argv[2]) if len(sys.argv) > 2 else 1)
    codes: Counter[int] = Counter()
    harmed: Counter[str] = Counter()
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        db = Path(folder) / "darkroom.db"
        build(db)
        school = open_school(db)
        hang(school.file, school.hand(), person=OLU, clip=17)
        school.file.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        thrown = Path(folder) / "thrown"
        thrown.mkdir()
        attacker = Attacker(db, thrown)
        for _ in range(attacks):
            attack = attacker.attack(chance)
            codes[attack.code] += 1
            what = harm(attack)
            if what is not None and not harmed[what]:
                print(attack.words, what, sep="\n")
            if what is not None:
                harmed[what] += 1
        print(f"{attacks} attacks in {time.monotonic() - began:.0f} s, by exit code {dict(codes)},")
        print(
            f"harm done by {harmed.total()}, the file afterwards: {checking.problems(school.file)}"
        )
        school.file.close()


if __name__ == "__main__":
    main()
