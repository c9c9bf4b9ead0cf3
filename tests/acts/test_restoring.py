"""The ways back: a backup in the place of the file, and the state folded anew."""

from __future__ import annotations

import json
import sqlite3
from datetime import timedelta
from pathlib import Path

import pytest

from filmrack.acts import (
    archiving,
    drying,
    fetching,
    hanging,
    lending,
    refitting,
    restoring,
    sweeping,
)
from filmrack.acts.restoring import rebuild, restore
from filmrack.acts.wiping import wipe
from filmrack.cli.app import run
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.store import checking, desks, file, people, schema
from filmrack.store.backup import back_up, kept_backups
from filmrack.store.file import open_file
from filmrack.store.keeping import keep
from tests.conftest import IVO, MARA, OLU, School, build, entries, open_school


@pytest.fixture
def busy(school: School) -> School:
    """Something of everything: hanging, checked, boxed by a sweep, sleeved, printed, lent."""
    f = school.file
    wet = hanging.hang(f, school.hand(ago=60), person=MARA, clip=17).roll.id
    drying.flip(f, school.hand(ago=50), [wet])
    drying.touch(f, school.hand(ago=40), wet, dry=False)
    dry = hanging.hang(f, school.hand(ago=300), person=OLU, clip=18).roll.id
    fetching.box(f, school.hand(ago=100), [dry])
    lent = hanging.hang(f, school.hand(ago=900), person=IVO, clip=19).roll.id
    archiving.sleeve(f, school.hand(ago=500), lent)
    archiving.contact(f, school.hand(ago=400), lent, picks=[4, 11])
    archiving.file_in_binder(f, school.hand(ago=300), [lent], 3)
    lending.lend(f, school.hand(ago=30), lent, "2026-11-27", to=OLU)
    hanging.load(f, school.hand(), OLU, [20])
    sweeping.sweep(f, school.hand(), period=1, counts={1: 1}, finish=True)
    assert checking.problems(f) == []
    return school


@pytest.fixture
def kept(busy: School, tmp_path: Path) -> Path:
    return back_up(busy.file, tmp_path / "kept.db").file


def test_a_backup_comes_back_under_open_desks_and_what_it_replaces_is_kept(
    busy: School, db: Path, kept: Path
):
    before, backup_bytes = busy.dump(), kept.read_bytes()
    hanging.load(busy.file, busy.hand(), OLU, [21])
    later = busy.dump()
    version = busy.file.conn.execute("PRAGMA data_version").fetchone()[0]
    done = restore(db, kept, busy.now)
    assert busy.file.conn.execute("PRAGMA data_version").fetchone()[0] != version
    assert rows(busy.dump()) == rows(before)
    assert checking.problems(busy.file) == []
    assert kept.read_bytes() == backup_bytes
    assert done.kept is not None
    with open_file(done.kept, write=False) as replaced:
        assert rows("\n".join(replaced.conn.iterdump())) == rows(later)
    hanging.load(busy.file, busy.hand(), OLU, [22])  # an open desk goes on
    assert checking.problems(busy.file) == []


def rows(dump: str) -> list[str]:
    """Leave out what tells open desks of a change."""
    return sorted(line for line in dump.splitlines() if "room_stamp" not in line)


def test_an_open_desk_sees_the_room_of_the_backup(busy: School, db: Path, kept: Path):
    room = busy.file.room()
    refitting.refit(busy.file, busy.hand(), room._replace(name="Room 9"))
    assert busy.file.room().name == "Room 9"
    restore(db, kept, busy.now)
    assert busy.file.room().name == room.name


def test_a_restore_looks_like_no_power_cut(busy: School, db: Path, kept: Path):
    late = busy.now + timedelta(hours=3)
    with busy.file.writing() as conn:
        desks.beat(conn, "desk 1", busy.now, late)
    restore(db, kept, late)
    assert desks.last_beat(busy.file.conn) == late


def test_what_is_no_whole_backup_is_refused_and_nothing_changed(
    busy: School, db: Path, kept: Path, tmp_path: Path
):
    before = busy.dump()
    torn = tmp_path / "torn.db"
    torn.write_bytes(kept.read_bytes()[:9000])
    letter = tmp_path / "letter.db"
    letter.write_text("Dear darkroom, " * 400)
    for source in (torn, letter, tmp_path / "nowhere.db", tmp_path):
        with pytest.raises(FileTrouble):
            restore(db, source, busy.now)
    with pytest.raises(Refused, match="is the darkroom file itself"):
        restore(db, db, busy.now)
    assert busy.dump() == before
    assert not list(db.parent.glob(".*"))


def test_a_backup_of_a_newer_version_is_refused(busy: School, db: Path, kept: Path):
    with sqlite3.connect(kept) as conn:
        conn.execute("PRAGMA user_version = 99")
    conn.close()
    with pytest.raises(FileTrouble, match="newer Filmrack"):
        restore(db, kept, busy.now)


def test_a_backup_of_an_earlier_version_comes_back_as_one_of_this(
    busy: School, db: Path, kept: Path, monkeypatch: pytest.MonkeyPatch
):
    steps = (*schema.STEPS, "CREATE TABLE songs (title TEXT);\n")
    monkeypatch.setattr(schema, "STEPS", steps)
    monkeypatch.setattr(file, "VERSION", len(steps))
    before = kept.read_bytes()
    restore(db, kept, busy.now)
    assert kept.read_bytes() == before
    assert busy.file.conn.execute("SELECT count(*) FROM songs").fetchone()[0] == 0


@pytest.mark.parametrize("damage", ["header", "middle", "torn", "gone", "empty"])
def test_a_damaged_file_is_moved_out_of_the_way_whole(
    busy: School, db: Path, kept: Path, damage: str
):
    busy.file.close()
    whole = db.read_bytes()
    match damage:
        case "header":
            db.write_bytes(b"\xff" * 100 + whole[100:])
        case "middle":
            db.write_bytes(whole[:4096] + b"\xff" * 8192 + whole[4096 + 8192 :])
        case "torn":
            db.write_bytes(whole[: len(whole) // 2])
        case "empty":
            db.write_bytes(b"")
        case "gone":
            db.unlink()
    damaged = db.read_bytes() if db.exists() else None
    done = restore(db, kept, busy.now)
    assert (done.kept.read_bytes() if done.kept else None) == damaged
    back = open_school(db)
    assert checking.problems(back.file) == []
    assert entries(db) == entries(kept)
    back.file.close()
    busy.file = open_file(db, write=True)


def test_names_wiped_since_the_backup_stay_wiped(busy: School, db: Path, kept: Path):
    wipe(busy.file, [IVO], busy.now)
    restore(db, kept, busy.now)
    person = people.read_people(busy.file.conn, [IVO])[IVO]
    assert (person.given, person.family) == ("", "")
    busy.file.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    assert b"Lindqvist" not in db.read_bytes()
    assert b"Lindqvist" in kept.read_bytes()  # the copy that was brought is not ours to change


def spoil(db: Path) -> None:
    db.write_bytes(b"\xff" * 100 + db.read_bytes()[100:])


def test_over_a_damaged_file_names_stay_wiped_that_are_so_in_a_backup_beside_it(
    busy: School, db: Path, kept: Path
):
    keep(busy.file, "daily", busy.now)
    wipe(busy.file, [IVO], busy.now)
    busy.file.close()
    spoil(db)
    assert not restore(db, kept, busy.now).wiped_known
    assert b"Lindqvist" not in db.read_bytes()
    busy.file = open_file(db, write=True)
    known = people.read_people(busy.file.conn, [IVO, MARA])
    assert (known[IVO].family, known[MARA].family) == ("", "Okafor")


def test_wiping_names_a_damaged_file_that_was_put_aside(busy: School, db: Path, kept: Path):
    busy.file.close()
    spoil(db)
    aside = restore(db, kept, busy.now).kept
    assert aside is not None
    busy.file = open_file(db, write=True)
    ((path, why),) = wipe(busy.file, [IVO], busy.now).left
    assert path == aside
    assert "cannot be wiped: remove it" in why
    assert b"Lindqvist" in aside.read_bytes()
    aside.unlink()
    assert wipe(busy.file, [IVO], busy.now).left == ()


def test_a_wiped_name_is_in_no_file_that_a_killed_restore_left(
    busy: School, db: Path, kept: Path, monkeypatch: pytest.MonkeyPatch
):
    def killed(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as at_that_moment:
        at_that_moment.setattr(restoring, "_through", killed)
        at_that_moment.setattr(restoring, "remove", lambda _: None)
        with pytest.raises(KeyboardInterrupt):
            restore(db, kept, busy.now)
    kept.unlink()
    (draft,) = db.parent.glob(".*.part")
    assert b"Lindqvist" in draft.read_bytes()
    assert wipe(busy.file, [IVO], busy.now).left == ()
    assert not any(b"Lindqvist" in each.read_bytes() for each in db.parent.iterdir())


def test_a_backup_of_another_darkroom_says_nothing_of_who_was_wiped(
    busy: School, db: Path, kept: Path, tmp_path: Path
):
    (tmp_path / "other").mkdir()
    other = tmp_path / "other" / db.name
    build(other)
    with open_file(other, write=True) as file:
        hanging.load(file, busy.hand(), OLU, [40])
        wipe(file, [IVO], busy.now)
        made = keep(file, "daily", busy.now).file
    (db.parent / "backups").mkdir()
    made.rename(db.parent / "backups" / made.name)
    busy.file.close()
    spoil(db)
    restore(db, kept, busy.now)
    busy.file = open_file(db, write=True)
    assert people.read_people(busy.file.conn, [IVO])[IVO].family == "Lindqvist"


@pytest.mark.parametrize(("damage", "told"), [("spoiled", True), ("gone", True), ("", False)])
def test_where_no_whole_file_can_be_asked_who_was_wiped_restore_says_so(
    busy: School, db: Path, kept: Path, capsys: pytest.CaptureFixture[str], damage: str, told: bool
):
    wipe(busy.file, [IVO], busy.now)
    busy.file.close()
    if damage == "spoiled":
        spoil(db)
    elif damage == "gone":
        db.unlink()
    assert run(["--db", str(db), "restore", str(kept)]) == 0
    assert ("names wiped after that backup was made may be back" in capsys.readouterr().out) == told
    assert run(["--db", str(db), "restore", "--json", str(kept)]) == 0
    assert json.loads(capsys.readouterr().out)["wiped_known"]  # it is whole again
    busy.file = open_file(db, write=True)
    family = people.read_people(busy.file.conn, [IVO])[IVO].family
    assert family == ("Lindqvist" if told else "")  # no backup lay beside it that could tell


WRONG = [
    "UPDATE rolls SET clip = NULL WHERE id = 1",
    "UPDATE rolls SET stays = 'x'",
    "UPDATE rolls SET person = 3",
    "DELETE FROM rolls WHERE id = 2",
    "INSERT INTO rolls (id, term, serial, film, place, since, seen, seen_at, first_at)"
    " VALUES (99, '26F', 5, '', 'missing', '2026-11-17', 'missing', '2026-11-17', '2026-11-17')",
    "DELETE FROM touch_checks; DELETE FROM sleeves; DELETE FROM contact_sheets; DELETE FROM loans",
    "DELETE FROM fan_runs",
    "UPDATE fan_runs SET ends = '2027-01-01T00:00:00Z'",
    "DELETE FROM lessons; DELETE FROM learned",
    "UPDATE learned SET least = 9",
    "UPDATE lessons SET checks = '[]'",
    "DELETE FROM sweep_counts",
    "UPDATE sweeps SET finished = NULL, period = NULL",
    "DELETE FROM sweep_counts; DELETE FROM sweeps",
    "UPDATE terms SET closed_at = '2026-11-17T15:00:00Z'",
]


@pytest.mark.parametrize("wrong", WRONG)
def test_state_that_is_not_the_ledger_is_folded_anew(busy: School, db: Path, wrong: str):
    before = busy.dump()
    busy.file.conn.executescript(f"PRAGMA foreign_keys = OFF; {wrong}; PRAGMA foreign_keys = ON")
    spoiled = busy.dump()
    named = checking.problems(busy.file)
    assert named
    done = rebuild(busy.file, busy.now)
    assert list(done.problems) == named
    assert checking.problems(busy.file) == []
    if "INSERT" not in wrong:
        assert busy.dump() == before
    assert done.backup is not None
    with sqlite3.connect(done.backup.file) as copy:
        assert "\n".join(copy.iterdump()) == spoiled
    copy.close()
    hanging.load(busy.file, busy.hand(), OLU, [22])
    assert checking.problems(busy.file) == []


def test_where_nothing_is_wrong_nothing_is_written(busy: School, db: Path):
    before = busy.dump()
    assert rebuild(busy.file, busy.now).backup is None
    assert (busy.dump(), kept_backups(db)) == (before, [])


@pytest.mark.parametrize(
    ("wrong", "why"),
    [
        ("DELETE FROM ledger WHERE act = 'load' AND roll = 1", "makes no sense"),
        ("UPDATE ledger SET detail = '{}' WHERE act = 'hang'", "makes no sense"),
        ("DELETE FROM ledger WHERE id = (SELECT max(id) FROM ledger)", "its end is cut"),
        (
            "UPDATE ledger SET detail = json_set(detail, '$.clip', 17)"
            " WHERE act = 'load' AND roll = 2",
            "cannot be folded",
        ),
    ],
)
def test_where_the_ledger_is_at_fault_nothing_is_changed_and_a_backup_is_the_way(
    busy: School, wrong: str, why: str
):
    busy.file.conn.executescript(
        "DROP TRIGGER ledger_is_never_shortened; DROP TRIGGER ledger_is_never_changed;"
        f"PRAGMA foreign_keys = OFF; {wrong}; PRAGMA foreign_keys = ON"
    )
    before = busy.dump()
    with pytest.raises(Refused, match=f"{why}.*restore"):
        rebuild(busy.file, busy.now)
    assert busy.dump() == before
