"""One roll all the way on the command line, and the answers on the way."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from filmrack.acts import shelving
from filmrack.domain.codes import read, roll_code
from tests.cli.conftest import Shell
from tests.conftest import School


def test_one_roll_goes_from_tank_to_binder(shell: Shell):
    (loaded,) = shell.json("load", "olu", "--clip", "17")["rolls"]
    assert (loaded["roll"], loaded["place"], loaded["who"]) == (
        "26F-0001-44",
        {"kind": "tank"},
        "Olu Adeyemi",
    )
    hung = shell.json("hang", "olu")
    assert (hung["rod"], hung["position"], hung["before_bell"], hung["dial_hours"]) == (
        2,
        1,
        "yes",
        1.0,
    )
    assert hung["flip_at"].startswith("2026-11-17T09:0")
    assert hung["flip_at"].endswith("-06:00")
    for words, kind in (
        (["flip", "17"], "rod"),
        (["touch", "clip", "17", "dry"], "rod"),
        (["move", "17", "--rod", "3"], "rod"),
        (["box", "17"], "box"),
    ):
        assert shell.json(*words)["place"]["kind"] == kind
    sleeved = shell.json("sleeve", "17")
    pages = [read("S" + number) for number in sleeved["sleeves"]]
    assert [page and page.parts for page in pages] == [("26F", "0001", "1"), ("26F", "0001", "2")]
    assert sum(sleeved["strips"]) == 36
    assert sleeved["fits"]["8x10in"] == "fits"
    done = shell.json("contact", "26F-0001", "--picks", "4,11")["done"]
    assert done["sleeved"] is not None
    assert done["contact"] is not None
    filed = shell.json("file", roll_code("26F", 1), "--binder", "3")
    assert filed["place"] == {"kind": "binder", "binder": 3}
    (found,) = shell.json("find", "olu")
    assert (found["where"], found["next"]) == ("binder 3", "nothing more to do")
    acts = [entry["act"] for entry in shell.json("show", "0001")["ledger"]]
    assert acts == ["file", "contact", "sleeve", "box", "move", "touch", "flip", "hang", "load"]
    assert shell.json("check") == {"ok": True, "problems": [], "notes": []}


def test_who_was_displaced_is_named_by_load_hang_and_move(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("hang", "ivo", "--clip", "18")
    assert "26F-0001-44 was noted there, rod 2, position 1: not seen since 09:00" in shell.type(
        "move", "18", "--rod", "2", "--position", "1"
    )
    assert shell.json("load", "mara", "--clip", "17")["not_seen_since"] == [
        {"roll": "26F-0001-44", "since": "2026-11-17T09:00:00-06:00"}
    ]


def test_a_late_entry_takes_its_place_in_time(shell: Shell):
    shell.type("--at", "08:58", "hang", "olu", "--clip", "17")
    shell.type("--at", "2026-11-17T08:59", "flip", "17")
    ledger = shell.json("show", "17")["ledger"]
    assert [(entry["act"], entry["at"][11:16]) for entry in ledger] == [
        ("flip", "08:59"),
        ("hang", "08:58"),
        ("load", "08:58"),
    ]
    assert ledger[0]["entered"] == "2026-11-17T09:00:00-06:00"
    assert shell.json("--at", "08:58", "find", "olu")[0]["where"] == "rod 2, position 1"
    assert shell.json("--at", "08:57", "find", "olu") == []


def test_undo_takes_back_the_last_and_again_goes_further(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("touch", "17", "tacky")
    assert shell.json("undo")["undone"] == [{"act": "touch", "roll": "26F-0001-44"}]
    assert "taken back: “hung” of " in shell.type("undo")
    shell.type("undo")
    assert (shell.code, "nothing to take back" in shell.err) == (1, True)


def test_an_act_is_called_what_the_ledger_calls_it_by_whoever_names_it(shell: Shell):
    number = shelving.shelve(shell.school.file, shell.school.hand(30), 3).number
    shell.type("hand-back", number)
    assert "handed back" in shell.type("show", number)
    shell.type("--at", "08:50", "discard", number)
    assert "has “handed back” at" in shell.err
    shell.type("hand-back", number)
    assert f"{number} is handed back: if it is here again say so first" in shell.err
    assert f"“handed back” of 09:00, {number}" in shell.type("undo")


def test_an_undo_of_a_closing_says_once_what_is_open_again(shell: Shell):
    shell.type("term", "close", "26F")
    assert shell.type("undo") == "taken back: close term 26F, so it is open again\n"


def test_the_fan_is_told_and_asked(shell: Shell):
    assert shell.json("fan") == {"running": False, "until": None, "assumed": False}
    assert shell.json("fan", "on", "--hours", "2")["until"] == "2026-11-17T11:00:00-06:00"
    assert shell.json("--at", "08:59", "fan")["running"] is False
    assert shell.json("fan", "off")["running"] is False


def test_a_cut_says_on_which_papers_its_contact_sheet_fits_and_how(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("box", "17")
    told = shell.type("sleeve", "17", "--page", "6x6")
    assert "\ncontact sheet on " in told
    assert ": pictures only, edge numbers are lost\n" in told


def test_a_second_contact_sheet_is_kept_only_when_it_is_said_so(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("take", "17")
    shell.type("sleeve", "17")
    shell.type("contact", "0001")
    shell.type("contact", "0001", "--paper", "a4")
    assert shell.code == 1
    assert "26F-0001-44 has a contact sheet already, 09:00 on 8x10in" in shell.err
    assert "add --again" in shell.err
    assert shell.json("show", "0001")["ledger"][0]["act"] == "contact"
    shell.type("contact", "0001", "--paper", "a4", "--again")
    assert [one["act"] for one in shell.json("show", "0001")["ledger"]].count("contact") == 2


def test_frames_are_picked_on_a_contact_sheet_that_was_made_before(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("take", "17")
    shell.type("sleeve", "17")
    shell.type("picks", "0001", "12")
    assert shell.code == 1
    shell.type("contact", "0001", "--picks", "4")
    assert "picks 4, 12, 14" in shell.type("picks", "0001", "12,", "14")
    told = shell.json("show", "0001")
    assert told["picks"] == [4, 12, 14]
    assert "frames picked       12, 14" in shell.type("show", "0001")
    shell.type("undo")
    assert shell.json("show", "0001")["picks"] == [4]


def test_a_wrong_pick_is_taken_back_and_can_be_picked_again(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("take", "17")
    shell.type("sleeve", "17")
    shell.type("contact", "0001", "--picks", "4,12,14")
    shell.type("unpick", "0001", "13")
    assert "has no pick 13 to take back: name some of 4, 12, 14" in shell.err
    assert "picks 4, 14" in shell.type("unpick", "0001", "12")
    assert "frames picked no longer  12" in shell.type("show", "0001")
    assert shell.json("show", "0001")["picks"] == [4, 14]
    assert "picks none" in shell.type("unpick", "0001", "4", "14")
    shell.type("undo")
    assert "picks 4, 12, 14" in shell.type("picks", "0001", "12")


def test_a_reader_that_has_enough_is_no_trouble(school: School, db: Path):
    script = "import sys; from filmrack.cli.app import run; sys.exit(run(sys.argv[1:]))"
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [sys.executable, "-c", script, "--db", str(db), "check"],
        stdout=writer,
        stderr=subprocess.PIPE,
        cwd=Path(__file__).parents[2],
        check=False,
    )
    os.close(writer)
    assert b"Traceback" not in done.stderr
    assert b"cannot be used" not in done.stderr
