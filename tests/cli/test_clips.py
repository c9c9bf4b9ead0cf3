from __future__ import annotations

import pytest

from filmrack.acts.hanging import hang
from tests.cli.conftest import Shell
from tests.conftest import MARA, OLU


def test_a_clip_pair_is_retired_and_restored(shell: Shell):
    assert shell.json("clip", "retire", "17") == {
        "clip": 17,
        "lost": [],
        "retired": True,
        "can_be_flipped": True,
    }
    assert shell.json("clip", "restore", "clip", "17")["retired"] is False


def test_a_pair_that_lost_a_hook_cannot_be_flipped(shell: Shell):
    assert shell.json("clip", "lost", "17", "hook", "a")["can_be_flipped"] is False
    assert "bottom only" in shell.type("clip", "list")


def test_the_list_says_how_many_are_on_rolls(shell: Shell):
    hang(shell.school.file, shell.school.hand(), person=MARA, clip=17)
    shell.type("clip", "retire", "4")
    assert [(each["clip"], each["in_use"]) for each in shell.json("clip", "list")["clips"]] == [
        (4, False),
        (17, True),
    ]
    assert "1 of 1 clip pairs are on a roll" in shell.type("clip", "list")


def test_a_roll_is_put_on_its_right_clip_or_two_exchange_theirs(shell: Shell):
    mara = hang(shell.school.file, shell.school.hand(9), person=MARA, clip=61).roll
    assert "clip 62" in shell.type("reclip", "61", "62")
    hang(shell.school.file, shell.school.hand(8), person=OLU, clip=61)
    shell.type("reclip", "62", "61")
    assert shell.code == 1
    assert "exchange the two" in shell.err
    one, other = shell.json("reclip", "--exchange", "62", "61")
    assert (one["roll"], one["clip"], other["clip"]) == (mara.number, 61, 62)


@pytest.mark.parametrize("number", ["0", "1000", "[/x]", "rod 3"])
def test_what_is_no_clip_is_refused(shell: Shell, number: str):
    before = shell.school.dump()
    shell.type("clip", "retire", number)
    assert shell.code == 1
    assert shell.school.dump() == before


def test_a_strip_on_a_pair_without_a_hook_is_flipped_and_the_hand_is_told(shell: Shell):
    hang(shell.school.file, shell.school.hand(9), person=MARA, clip=17)
    hang(shell.school.file, shell.school.hand(9), person=MARA, clip=18)
    shell.type("clip", "lost", "17", "hook", "A")
    one, other = shell.json("flip", "rod", "1")
    assert one["warnings"] == ["clip 17 cannot be flipped: a hook of it is noted as lost"]
    assert other["warnings"] == []
    assert "note: clip 17 cannot be flipped" in shell.type("flip", "17")
    assert shell.code == 0


def test_a_rod_is_flipped_without_what_is_dry_on_it_and_says_so(shell: Shell):
    hang(shell.school.file, shell.school.hand(400), person=MARA, clip=17)
    hang(shell.school.file, shell.school.hand(1), person=MARA, clip=18)
    assert "not flipped: clip 17 is dry" in shell.type("flip", "rod", "1")


def test_hanging_and_loading_tell_of_the_clip_and_of_the_length(shell: Shell):
    shell.type("clip", "retire", "17")
    loaded = shell.json("load", "olu", "--clip", "17")
    assert loaded["warnings"] == [
        "clip 17 is retired: type “clip restore 17” if it is in use again"
    ]
    assert shell.json("hang", "17")["warnings"] == loaded["warnings"]
    room = shell.type("room", "export").replace("clear_height_mm = 1900", "clear_height_mm = 1200")
    shell.type("room", "apply", shell.write("room.toml", room))
    assert "loop it over the rod" in shell.type("hang", "ivo", "--clip", "18")
    assert "note: loop it over the rod" in shell.out


def test_the_list_says_what_a_busy_day_needs(shell: Shell):
    for clip in (17, 18):
        hang(shell.school.file, shell.school.hand(30), person=MARA, clip=clip)
    told = "busiest of the last 4 weeks: Tue 17 Nov, 2 pairs on rolls at once: "
    assert told + "enough for a day like that" in shell.type("clip", "list")
    shell.type("clip", "retire", "18")
    assert told + "a day like that needs 1 more" in shell.type("clip", "list")
    listed = shell.json("clip", "list")
    assert (listed["busiest_day"], listed["at_once"], listed["more_needed"]) == ("2026-11-17", 2, 1)
