"""A desk's sentences without its screen: lines are said, and the clock goes on, as a test wants."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from filmrack.desk.said import Said
from filmrack.desk.sentences import Sentences
from filmrack.desk.session import Session
from filmrack.domain.codes import action_code, clip_code, person_code
from filmrack.domain.roll import Roll
from filmrack.store import rolls
from tests.conftest import MARA, TUESDAY_9_00

FLIP, DRY, TACKY, TAKE, BOX, UNDO = (
    action_code(word) for word in ("FLIP", "DRY", "TACKY", "TAKE", "BOX", "UNDO")
)


class Bench:
    """A desk's sentences on the small school's file, and its clock."""

    def __init__(self, path: Path) -> None:
        self.now = TUESDAY_9_00
        self.session = Session(path, lambda: self.now)
        self.sentences = Sentences(self.session)

    def say(self, *lines: str, apart: float = 1.0) -> Said:
        """Scan or type lines so many seconds apart; return the last answer."""
        for line in lines:
            said = self.sentences.say(line)
            self.wait(apart)
        return said

    def enter(self) -> Said | None:
        return self.sentences.enter()

    def wait(self, seconds: float) -> None:
        self.now += timedelta(seconds=seconds)

    def on(self, clip: int) -> Roll:
        roll = rolls.on_clip(self.session.file.conn, clip)
        assert roll is not None
        return roll

    @property
    def count(self) -> int:
        found: int = self.session.file.conn.execute("SELECT count(*) FROM rolls").fetchone()[0]
        return found

    @property
    def ledger(self) -> list[tuple[object, ...]]:
        sql = "SELECT act, roll, undoes FROM ledger ORDER BY id"
        return [tuple(row) for row in self.session.file.conn.execute(sql).fetchall()]


def a(clip: int) -> str:
    return clip_code(clip, "A")


def b(clip: int) -> str:
    return clip_code(clip, "B")


def loaded(bench: Bench, person: int = MARA, clip: int = 17) -> Roll:
    bench.say(person_code(person), a(clip))
    bench.wait(60)
    return bench.on(clip)


def hung(bench: Bench, person: int = MARA, clip: int = 17) -> Roll:
    loaded(bench, person, clip)
    bench.say(a(clip))
    bench.wait(60)
    return bench.on(clip)
