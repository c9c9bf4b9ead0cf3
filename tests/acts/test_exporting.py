"""Export and import: the second file is equal to the first, and nothing spoilt becomes a file."""

from __future__ import annotations

import csv
import json
import re
import shutil
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, given, settings

from filmrack.acts import (
    archiving,
    closing,
    drying,
    exporting,
    fetching,
    hanging,
    lending,
    owning,
    people,
    shelving,
    sweeping,
    undoing,
)
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.roll import Roll
from filmrack.store import checking
from filmrack.store.columns import COLUMNS
from filmrack.store.file import DarkroomFile, open_file
from filmrack.store.tables import own_tables
from tests.conftest import IVO, MARA, OLU, School, build, open_school


def dump(file: DarkroomFile) -> list[str]:
    """Return all that a file holds, and its versions."""
    pragmas = [f"{name} {file.conn.execute(f'PRAGMA {name}').fetchone()[0]}" for name in _PRAGMAS]
    schema = file.conn.execute("SELECT sql FROM sqlite_schema WHERE sql <> '' ORDER BY type, name")
    rows = [
        f"{table.name} {row!r}"
        for table in own_tables(file.conn)
        for row in table.rows_where(order_by=", ".join(table.pks))
    ]
    return [*pragmas, *(row[0] for row in schema.fetchall()), *rows]


_PRAGMAS = ("application_id", "user_version")


def busy(school: School) -> None:
    """Let everything happen once that leaves a trace in a table of its own."""
    file, hand = school.file, school.hand
    people.rename(file, hand(), OLU, called="=SUM(A1)")
    roll = hanging.hang(file, hand(), person=MARA, clip=17, clue="-2+3 blue\ttape").roll.id
    school.wait(4)
    drying.flip(file, hand(), [roll])
    drying.touch(file, hand(), roll, dry=False)
    school.wait(20)
    drying.touch(file, hand(), roll, dry=True)
    sweeping.sweep(file, hand(), counts={1: 1}, scans=[], finish=True)
    archiving.sleeve(file, hand(), roll)
    archiving.contact(file, hand(), roll, picks=[4, 11])
    archiving.file_in_binder(file, hand(), [roll], 2)
    owning.note(file, hand(), roll, "@home 'quoted' \"twice\", and ; more")
    old = shelving.shelve(file, hand(), 3, owner="'apostrophe").id
    lending.lend(file, hand(), old, "2026-11-20", to="+1 555")
    hanging.hang(file, hand(), person=IVO, clip=9)
    undoing.undo(file, hand())
    closing.close_term(file, hand(), "26F")


def round_trip(school: School, folder: Path) -> list[str]:
    exporting.export(school.file, folder / "out")
    exporting.take_in(folder / "second.db", folder / "out", school.now)
    with open_file(folder / "second.db", write=False) as second:
        return dump(second)


def test_what_was_exported_makes_an_equal_file(school: School, tmp_path: Path) -> None:
    busy(school)
    assert round_trip(school, tmp_path) == dump(school.file)


def test_a_new_darkroom_makes_an_equal_file(school: School, tmp_path: Path) -> None:
    assert round_trip(school, tmp_path) == dump(school.file)


def test_the_demo_school_makes_an_equal_file(school: School, tmp_path: Path) -> None:
    shipped = Path(__file__).parents[2] / "demo.db"
    with open_file(Path(shutil.copy(shipped, tmp_path / "demo.db")), write=True) as file:
        busy_school = School(file, school.now)
        assert round_trip(busy_school, tmp_path) == dump(file)


def test_every_column_of_every_table_is_described_in_words(school: School) -> None:
    there = {table.name: [*table.columns_dict] for table in own_tables(school.file.conn)}
    assert {name: [*columns] for name, columns in COLUMNS.items()} == there
    assert all(meaning for columns in COLUMNS.values() for meaning in columns.values())


def test_the_folder_says_what_each_column_means(school: School, tmp_path: Path) -> None:
    done = exporting.export(school.file, tmp_path / "out")
    with (tmp_path / "out" / "columns.csv").open(encoding="utf-8-sig", newline="") as opened:
        meanings = {(row["table"], row["column"]): row["meaning"] for row in csv.DictReader(opened)}
    assert meanings["rolls", "serial"].startswith("its number within the term")
    assert {path.name for path in (tmp_path / "out").iterdir()} == set(done.files)


def test_no_cell_begins_like_a_formula(school: School, tmp_path: Path) -> None:
    # OWASP, "CSV Injection" (from memory): a cell that begins with one of = + - @ tab CR is run.
    busy(school)
    exporting.export(school.file, tmp_path / "out")
    marked = 0
    for path in (tmp_path / "out").glob("*.csv"):
        with path.open(encoding="utf-8-sig", newline="") as opened:
            for row in csv.reader(opened):
                for cell in row:
                    assert cell[:1] not in tuple("=+-@\t\r\n"), (path.name, cell)
                    marked += cell.startswith("'")
    assert marked >= 5


def test_the_json_says_what_the_tables_say(school: School, tmp_path: Path) -> None:
    busy(school)
    exporting.export(school.file, tmp_path / "out")
    read = json.loads((tmp_path / "out" / "ledger.json").read_text())
    told = school.file.conn.execute("SELECT id, act, roll FROM ledger ORDER BY id").fetchall()
    assert [(row["id"], row["act"], row["roll"]) for row in read] == [tuple(row) for row in told]
    assert json.loads((tmp_path / "out" / "people.json").read_text())[1]["called"] == "=SUM(A1)"


def test_nothing_is_exported_over_what_is_there(school: School, tmp_path: Path) -> None:
    full = tmp_path / "full"
    full.mkdir()
    (full / "mine.txt").write_text("mine")
    (tmp_path / "link").symlink_to(tmp_path / "gone")
    for folder in (full, full / "mine.txt", tmp_path / "link", Path("/")):
        with pytest.raises(Refused):
            exporting.export(school.file, folder)
    with pytest.raises(FileTrouble):
        exporting.export(school.file, tmp_path / "no" / "where")
    assert [path.name for path in full.iterdir()] == ["mine.txt"]
    assert not list(tmp_path.glob(".*"))


def test_an_empty_folder_is_filled(school: School, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    exporting.export(school.file, tmp_path / "out")
    assert (tmp_path / "out" / "rolls.csv").is_file()


def test_no_file_is_made_over_another(school: School, tmp_path: Path) -> None:
    exporting.export(school.file, tmp_path / "out")
    before = dump(school.file)
    with pytest.raises(Refused, match="exists already"):
        exporting.take_in(school.file.path, tmp_path / "out", school.now)
    assert dump(school.file) == before


def change(path: Path, old: str, new: str) -> None:
    text = path.read_bytes().decode("utf-8-sig")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8-sig", newline="")


def lead_out(path: Path) -> None:
    moved = shutil.move(path, path.parent.parent / path.name)
    path.symlink_to(moved)


def forget_when_the_dial_was_turned(path: Path) -> None:
    text = path.read_bytes().decode("utf-8-sig")
    spoilt = re.sub(r'"[^"]*Z",("[^"]*Z","fan")', r'"x",\1', text)
    assert spoilt != text
    path.write_text(spoilt, encoding="utf-8-sig", newline="")


SPOILT: dict[str, Callable[[Path], object]] = {
    "lacks rolls.csv": lambda out: (out / "rolls.csv").unlink(),
    "is no export": lambda out: (out / "about.json").write_text('{"version": "x"}'),
    "newer": lambda out: (out / "about.json").write_text('{"version": 999}'),
    "first line": lambda out: change(out / "rolls.csv", '"serial"', '"number"'),
    "line 2: “x” is no number for id": lambda out: change(out / "rolls.csv", '"1"', '"x"'),
    "cells instead": lambda out: change(out / "notes.csv", "\r\n", '\r\n"1"\r\n'),
    "do not fit together": lambda out: change(out / "enrolments.csv", '"1"', '"44"'),
    "by the ledger folded": lambda out: change(out / "rolls.csv", '"135-36","36"', '"135-36","35"'),
    "cannot be understood": lambda out: forget_when_the_dial_was_turned(out / "ledger.csv"),
    "gaps": lambda out: change(out / "ledger.csv", '"1"', '"9999"'),
    "leads out": lambda out: lead_out(out / "rolls.csv"),
    "cannot be read": lambda out: (out / "notes.csv").write_bytes(b'"id","text"\r\n"1","\xff\xfe"'),
}


@pytest.mark.parametrize("why", SPOILT)
def test_a_spoilt_export_becomes_no_file_and_says_why(
    school: School, tmp_path: Path, why: str
) -> None:
    busy(school)
    exporting.export(school.file, tmp_path / "out")
    SPOILT[why](tmp_path / "out")
    with pytest.raises(Refused, match=why) as refused:
        exporting.take_in(tmp_path / "second.db", tmp_path / "out", school.now)
    assert "\n" not in str(refused.value)
    assert not list(tmp_path.glob("*second.db*"))


@pytest.fixture(scope="module")
def exported(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the export of the busy school, to be copied and spoilt."""
    folder = tmp_path_factory.mktemp("exported")
    build(folder / "first.db")
    school = open_school(folder / "first.db")
    busy(school)
    exporting.export(school.file, folder / "out")
    school.file.close()
    return folder


CELLS = st.sampled_from(["", "'", "0", "-1", "x", "[]", "{}", "null", "[[1]]", "9" * 19, "void"])


@settings(max_examples=60, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_whatever_is_changed_in_it_is_taken_in_whole_or_refused(
    exported: Path, school: School, tmp_path: Path, data: st.DataObject
) -> None:
    out, second = tmp_path / "out", tmp_path / "second.db"
    shutil.rmtree(out, ignore_errors=True)
    second.unlink(missing_ok=True)
    shutil.copytree(exported / "out", out)
    path = data.draw(st.sampled_from(sorted(out.glob("*.csv"))))
    with path.open(encoding="utf-8-sig", newline="") as opened:
        rows = list(csv.reader(opened))
    row = data.draw(st.integers(0, len(rows) - 1))
    column = data.draw(st.integers(0, len(rows[row]) - 1))
    rows[row][column] = data.draw(CELLS | st.text(max_size=8))
    with path.open("w", encoding="utf-8-sig", newline="", errors="surrogatepass") as opened:
        csv.writer(opened, quoting=csv.QUOTE_ALL).writerows(rows)
    with suppress(Refused):
        exporting.take_in(second, out, school.now)
        with open_file(second, write=True) as file:
            assert checking.problems(file) == []
    assert not list(tmp_path.glob(".*"))


ACTS: list[Callable[[School, int], Roll | object]] = [
    lambda school, n: hanging.hang(school.file, school.hand(), person=n % 3 + 1, clip=n % 5 + 1),
    lambda school, n: fetching.box(school.file, school.hand(), [n]),
    lambda school, n: archiving.sleeve(school.file, school.hand(), n),
    lambda school, n: archiving.file_in_binder(school.file, school.hand(), [n], n % 3 + 1),
    lambda school, n: shelving.shelve(school.file, school.hand(), n % 99 + 1, owner="'" * n),
    lambda school, n: lending.missing(school.file, school.hand(), [n]),
    lambda school, _: undoing.undo(school.file, school.hand()),
    lambda school, _: closing.close_term(school.file, school.hand(), "26F", "=why"),
    lambda school, _: closing.reopen_term(school.file, school.hand(), "26F"),
]


@settings(max_examples=15, suppress_health_check=list(HealthCheck))
@given(
    acts=st.lists(st.tuples(st.sampled_from(ACTS), st.integers(1, 6)), max_size=20),
    texts=st.lists(st.text(st.characters(exclude_categories=["Cs"]), max_size=12), max_size=4),
)
def test_export_then_import_is_the_identity(
    db: Path,
    tmp_path: Path,
    acts: list[tuple[Callable[[School, int], object], int]],
    texts: list[str],
) -> None:
    shutil.rmtree(tmp_path / "law", ignore_errors=True)
    (tmp_path / "law").mkdir()
    school = open_school(Path(shutil.copy(db, tmp_path / "law" / "first.db")))
    with school.file:
        shelving.shelve(school.file, school.hand(), 1)
        for act, number in acts:
            school.wait(7)
            known = school.file.conn.execute("SELECT count(*) FROM rolls").fetchone()[0]
            with suppress(Refused):
                act(school, min(number, known))
        school.file.conn.executemany("INSERT INTO notes (text) VALUES (?)", [(t,) for t in texts])
        assert round_trip(school, tmp_path / "law") == dump(school.file)
