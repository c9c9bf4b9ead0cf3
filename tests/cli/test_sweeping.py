"""The sweep on the command line: counts, scans, what hangs on and what is named at its end."""

from __future__ import annotations

from tests.cli.conftest import Shell


def test_a_sweep_is_counted_scanned_and_finished(shell: Shell):
    for who, clip in (("olu", "17"), ("ivo", "18"), ("mara", "19")):
        shell.type("hang", who, "--clip", clip)
    swept = shell.json("sweep", "--count", "1=1", "--count", "2=1", "--wet")
    assert (swept["boxed"], swept["finished"]) == (["26F-0003-38"], False)
    assert "found" not in swept
    scans = shell.write("scans.txt", "rod 2\nclip 17\n")
    shell.json("sweep", "--scans", scans)
    finished = shell.json("sweep", "--finish")
    assert (finished["missing"], finished["finished"]) == (["26F-0002-41"], True)
    assert "look for it" in shell.type("due")


def test_a_right_count_boxes_what_is_dry_and_names_what_is_not_and_hangs_on(shell: Shell):
    for who, clip in (("olu", "17"), ("ivo", "18"), ("mara", "19")):
        shell.type("hang", who, "--clip", clip)
    shell.type("touch", "17", "dry")
    told = shell.type("sweep", "--count", "2=2", "--count", "1=1")
    assert "to the boxes:\n  26F-0001-44" in told
    assert "not dry by the clock, they hang on:\n  26F-0002-41" in told
    assert "26F-0003-38" in told.partition("they hang on:")[2]
    assert "rod 1: 1 hangs there still" in told
    assert "rod 2" in shell.json("find", "18")[0]["where"]
    shell.type("undo")
    swept = shell.json("sweep", "--count", "2=2")
    assert (swept["boxed"], swept["not_dry"]) == (["26F-0001-44"], ["26F-0002-41"])


def test_what_is_not_dry_is_boxed_by_a_count_that_says_so(shell: Shell):
    shell.type("hang", "mara", "--clip", "19")
    assert shell.json("sweep", "--count", "1=1")["boxed"] == []
    swept = shell.json("sweep", "--count", "1=1", "--wet")
    assert (swept["boxed"], swept["not_dry"]) == (["26F-0001-44"], [])


def test_a_sweep_leaves_hanging_what_is_not_dry_and_says_so(shell: Shell):
    for who, clip in (("olu", "17"), ("ivo", "18")):
        shell.type("hang", who, "--clip", clip)
    scans = shell.write("scans.txt", "rod 2\nclip 17\n")
    told = shell.type("sweep", "--scans", scans)
    assert "not dry by the clock, they hang on:\n  26F-0002" in told
    assert "rod 2: 1 hangs there still" in told
    finished = shell.json("sweep", "--finish")
    assert (finished["missing"], finished["not_dry"]) == ([], ["26F-0002-41"])


def test_a_count_told_with_scans_is_kept(shell: Shell):
    for who, clip in (("olu", "17"), ("ivo", "18")):
        shell.type("hang", who, "--clip", clip)
    scans = shell.write("scans.txt", "rod 2\nclip 17\n")
    finished = shell.json("sweep", "--count", "2=1", "--scans", scans, "--finish")
    assert finished["missing"] == ["26F-0002-41"]
    assert finished["rods"][0]["counted"] == 1


def test_a_count_that_nobody_explains_is_said_when_the_sweep_is_finished(shell: Shell):
    for who, clip in (("olu", "17"), ("ivo", "18")):
        shell.type("hang", who, "--clip", clip)
    shell.type("sweep", "--count", "2=1")
    told = shell.type("sweep", "--finish")
    assert "Rod 2: 1 of 2 counted, nobody said which is not there" in told
    shell.type("undo")
    assert shell.json("sweep", "--finish")["open"] == [{"rod": 2, "not_accounted_for": 1}]


def test_a_sweep_boxes_film_of_a_closed_term_and_says_what_it_wants(shell: Shell):
    shell.type("hang", "olu", "--clip", "17")
    shell.type("term", "close", "26F", "--leave-open", "the cabinet is locked")
    scans = shell.write("scans.txt", "rod 2\nclip 17\nclip 40\n")
    told = shell.type("sweep", "--scans", scans)
    assert "to the boxes:\n  26F-0001" in told
    assert "of a closed term, reopen it to cut and sleeve them:\n  26F-0001" in told
    assert "clip 40: no record explains it, and no term is open" in told


def test_a_roll_without_an_owner_is_called_the_same_in_a_sweep_a_report_and_a_search(shell: Shell):
    shell.type("hang", "--unknown", "--clip", "44", "--rod", "1")
    assert "  unknown roll  " in shell.type("find", "clip", "44")
    assert "  unknown roll  " in shell.type("term", "report", "26F")
    assert "  unknown roll  " in shell.type("sweep", "--count", "1=1", "--wet")
