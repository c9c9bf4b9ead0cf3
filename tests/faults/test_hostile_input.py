"""Generated scans, lines, rosters, room files, label designs and files do no harm."""

from __future__ import annotations

import csv
import json
import random
import re
from pathlib import Path

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, given, settings

from filmrack.acts.hanging import hang
from filmrack.cli.app import run
from filmrack.domain.names import steers
from filmrack.store import checking
from tests.conftest import OLU, School
from tests.desk.at_desk import at_desk
from tests.faults.hostile import CODE, SIGNS, TIMES, Attacker, harm


@pytest.fixture
def attacker(school: School, db: Path, tmp_path: Path) -> Attacker:
    hang(school.file, school.hand(), person=OLU, clip=17)
    school.file.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    folder = tmp_path / "thrown"
    folder.mkdir()
    return Attacker(db, folder)


@settings(max_examples=120, suppress_health_check=list(HealthCheck))
@given(chance=st.randoms(use_true_random=False))
def test_whatever_is_thrown_ends_in_a_sentence(attacker: Attacker, chance: random.Random):
    attack = attacker.attack(chance)
    assert harm(attack) is None, attack.words


def test_after_many_attacks_the_file_is_whole_and_nothing_lies_elsewhere(
    attacker: Attacker, school: School, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    around = tmp_path / "around"
    around.mkdir()
    monkeypatch.chdir(around)
    chance = random.Random(7)
    for _ in range(150):
        attack = attacker.attack(chance)
        assert harm(attack) is None, attack.words
    assert checking.problems(school.file) == []
    left = {each.name for each in around.iterdir()}
    assert all(re.fullmatch(r"[a-z]+(-[0-9a-z-]+)?\.pdf", name) for name in left), left
    expected = {"darkroom.db", "darkroom.db-wal", "darkroom.db-shm", "labels", "backups"}
    assert {each.name for each in tmp_path.iterdir()} <= expected | {"thrown", "around"}


HAND_EDITED = "Ol\x1b[2J\x9b31m\u202eu\x07\x7f"


@pytest.fixture
def edited(school: School) -> School:
    """Somebody wrote into the file with another program what no command takes."""
    hang(school.file, school.hand(), person=OLU, clip=17)
    with school.file.writing() as conn:
        conn.execute("UPDATE people SET given = ?, family = ? WHERE id = 2", (HAND_EDITED, "=1+1"))
        conn.execute("UPDATE periods SET name = ? WHERE number = 2", (f"[x]{HAND_EDITED}",))
        conn.execute("UPDATE desks SET name = ?", (HAND_EDITED,))
        conn.execute("UPDATE settings SET value = value || ' ' WHERE name = 'room_stamp'")
    return school


@pytest.mark.parametrize(
    "words",
    [
        ["due"], ["show", "17"], ["find", "26F"], ["find", "ol"], ["term", "report", "26F"],
        ["room", "export"], ["flip", "17"], ["check"], ["term", "list"], ["load", "person", "2"],
    ],
)  # fmt: skip
@pytest.mark.parametrize("json_too", [[], ["--json"]])
def test_names_from_a_hand_edited_file_steer_no_terminal(
    edited: School, db: Path, capsys: pytest.CaptureFixture[str], words: list[str],
    json_too: list[str],
):  # fmt: skip
    more = ["--clip", "30"] if words[0] == "load" else []
    code = run(["--db", str(db), *words, *more, *json_too])
    printed = capsys.readouterr()
    assert code in (0, 1, 3)
    assert not [c for c in printed.out + printed.err if c not in "\n\t" and steers(c)]
    if json_too and code == 0:
        json.loads(printed.out)


async def test_names_from_a_hand_edited_file_steer_no_desk(edited: School, db: Path):
    async with at_desk(db) as desk:
        for line in ("board", "dryer", "17", "boxes", "archive", "sweep", "room", "labels"):
            await desk.say(line)
            shown = [desk.app.screen.get_widget_at(5, y)[0] for y in range(2)]
            assert shown
            for widget in desk.app.query("*"):
                if widget.display and widget.size.height and not widget.children:
                    for y in range(widget.size.height):
                        text = "".join(segment.text for segment in widget.render_line(y))
                        assert not [c for c in text if steers(c)], (line, text)
        await desk.say("ol")
        assert desk.app.is_running


async def test_whatever_is_pasted_into_the_line_leaves_the_desk_whole(db: Path):
    async with at_desk(db) as desk:
        for words in (*SIGNS, *CODE, *TIMES):
            await desk.paste(f"17 {words}" if len(words) % 2 else words)
            assert not [c for c in desk.shown if c != "\n" and steers(c)]
            await desk.press("enter", "escape")
            assert desk.app.is_running, words


def test_no_cell_of_an_export_is_a_formula(edited: School, db: Path, tmp_path: Path):
    with edited.file.writing() as conn:
        for number, name in enumerate(["=1+1", "+1", "-1", "@SUM(1)", "\t=1", "\r=1"], 10):
            conn.execute("INSERT INTO notes (id, text) VALUES (?, ?)", (number, name))
    assert run(["--db", str(db), "export", str(tmp_path / "out")]) == 0
    for path in (tmp_path / "out").glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as opened:
            for row in csv.reader(opened):
                for cell in row:
                    assert re.fullmatch(r"-?[0-9.e+-]+", cell) or cell[:1] not in set("=+-@\t\r")


@pytest.mark.parametrize("line", ["/", "´", "\u0301", "·", "- -"])
def test_a_scan_of_signs_alone_is_refused_by_its_line(
    db: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], line: str
):
    scans = tmp_path / "scans.txt"
    scans.write_text(f"rod 1\n{line}\n", encoding="utf-8")
    assert run(["--db", str(db), "sweep", "--scans", str(scans)]) == 1
    assert "line 2: " in capsys.readouterr().err
