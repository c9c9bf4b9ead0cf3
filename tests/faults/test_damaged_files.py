"""Files damaged at random bytes, torn by power cuts, on full disks, swapped or removed."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from filmrack.acts import hanging
from filmrack.cli.app import run
from filmrack.domain.refusal import FileTrouble
from filmrack.store import checking
from filmrack.store.file import open_file
from filmrack.store.keeping import keep
from tests.conftest import MARA, OLU, School, open_school
from tests.desk.at_desk import at_desk
from tests.faults.damage import cut_copy, spoil

DAMAGED = int(os.environ.get("FILMRACK_DAMAGED", "40"))
COMMANDS = (
    ["find", "mara"],
    ["due"],
    ["show", "17"],
    ["flip", "17"],
    ["hang", "olu", "--clip", "30"],
    ["undo"],
    ["check"],
    ["term", "report", "26F"],
    ["find", "--json", "26F"],
)


@pytest.fixture
def busy(school: School, db: Path) -> School:
    for clip in range(1, 25):
        hanging.load(school.file, school.hand(), OLU, [clip + 100])
    hanging.hang(school.file, school.hand(ago=20), person=MARA, clip=17)
    return school


@pytest.fixture
def closed(busy: School, tmp_path: Path) -> Path:
    """One whole file without a journal, with a backup in the folder beside it."""
    folder = tmp_path / "shelf"
    folder.mkdir()
    path = folder / "darkroom.db"
    with sqlite3.connect(path) as copy:
        busy.file.conn.backup(copy)
    copy.close()
    with open_file(path, write=True) as file:
        keep(file, "daily", busy.now)
    return path


def entries(path: Path) -> int:
    """Return how many entries can be read of a file that may be damaged."""
    with suppress(sqlite3.DatabaseError, UnicodeDecodeError):
        conn = sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)
        try:
            number: int = conn.execute("SELECT max(id) FROM ledger").fetchone()[0] or 0
            return number
        finally:
            conn.close()
    return 0


@pytest.mark.parametrize("seed", range(DAMAGED))
def test_a_damaged_file_is_named_in_one_sentence_and_left_as_it_is(
    closed: Path, capsys: pytest.CaptureFixture[str], seed: int
):
    chance = random.Random(seed)
    spoil(closed, chance)
    for words in COMMANDS:
        damaged, before = closed.read_bytes(), entries(closed)
        code = run(["--db", str(closed), *words])
        printed = capsys.readouterr()
        assert "Traceback" not in printed.err
        assert code in (0, 1, 3), words
        if code == 3:
            assert printed.err.count("\n") == 1, printed.err
            # An act that was done whole before the damage was met in showing it stays done.
            assert closed.read_bytes() == damaged or entries(closed) > before
            if "backup" in printed.err:
                assert "daily.db, " in printed.err
                assert "read to its end" in printed.err
        if words[0] in ("find", "due", "show", "term"):
            assert closed.read_bytes() == damaged


@pytest.mark.parametrize("seed", range(12))
async def test_a_file_damaged_under_an_open_desk_is_told_and_the_desk_goes_on(
    closed: Path, seed: int
):
    async with at_desk(closed) as desk:
        desk.app.session.file.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        data = bytearray(closed.read_bytes())
        chance = random.Random(seed)
        start = 4096 * chance.randrange(1, len(data) // 4096)
        size = len(data) - start
        data[start:] = chance.randbytes(size) if seed % 2 else bytes(size)
        with closed.open("r+b") as file:  # the same file: a desk would see another one
            file.write(data)
        other = sqlite3.connect(closed)
        other.close()
        desk.app.session.acted()
        await desk.wait(seconds=10)
        for act in ("30 olu", "17 flip", "undo"):
            told = await desk.say(act)
            assert f"{closed} is damaged" in told
            assert "go back to the newest backup, which is" in told
        for line in ("mar", "boxes", "archive", "room", "sweep"):
            await desk.say(line)
        assert desk.app.is_running


@pytest.mark.parametrize("cut", [0, 0.1, 0.33, 0.5, 0.77, 0.9, 0.999, 1])
def test_after_a_power_cut_the_file_is_whole_up_to_some_act(
    busy: School, tmp_path: Path, cut: float
):
    busy.file.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    before = busy.file.conn.execute("SELECT max(id) FROM ledger").fetchone()[0]
    for clip in range(1, 15):
        hanging.load(busy.file, busy.hand(), OLU, [clip])
    after = busy.file.conn.execute("SELECT max(id) FROM ledger").fetchone()[0]
    copy = tmp_path / "after.db"
    cut_copy(busy.file.path, copy, cut)
    back = open_school(copy)
    there = back.file.conn.execute("SELECT max(id) FROM ledger").fetchone()[0]
    assert before <= there <= after
    assert cut < 1 or there == after
    assert checking.problems(back.file) == []
    hanging.load(back.file, back.hand(), OLU, [99])
    assert checking.problems(back.file) == []
    back.file.close()


FULL = """
import resource, signal, sys
from filmrack.cli.app import run
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
run(["--db", sys.argv[1], "due"])
size = int(sys.argv[2])
resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))
sys.exit(run(["--db", *sys.argv[1:2], *sys.argv[3:]]))
"""


@pytest.mark.parametrize("words", [["hang", "olu", "--clip", "30"], ["backup", "copy.db"]])
def test_where_no_byte_more_can_be_written_nothing_is_changed(closed: Path, words: list[str]):
    before = closed.read_bytes()
    command = [sys.executable, "-c", FULL, str(closed), "4096", *words]
    done = subprocess.run(
        command,
        capture_output=True,
        text=True,
        check=False,
        cwd=closed.parent,
        timeout=60,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])},
    )
    assert done.returncode == 3, done.stderr
    assert "Traceback" not in done.stderr
    assert "filmrack: " in done.stderr
    assert not (closed.parent / "copy.db").exists()
    assert not list(closed.parent.glob(".*"))
    with open_file(closed, write=False) as file:
        assert checking.problems(file) == []
    assert closed.read_bytes() == before


@pytest.fixture
def tiny() -> Iterator[Path]:
    """Return a folder on a disk of one megabyte."""
    folder = Path(tempfile.mkdtemp())
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", str(folder)],
        capture_output=True,
        check=False,
    )
    if mounted.returncode != 0:
        folder.rmdir()
        pytest.skip("no disk can be mounted here")
    yield folder
    subprocess.run(["umount", "-l", str(folder)], check=True)
    folder.rmdir()


def test_on_a_full_disk_an_act_is_refused_whole_and_goes_on_when_there_is_room(
    closed: Path, tiny: Path
):
    path = Path(shutil.copy(closed, tiny / "darkroom.db"))
    school = open_school(path)
    filler = tiny / "filler"
    with suppress(OSError), filler.open("wb", buffering=0) as file:
        while file.write(bytes(1024)):
            pass
    done = 0

    def load_until_full() -> None:
        nonlocal done
        for clip in range(1, 400):
            hanging.load(school.file, school.hand(), OLU, [clip + 200])
            done += 1

    with pytest.raises(FileTrouble, match="is full: make room and try again"):
        load_until_full()
    loads = "SELECT count(*) FROM ledger WHERE act = 'load'"
    assert school.file.conn.execute(loads).fetchone()[0] == 25 + done
    filler.unlink()
    assert checking.problems(school.file) == []
    hanging.load(school.file, school.hand(), OLU, [199])
    school.file.close()


def test_a_disk_without_room_for_the_backup_stops_no_act(
    closed: Path, capsys: pytest.CaptureFixture[str]
):
    (closed.parent / "backups").rename(closed.parent / "old")
    (closed.parent / "backups").write_text("in the way")
    assert run(["--db", str(closed), "hang", "olu", "--clip", "30"]) == 0
    printed = capsys.readouterr()
    assert "clip 30" in printed.out
    assert "there is no backup of today" in printed.err
    assert printed.err.count("\n") == 1


def test_the_first_command_of_a_day_that_writes_makes_the_backup(
    closed: Path, capsys: pytest.CaptureFixture[str]
):
    folder = closed.parent / "backups"
    before = set(folder.iterdir())
    assert run(["--db", str(closed), "due"]) == 0
    assert set(folder.iterdir()) == before
    assert run(["--db", str(closed), "hang", "olu", "--clip", "30"]) == 0
    (made,) = set(folder.iterdir()) - before
    assert run(["--db", str(closed), "hang", "olu", "--clip", "31"]) == 0
    assert set(folder.iterdir()) == before | {made}


async def test_a_desk_makes_the_backup_of_its_day(db: Path):
    async with at_desk(db) as desk:
        await desk.app.workers.wait_for_complete()
        await desk.pilot.pause()
    (made,) = (db.parent / "backups").iterdir()
    assert made.name == "darkroom-20261117T150000Z-daily.db"


def test_a_missing_file_names_its_backup(closed: Path, capsys: pytest.CaptureFixture[str]):
    closed.unlink()
    assert run(["--db", str(closed), "due"]) == 3
    assert "daily.db, " in capsys.readouterr().err


def test_restore_and_rebuild_are_commands(closed: Path, capsys: pytest.CaptureFixture[str]):
    (kept,) = (closed.parent / "backups").iterdir()
    closed.write_bytes(b"\xff" * 9000)
    assert run(["--db", str(closed), "restore", str(kept)]) == 0
    assert "damaged.file" in capsys.readouterr().out
    assert run(["--db", str(closed), "check"]) == 0
    with sqlite3.connect(closed) as conn:
        conn.execute("UPDATE rolls SET film = '120-66'")
    conn.close()
    assert run(["--db", str(closed), "check"]) == 1
    assert "check --rebuild" in capsys.readouterr().out
    assert run(["--db", str(closed), "check", "--rebuild"]) == 0
    assert "before-rebuild" in capsys.readouterr().out
    assert run(["--db", str(closed), "check"]) == 0


@pytest.mark.parametrize("version", [0, -234881022])
def test_a_version_that_never_was_is_damage_and_not_an_earlier_file(
    closed: Path, capsys: pytest.CaptureFixture[str], version: int
):
    with sqlite3.connect(closed) as conn:
        conn.execute(f"PRAGMA user_version = {version}")
    conn.close()
    before = closed.read_bytes()
    assert run(["--db", str(closed), "due"]) == 3
    assert "is damaged" in capsys.readouterr().err
    assert closed.read_bytes() == before
    assert len(list((closed.parent / "backups").iterdir())) == 1
