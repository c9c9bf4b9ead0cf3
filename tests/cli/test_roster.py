from __future__ import annotations

from tests.cli.conftest import Shell

CLASS = 'Student,ID,Homeroom,Block\n"Okafor, Mara",S-101,12,1\n"Reyes, Ana",S-104,12,Period 2\n'


def test_a_roster_is_taken_in_and_again_is_harmless(shell: Shell):
    name = shell.write("class.csv", CLASS)
    first = shell.json("roster", name)
    assert (first["term"], first["added"], first["updated"], first["unchanged"]) == ("26F", 1, 0, 1)
    assert first["refused"] == []
    before = shell.school.dump()
    again = shell.json("roster", name)
    assert (again["added"], again["updated"], again["unchanged"]) == (0, 0, 2)
    assert shell.school.dump() == before


def test_the_mapping_is_shown_before_anything_is_written(shell: Shell):
    before = shell.school.dump()
    out = shell.type("roster", shell.write("class.csv", CLASS), "--dry-run")
    assert "read as UTF-8, cells parted by comma" in out
    assert out.index("whole name") < out.index("1 added")
    assert "Homeroom" in out
    assert shell.school.dump() == before
    assert shell.json("roster", "class.csv", "--dry-run")["mapping"] == {
        "encoding": "UTF-8",
        "separator": "comma",
        "columns": {"Student": "full", "ID": "school_id", "Block": "period"},
        "not_used": ["Homeroom"],
    }


def test_bad_lines_are_refused_with_exit_0_and_the_others_taken(shell: Shell):
    name = shell.write("class.csv", CLASS + '"Lo, Cy",S-9,12,11\n')
    done = shell.json("roster", name)
    assert shell.code == 0
    assert [each["line"] for each in done["refused"]] == [4]
    assert "11" in done["refused"][0]["why"]
    assert done["added"] == 1


def test_a_period_may_be_given_for_the_whole_roster(shell: Shell):
    name = shell.write("class.csv", "Name\nAna Reyes\n")
    assert shell.json("roster", name, "--period", "2")["added"] == 1
    shell.type("roster", name, "--period", "9")
    assert shell.code == 1
    assert "1 (Period 1), 2 (Period 2)" in shell.err


def test_who_is_not_on_the_roster_may_have_left(shell: Shell):
    name = shell.write("class.csv", "Name,ID,Period\nOlu Adeyemi,S-102,2\n")
    assert shell.json("roster", name, "--others-left")["left"] == 1  # Ivo, of the same period
    shell.type("load", "ivo", "--clip", "4")
    assert shell.code == 1


def test_what_is_no_roster_is_refused(shell: Shell):
    shell.type("roster", shell.write("class.csv", b"\x00\x01"))
    assert shell.code == 1
    shell.type("roster", "none.csv")
    assert shell.code == 2
    shell.type("roster", shell.write("class.csv", CLASS), "--term", "26X")
    assert shell.code == 1
    assert "term open" in shell.err
