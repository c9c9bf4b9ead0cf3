"""What people, scanners and strange files can throw at Filmrack, made up by chance.

The bytes are mutated from sound examples, since noise alone never comes past the first check.
"""

from __future__ import annotations

import contextlib
import io
import random
import traceback
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from filmrack.cli.app import run
from filmrack.domain.codes import action_code, clip_code, person_code, roll_code
from filmrack.domain.names import steers
from tests.faults.damage import spoil

SIGNS = ("´", "\x1b[2J", "\x9b31m", "\u202egnp.exe", "a\x00b", "\udcff", "é" * 130, "\r\n", "", " ")
TYPED = ("17", "rod 1", "box 1", "olu", "26F-0001", "R26F0001", "P000199", "9" * 60, "٣", "½", "𝟙𝟟")
CODE = ("[bold]x[/x]", "=1+1", "@SUM(A1)", "-1", "{code}", "%s", "../../etc/passwd", "' OR 1=1; --")
TIMES = ("1e9", "NaN", "2026-02-30", "24:61", "10:31", "0001-01-01", "9999-12-31T23:59")
SCANNED = (clip_code(17, "A"), roll_code("26F", 1), person_code(2), action_code("FLIP"))
WORDS = (*SIGNS, *TYPED, *CODE, *TIMES, *SCANNED)
COMMANDS = (
    ["find"],
    ["show"],
    ["flip"],
    ["take"],
    ["undo"],
    ["due"],
    ["back"],
    ["hand-back"],
    ["missing"],
    ["load", "olu", "--clip"],
    ["load", "--clip", "30"],
    ["hang", "olu", "--clip"],
    ["hang", "olu", "--clip", "31", "--rod"],
    ["hang", "olu", "--clip", "32", "--film"],
    ["hang", "olu", "--clip", "33", "--clue"],
    ["touch", "17"],
    ["move", "17", "--rod"],
    ["box", "17", "--period"],
    ["sleeve", "17", "--frames"],
    ["sleeve", "17", "--page"],
    ["contact", "17", "--picks"],
    ["file", "17", "--binder"],
    ["lend", "17", "--to"],
    ["lend", "17", "--to", "olu", "--until"],
    ["claim", "17"],
    ["swap", "17"],
    ["note", "17"],
    ["discard", "17", "--why"],
    ["fan", "on", "--hours"],
    ["sweep", "--count"],
    ["term", "report"],
    ["term", "open"],
    ["term", "close"],
    ["clip", "retire"],
    ["person", "rename"],
    ["labels", "clips"],
    ["labels"],
    ["shelve", "--binder"],
)
"""Commands that are followed by words that chance chooses."""
SCANS = "rod 1\nclip 17\n" + clip_code(18, "A") + "\nbox 1\n" + roll_code("26F", 1) + "\n"
ROSTER = 'given,family,period,school id\nMara,"Okafor, jr",1,S-101\nZoë,=1+1,2,\n"a\nb",c,1,7\n'
CALENDAR = (
    "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nUID:1\r\n"
    "DTSTART;VALUE=DATE:20261126\r\nDTEND;VALUE=DATE:20261128\r\nRRULE:FREQ=YEARLY;COUNT=3\r\n"
    "SUMMARY:No school\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
)
DESIGN = 'headline = "{number}"\nlines = ["{name}", "{code}", "{film} · {date}"]\n'
SPICE = (b"\x1b[31m", b"\x00", b"\xff\xfe", b"\xc2\x9b", b'"', b"'''", b"=cmd|' /C calc'!A0", b"\n")
MOST_SPICE = 6


class Attack(NamedTuple):
    """One thing that was thrown, and what came of it."""

    words: list[str]
    code: int
    out: str
    err: str
    fault: str


def mutated(data: bytes, chance: random.Random) -> bytes:
    """Change some bytes, cut some out, double some, put in what is known to hurt."""
    some = bytearray(data)
    for _ in range(chance.randint(1, MOST_SPICE)):
        at = chance.randrange(len(some) + 1)
        match chance.randint(0, 4):
            case 0 if at < len(some):
                some[at] = chance.randrange(256)
            case 1:
                del some[at : at + chance.randint(1, 30)]
            case 2:
                some[at:at] = some[at : at + chance.randint(1, 60)]
            case 3:
                some[at:at] = chance.choice(SPICE)
            case _:
                some[at:at] = str(chance.choice([-1, 0, 99, 10**20, 1e308])).encode()
    return bytes(some)


class Attacker:
    """Throws things at the commands on one darkroom file, from a folder of its own."""

    def __init__(self, db: Path, folder: Path) -> None:
        self.db = db
        self.folder = folder
        self.room = self._run(["room", "export"]).out
        self.export = folder / "export"
        self._run(["export", str(self.export)])
        self.tables = {each.name: each.read_bytes() for each in self.export.iterdir()}
        self.ways: list[Callable[[random.Random], Attack]] = [
            self.words, self.words, self.words, self.scans, self.roster, self.room_file,
            self.calendar, self.design, self.taken_in, self.file,
        ]  # fmt: skip

    def attack(self, chance: random.Random) -> Attack:
        """Throw one thing."""
        return chance.choice(self.ways)(chance)

    def words(self, chance: random.Random) -> Attack:
        thrown = [chance.choice(WORDS) for _ in range(chance.randint(0, 3))]
        if chance.random() < 0.3:
            thrown.append("".join(chr(chance.randrange(1, 0x2FFF)) for _ in range(8)))
        end = ["--json"] if chance.random() < 0.3 else []
        at = ["--at", chance.choice(WORDS)] if chance.random() < 0.1 else []
        return self._run([*at, *chance.choice(COMMANDS), *thrown, *end])

    def scans(self, chance: random.Random) -> Attack:
        path = self._put("scans.txt", mutated(SCANS.encode(), chance))
        return self._run(
            ["sweep", "--scans", path, *(["--finish"] if chance.random() < 0.3 else [])]
        )

    def roster(self, chance: random.Random) -> Attack:
        return self._run(["roster", self._put("students.csv", mutated(ROSTER.encode(), chance))])

    def room_file(self, chance: random.Random) -> Attack:
        path = self._put("room.toml", mutated(self.room.encode(), chance))
        return self._run(["room", chance.choice(["check", "check", "apply"]), path])

    def calendar(self, chance: random.Random) -> Attack:
        path = self._put("days.ics", mutated(CALENDAR.encode(), chance))
        return self._run(["room", "days-off", path])

    def design(self, chance: random.Random) -> Attack:
        folder = self.db.parent / "labels" / "design"
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "clip.toml").write_bytes(mutated(DESIGN.encode(), chance))
        try:
            pdf = self.folder / "clips.pdf"
            pdf.unlink(missing_ok=True)
            return self._run(["labels", "clips", "1-2", "--out", str(pdf)])
        finally:
            (folder / "clip.toml").unlink()

    def taken_in(self, chance: random.Random) -> Attack:
        name = chance.choice(sorted(self.tables))
        (self.export / name).write_bytes(mutated(self.tables[name], chance))
        try:
            made = self.folder / "taken.db"
            made.unlink(missing_ok=True)
            return self._run(["--db", str(made), "import", str(self.export)])
        finally:
            (self.export / name).write_bytes(self.tables[name])

    def file(self, chance: random.Random) -> Attack:
        path = self.folder / "spoilt.db"
        for each in self.folder.glob("spoilt.db-*"):
            each.unlink()
        path.write_bytes(self.db.read_bytes())
        spoil(path, chance)
        command = chance.choice([["find", "olu"], ["due", "--json"], ["check"], ["flip", "17"]])
        return self._run(["--db", str(path), *command])

    def _put(self, name: str, data: bytes) -> str:
        path = self.folder / name
        path.write_bytes(data)
        return str(path)

    def _run(self, words: list[str]) -> Attack:
        out, err, fault, code = io.StringIO(), io.StringIO(), "", -1
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            try:
                code = run(words if words[:1] == ["--db"] else ["--db", str(self.db), *words])
            except BaseException:
                fault = traceback.format_exc()
        return Attack(words, code, out.getvalue(), err.getvalue(), fault)


def harm(attack: Attack) -> str | None:
    """Return what an attack has done that it must not, or None."""
    if attack.fault:
        return attack.fault
    if attack.code not in (0, 1, 2, 3):
        return f"exit code {attack.code}"
    if "Traceback" in attack.err:
        return attack.err
    steering = [c for c in attack.out + attack.err if c not in "\n\t" and steers(c)]
    if steering:
        return f"steers the terminal: {steering!r}"
    return None
