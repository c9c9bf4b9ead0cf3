from __future__ import annotations

import pytest

from filmrack.acts.hanging import hang
from tests.cli.conftest import Shell
from tests.conftest import MARA

FAIR = """BEGIN:VCALENDAR
VERSION:2.0
PRODID:x
BEGIN:VEVENT
UID:1@example.com
DTSTART;VALUE=DATE:20261126
DTEND;VALUE=DATE:20261128
SUMMARY:No school - fair
END:VEVENT
BEGIN:VEVENT
UID:2@example.com
DTSTART;VALUE=DATE:20261201
SUMMARY:Spirit day
END:VEVENT
END:VCALENDAR
"""


def edited(shell: Shell, old: str, new: str) -> str:
    text = shell.type("room", "export")
    assert old in text
    return shell.write("room.toml", text.replace(old, new, 1))


def test_the_room_goes_out_is_edited_and_comes_in_with_its_comments(shell: Shell):
    assert shell.type("room", "export", "room.toml")
    path = shell.folder / "room.toml"
    path.write_text(
        path.read_text().replace('name = "Darkroom"', 'name = "Room 12"  # by the stairs')
    )
    assert shell.type("room", "check", "room.toml")
    assert shell.code == 0
    shell.type("room", "apply", "room.toml")
    assert shell.code == 0
    assert shell.school.file.room().name == "Room 12"
    assert 'name = "Room 12"  # by the stairs' in shell.type("room", "export")


def test_an_export_is_never_written_over_a_file(shell: Shell):
    shell.write("room.toml", "mine")
    shell.type("room", "export", "room.toml")
    assert shell.code == 1
    assert (shell.folder / "room.toml").read_text() == "mine"


@pytest.mark.parametrize("act", ["check", "apply"])
def test_every_mistake_is_named_by_its_key_and_nothing_changed(shell: Shell, act: str):
    name = edited(shell, "positions = 3", "positions = 300")
    before = shell.school.dump()
    assert shell.json("room", act, name) == {
        "problems": [{"key": "rods[1].positions", "advice": "give a whole number from 1 to 99"}]
    }
    assert shell.code == 1
    assert "rods[1].positions: give a whole number" in shell.type("room", act, name)
    assert shell.school.dump() == before


def test_a_room_file_that_takes_a_rod_from_a_roll_is_refused(shell: Shell):
    roll = hang(shell.school.file, shell.school.hand(), person=MARA, clip=17, position=3).roll
    name = edited(shell, "positions = 3", "positions = 2")
    shell.type("room", "apply", name)
    assert shell.code == 1
    assert roll.number in shell.err
    assert shell.err.count("\n") == 1


def test_a_room_without_mistakes_has_no_problems(shell: Shell):
    name = edited(shell, 'name = "Darkroom"', 'name = "Dark"')
    assert shell.json("room", "check", name) == {"problems": []}
    assert shell.json("room", "apply", name) == {"problems": []}
    assert shell.code == 0


def test_bytes_that_are_no_text_are_a_mistake_too(shell: Shell):
    shell.type("room", "apply", shell.write("room.toml", b"\xff\x00"))
    assert shell.code == 1
    assert "UTF-8" in shell.out


def test_a_file_that_is_not_there_is_wrong_usage(shell: Shell):
    shell.type("room", "check", "none.toml")
    assert shell.code == 2


def test_days_off_come_from_a_calendar_by_their_words(shell: Shell):
    name = shell.write("school.ics", FAIR)
    wanted = [{"name": "No school - fair", "first": "2026-11-26", "last": "2026-11-27"}]
    before = shell.school.dump()
    dry = ("room", "days-off", name, "--matching", "no school", "--dry-run")
    assert shell.json(*dry) == {"added": wanted}
    assert shell.school.dump() == before
    assert shell.json("room", "days-off", name, "--matching", "no school") == {"added": wanted}
    assert shell.json("room", "days-off", name, "--matching", "no school") == {"added": []}
    assert "2026-11-26" in shell.type("room", "export")


def test_a_calendar_that_is_none_is_refused(shell: Shell):
    shell.type("room", "days-off", shell.write("x.ics", "nothing"))
    assert shell.code == 1
    assert "no calendar" in shell.err
