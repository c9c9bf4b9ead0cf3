from __future__ import annotations

from stdnum.iso7064 import mod_97_10

from tests.cli.conftest import Shell


def test_a_person_is_renamed_and_the_former_name_finds_nobody(shell: Shell):
    named = shell.json("person", "rename", "mara", "--given", "Max")
    assert (named["given"], named["family"]) == ("Max", "Okafor")
    assert mod_97_10.validate(named["code"])  # ISO/IEC 7064, by another library
    shell.type("person", "rename", "mara", "--called", "Mo")
    assert shell.code == 1
    assert shell.type("person", "rename", "max", "--called", "Mo") == (
        "Mo Okafor is the name from now on\n"
    )


def test_who_left_is_not_offered_and_may_come_back(shell: Shell):
    shell.type("person", "left", "olu")
    shell.type("load", "olu", "--clip", "4")
    assert shell.code == 1
    shell.type("person", "back", "S-102")
    shell.type("load", "olu", "--clip", "4")
    assert shell.code == 0


def test_a_name_that_cannot_be_shown_is_refused(shell: Shell):
    before = shell.school.dump()
    shell.type("person", "rename", "mara", "--given", "a\x1b[31m")
    assert shell.code == 1
    shell.type("person", "rename", "mara")
    assert shell.code == 1
    shell.type("person", "rename", "nobody", "--given", "x")
    assert shell.code == 1
    assert shell.school.dump() == before


def test_names_are_wiped_only_when_somebody_says_so(shell: Shell) -> None:
    shell.type("person", "wipe", "mara", "okafor")
    assert shell.code == 1
    assert "--yes" in shell.err
    told = shell.json("person", "wipe", "mara", "okafor", "--yes")
    assert told == {"wiped": [1], "notes": 0, "backups": [], "left": [], "room": []}
    shell.type("find", "okafor")
    assert shell.code == 1


def test_the_rooms_rule_wipes_nobody_before_its_time(shell: Shell) -> None:
    assert shell.json("person", "wipe", "--old", "--yes")["wiped"] == []
    assert "2 years" in shell.type("person", "wipe", "--old")
    shell.type("person", "wipe")
    assert shell.code == 2
    shell.type("person", "wipe", "mara", "--old")
    assert shell.code == 2
