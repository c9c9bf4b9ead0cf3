"""Wiping a person: afterwards no byte of the file, its journal or its backups holds their name.

Checked by reading the raw bytes, as anybody with a disk could (SQLite's documentation of
`secure_delete` and of `VACUUM` says that deleted content is overwritten and free pages go).
"""

from __future__ import annotations

import shutil
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from filmrack.acts import archiving, fetching, hanging, lending, owning, people, shelving, wiping
from filmrack.acts.refitting import export_room, refit
from filmrack.acts.rostering import take_roster
from filmrack.acts.terms import open_term
from filmrack.acts.undoing import undo
from filmrack.domain.refusal import FileTrouble, Refused
from filmrack.domain.room import Room
from filmrack.domain.roomfile import examine
from filmrack.domain.roomrules import Rules
from filmrack.domain.roster import read_roster
from filmrack.store import backup, checking, search
from filmrack.store import people as kept
from filmrack.store.beside import draft_of
from filmrack.store.file import open_file
from filmrack.store.room import bump_stamp, read_room
from filmrack.store.room_writing import write_room
from tests.conftest import IVO, MARA, OLU, School, build

NAMES = (
    b"Mara",
    b"mara",
    b"Okafor",
    b"okafor",
    b"S-101",
    b"Mo Okafor",
    b"Zainab",
    b"zainab",
    b"rofako",
    b"baniaz",
)


def bytes_of(school: School) -> bytes:
    """Return all bytes beside the file and below: file, journal, backups."""
    folder = school.file.path.parent
    return b"".join(path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file())


def found_in(school: School) -> list[bytes]:
    return [name for name in NAMES if name in bytes_of(school)]


@pytest.fixture
def roll(school: School) -> int:
    """Return Mara's filed roll; her name stands in three notes, and in those of two renamings."""
    file = school.file
    people.rename(file, school.hand(), MARA, given="Zainab")
    number = hanging.hang(file, school.hand(), person=MARA, clip=17, clue="Zainab's red tape")
    roll = number.roll.id
    backup.back_up(file, backup.make_backups_folder(file.path) / "early.db")
    people.rename(file, school.hand(), MARA, given="Mara", called="Mo")
    fetching.take(file, school.hand(), roll)
    archiving.sleeve(file, school.hand(), roll)
    archiving.file_in_binder(file, school.hand(), [roll], 2)
    owning.note(file, school.hand(), roll, "zainab asked for a print")
    other = shelving.shelve(file, school.hand(), 3, owner="Okafor, older brother?").id
    owning.note(file, school.hand(), other, "fogged at frame 4")
    backup.back_up(file, backup.make_backups_folder(file.path) / "late.db")
    assert set(found_in(school)) == set(NAMES) - {b"Mo Okafor"}
    return roll


def test_no_byte_holds_the_name_of_who_is_wiped(school: School, roll: int) -> None:
    wiped = wiping.wipe(school.file, [MARA], school.now)
    assert found_in(school) == []
    assert (wiped.people, wiped.notes, len(wiped.backups), wiped.left) == ((MARA,), 5, 2, ())


def test_rolls_and_ledger_stay_without_a_name(school: School, roll: int) -> None:
    conn = school.file.conn
    before = [tuple(row) for row in conn.execute("SELECT * FROM ledger")]
    rolls = school.roll(roll)
    wiping.wipe(school.file, [MARA], school.now)
    assert [tuple(row) for row in conn.execute("SELECT * FROM ledger")] == before
    assert school.roll(roll) == rolls
    assert kept.read_people(conn, [MARA])[MARA].full == "person 1"
    assert checking.problems(school.file) == []
    for path in backup.kept_backups(school.file.path):
        with open_file(path, write=False) as copy:
            assert checking.problems(copy) == []
            assert copy.conn.execute("PRAGMA journal_mode").fetchone()[0] == "delete"


def test_who_is_wiped_is_found_by_no_name_and_others_are(school: School, roll: int) -> None:
    wiping.wipe(school.file, [MARA], school.now)
    assert search.find(school.file.conn, "okafor") == []
    assert search.who(school.file.conn, "olu adeyemi").number == OLU
    texts = [row[0] for row in school.file.conn.execute("SELECT text FROM notes WHERE text <> ''")]
    assert texts == ["fogged at frame 4"]


def test_wiping_again_is_harmless(school: School, roll: int) -> None:
    wiping.wipe(school.file, [MARA], school.now)
    before = school.dump()
    school.wait(5)
    assert wiping.wipe(school.file, [MARA], school.now).notes == 0
    assert school.dump() == before


def test_nobody_is_wiped_when_one_is_not_there(school: School, roll: int) -> None:
    before = school.dump()
    with pytest.raises(Refused, match="no person 77"):
        wiping.wipe(school.file, [MARA, 77], school.now)
    assert school.dump() == before


def test_a_backup_of_another_darkroom_is_left_alone(school: School, tmp_path: Path) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    other = tmp_path / "elsewhere.db"
    build(other)
    with open_file(other, write=True) as file:
        hanging.hang(file, school.hand(desk="desk 9"), person=MARA, clip=3)
        there = backup.back_up(
            file, backup.make_backups_folder(school.file.path) / "theirs.db"
        ).file
    before = there.read_bytes()
    assert wiping.wipe(school.file, [MARA], school.now).backups == ()
    assert there.read_bytes() == before


def test_a_backup_that_is_damaged_is_named(school: School, roll: int) -> None:
    spoilt = backup.make_backups_folder(school.file.path) / "spoilt.db"
    shutil.copy(school.file.path, spoilt)
    spoilt.write_bytes(spoilt.read_bytes()[:3000])
    ((path, why),) = wiping.wipe(school.file, [MARA], school.now).left
    assert path == spoilt
    assert "spoilt.db" in why


def test_a_draft_that_cannot_be_removed_is_named(
    school: School, roll: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    draft = draft_of(backup.make_backups_folder(school.file.path) / "torn.db")
    draft.write_bytes(b"Mara")

    def in_use(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    with monkeypatch.context() as elsewhere:
        elsewhere.setattr(Path, "unlink", in_use)
        ((path, why),) = wiping.wipe(school.file, [MARA], school.now).left
    assert (path, "cannot be removed (Permission denied): remove it" in why) == (draft, True)
    assert wiping.wipe(school.file, [MARA], school.now).left == ()
    assert found_in(school) == []


def called_after_mara(school: School) -> None:
    """Period 2 bears her name for a while, and so does a comment of the room file."""
    text = export_room(school.file) + '# "Zainab" asked for this # so did Olu\n# keep\n'
    room = examine(text.encode()).room
    assert room is not None
    refit(school.file, school.hand(), room, text)
    refit(school.file, school.hand(), _second_called(room, "Mara's"))
    school.wait(1)
    refit(school.file, school.hand(), _second_called(room, "Second"))


def _second_called(room: Room, name: str) -> Room:
    periods = [one._replace(name=name) if one.number == 2 else one for one in room.periods]
    return room._replace(periods=tuple(periods))


def test_what_the_room_was_called_goes_with_the_name(school: School, roll: int) -> None:
    called_after_mara(school)
    assert b"Mara's" in bytes_of(school)
    wiped = wiping.wipe(school.file, [MARA], school.now)
    assert found_in(school) == []
    assert wiped.room == ()
    room_file = export_room(school.file)
    assert "# keep" in room_file
    assert "so did Olu" not in room_file
    assert checking.problems(school.file) == []


def test_a_change_of_the_room_is_not_taken_back_to_a_wiped_name(school: School, roll: int) -> None:
    called_after_mara(school)
    wiping.wipe(school.file, [MARA], school.now)
    before = school.dump()
    with pytest.raises(Refused, match="a name that was wiped: change it back on the"):
        undo(school.file, school.hand())
    assert school.dump() == before


def test_what_the_room_is_called_now_stays_and_is_told(school: School, roll: int) -> None:
    room = _second_called(school.file.room(), "Okafor's lot")
    refit(school.file, school.hand(), room)
    mara = kept.read_people(school.file.conn, [MARA])[MARA]
    first = wiping.first_the_room(wiping.room_says(school.file, [mara]))
    said, _, todo = first.partition(": ")
    assert said == "the room itself says “Okafor's lot”"
    assert todo == "if that is them, change it on the screen Room first"
    wiped = wiping.wipe(school.file, [MARA], school.now)
    assert wiped.room == ("Okafor's lot",)
    assert "the room itself still says “Okafor's lot”" in wiping.gone_words(wiped)
    assert school.file.room().period(2) == room.period(2)


def test_a_reader_that_holds_old_pages_is_named_and_a_second_wipe_removes_them(
    school: School, roll: int
) -> None:
    school.file.conn.execute("PRAGMA busy_timeout = 50")
    with open_file(school.file.path, write=False) as reader:
        with reader.reading() as conn:
            conn.execute("SELECT count(*) FROM people").fetchone()
            with pytest.raises(FileTrouble, match="wipe again"):
                wiping.wipe(school.file, [MARA], school.now)
        wiping.wipe(school.file, [MARA], school.now)
    assert found_in(school) == []


def with_terms(school: School) -> None:
    """Mara was last here in 24S, Olu in 25F, Ivo in both terms."""
    with school.file.writing() as conn:
        conn.execute("DELETE FROM enrolments")
    for code, year, month in (("24S", 2024, 6), ("25F", 2025, 12)):
        open_term(
            school.file,
            school.hand(),
            code,
            starts=date(year, month, 1),
            ends=date(year, month, 20),
        )
    with school.file.writing() as conn:
        kept.enrol(conn, MARA, "24S", 1)
        kept.enrol(conn, OLU, "25F", 1)
        kept.enrol(conn, IVO, "24S", 1)
        kept.enrol(conn, IVO, "25F", 1)


def old(school: School) -> list[int]:
    return [person.number for person in wiping.kept_too_long(school.file, school.now)]


def test_the_rooms_rule_names_who_was_last_here_too_long_ago(school: School) -> None:
    with_terms(school)
    assert Rules().keep_names_years == 2
    assert old(school) == [MARA]
    school.now = datetime(2027, 12, 20, 18, 0, tzinfo=UTC)
    assert old(school) == [MARA]
    school.now = datetime(2027, 12, 21, 18, 0, tzinfo=UTC)
    assert old(school) == [MARA, OLU, IVO]


def test_a_room_that_keeps_names_longer_names_nobody(school: School) -> None:
    with_terms(school)
    with school.file.writing() as conn:
        room = read_room(conn)
        write_room(conn, room._replace(rules=room.rules._replace(keep_names_years=3)))
        bump_stamp(conn)
    assert old(school) == []


def test_whose_film_hangs_or_who_has_borrowed_a_sleeve_keeps_their_name(school: School) -> None:
    with_terms(school)
    school.now = datetime(2028, 1, 10, 18, 0, tzinfo=UTC)
    open_term(school.file, school.hand(), "28S")
    sleeve = shelving.shelve(school.file, school.hand(), 3).id
    lending.lend(school.file, school.hand(), sleeve, "2028-01-20", to=OLU)
    hanging.hang(school.file, school.hand(), person=IVO, clip=9)
    assert old(school) == [MARA]


def test_a_wiped_school_id_that_comes_back_is_a_new_person(school: School, roll: int) -> None:
    wiping.wipe(school.file, [MARA], school.now)
    text = b"ID,Given,Family,Period\nS-101,Mara,Okafor,1\n"
    assert take_roster(school.file, school.hand(), read_roster(text)).added == 1
    assert school.roll(roll).person == MARA
    assert search.who(school.file.conn, "mara okafor").number != MARA
