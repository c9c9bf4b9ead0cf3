from __future__ import annotations

from pathlib import Path

from filmrack.acts import archiving, closing, fetching, shelving
from filmrack.acts.hanging import hang
from filmrack.store import people
from tests.cli.conftest import Shell
from tests.conftest import IVO, MARA


def test_the_terms_are_listed_with_their_rolls(shell: Shell):
    hang(shell.school.file, shell.school.hand(), person=MARA, clip=17)
    assert shell.json("term", "list") == [
        {
            "term": "26F",
            "starts": "2026-07-01",
            "ends": "2026-12-31",
            "rolls": 1,
            "running": True,
            "closed": None,
        }
    ]
    assert "26F  Wed 1 Jul 2026 to Thu 31 Dec 2026  1 roll  in force" in shell.type("term", "list")


def test_a_term_is_opened_by_its_code_or_with_its_own_dates(shell: Shell):
    assert shell.json("term", "open", "27s") == {
        "term": "27S",
        "starts": "2027-01-01",
        "ends": "2027-06-30",
    }
    dated = ("term", "open", "27W", "--from", "2027-08-01", "--to", "2027-12-20")
    assert shell.json(*dated)["starts"] == "2027-08-01"
    assert [one["term"] for one in shell.json("term", "list")] == ["26F", "27S", "27W"]


def test_a_term_that_cannot_be_is_refused(shell: Shell):
    for words in (["26F"], ["27O"], ["27W"], ["27W", "--from", "2026-12-01", "--to", "2027-02-01"]):
        shell.type("term", "open", *words)
        assert shell.code == 1
        assert shell.err.count("\n") == 1
    shell.type("term", "open", "27W", "--from", "soon")
    assert shell.code == 2


def test_a_report_counts_every_place_and_names_what_is_unaccounted_for(shell: Shell):
    hung = hang(shell.school.file, shell.school.hand(), person=MARA, clip=17).roll
    shelving.shelve(shell.school.file, shell.school.hand(), 3)
    told = shell.json("term", "report", "26f")
    assert (told["term"], told["rolls"], told["closed"]) == ("26F", 2, None)
    assert sum(told["places"].values()) == told["rolls"]
    assert (told["places"]["rod"], told["places"]["binder"]) == (1, 1)
    assert told["unaccounted"] == [
        {"period": 1, "person": MARA, "who": "Mara Okafor", "rolls": [hung.number]}
    ]
    assert {name: len(some) for name, some in told["owed"].items()} == {
        "no_contact": 1,
        "not_filed": 0,
        "out": 0,
        "missing": 0,
        "unclaimed": 1,
    }
    printed = shell.type("term", "report", "26F")
    assert "not put away yet: 1 roll" in printed
    assert "Mara Okafor" in printed
    assert "of these 2: 1 without a contact sheet (1 in binders)" in printed
    unclaimed = told["owed"]["unclaimed"][0]
    assert f"claim {unclaimed} WHO" in printed


def test_a_report_names_whose_sleeves_have_no_contact_sheet(shell: Shell):
    school = shell.school
    roll = hang(school.file, school.hand(), person=MARA, clip=17).roll
    fetching.take(school.file, school.hand(), roll.id)
    archiving.sleeve(school.file, school.hand(), roll.id)
    archiving.file_in_binder(school.file, school.hand(), [roll.id], 2)
    printed = shell.type("term", "report", "26F")
    assert "every roll is accounted for" in printed
    behind = printed.partition("no contact sheet:")[2]
    assert "Mara Okafor" in behind
    assert roll.number in behind


def test_a_term_is_closed_and_reopened(shell: Shell):
    hung = hang(shell.school.file, shell.school.hand(), person=IVO, clip=9).roll
    shell.type("term", "close", "26F")
    assert shell.code == 1
    assert hung.number in shell.err
    told = shell.json("term", "close", "26F", "--leave-open", "the cabinet is locked")
    assert told["left_open"] == [hung.number]
    assert Path(told["backup"]).is_file()
    assert shell.json("term", "list")[0]["closed"] is not None
    shell.type("flip", hung.number)
    assert shell.code == 1
    assert "term reopen 26F" in shell.err
    shell.type("term", "reopen", "26F")
    assert shell.code == 0
    shell.type("flip", hung.number)
    assert shell.code == 0


def test_what_is_to_be_handed_back_is_listed(shell: Shell):
    roll = shelving.shelve(shell.school.file, shell.school.hand(), 3, owner="Mara Okafor")
    told = shell.json("term", "hand-back")
    assert (told["term"], told["last_week"]) == ("26F", False)
    assert told["hand_back"][0]["rolls"] == [roll.number]
    assert "Mara Okafor" in shell.type("term", "hand-back", "26F")
    shell.type("term", "hand-back", "19S")
    assert shell.code == 1


def test_a_closed_term_has_a_finding_aid(shell: Shell):
    roll = shelving.shelve(shell.school.file, shell.school.hand(), 3, owner="Mara Okafor")
    shell.type("term", "finding-aid", "26F")
    assert shell.code == 1
    closing.close_term(shell.school.file, shell.school.hand(), "26F")
    assert shell.json("term", "finding-aid", "26F")["units"][0]["reference code"] == "26F"
    assert roll.number in shell.type("term", "finding-aid", "26F")
    shell.type("term", "finding-aid", "26F", "--out", "26F.csv")
    assert shell.code == 0
    assert "reference code" in (shell.folder / "26F.csv").read_text()
    shell.type("term", "finding-aid", "26F", "--out", "26F.csv")
    assert shell.code == 1


def test_sleeves_are_shelved_one_after_the_other(shell: Shell):
    one = shell.json("shelve", "--binder", "3")
    assert one["place"] == {"kind": "binder", "binder": 3}
    owners = shell.write("owners.txt", "Mara Okafor\n\nthe tall one\n.\nnobody\n")
    done = shell.json("shelve", "--binder", "A26F0391", "--owners", owners)
    assert [each["who"] for each in done] == ["Mara Okafor", None, None]
    both = shell.json("shelve", "--binder", "3", "--owner", "Mara Okafor", "--owner", "Ivo")
    assert [each["who"] for each in both] == ["Mara Okafor", None]
    assert "binder 3" in shell.type("shelve", "--binder", "3", "--owners", owners)
    assert shell.out.count("binder 3") == 3
    assert "“the tall one”" in shell.out
    assert shell.out.count("unknown roll") == 1
    assert done[2]["said"] == "the tall one"
    for words in (["x"], ["3", "--term", "25S"], ["A26F0391", "--term", "25S"]):
        shell.type("shelve", "--binder", *words)
        assert shell.code == 1
        assert shell.err.count("\n") == 1


def test_an_owner_who_changes_period_keeps_the_rolls_box(shell: Shell):
    hung = hang(shell.school.file, shell.school.hand(), person=MARA, clip=17).roll
    moved = shell.write("moved.csv", "given,family,period,id\nMara,Okafor,2,S-101\n")
    shell.type("roster", moved)
    assert people.period_of(shell.school.file.conn, MARA, "26F") == 2
    assert shell.json("box", hung.number)["place"] == {"kind": "box", "box": 1}
    assert "in the wrong box" not in shell.type("due")
