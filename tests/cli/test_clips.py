from __future__ import annotations

import pytest

from filmrack.acts.hanging import hang
from tests.cli.conftest import Shell
from tests.conftest import MARA


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


@pytest.mark.parametrize("number", ["0", "1000", "[/x]", "rod 3"])
def test_what_is_no_clip_is_refused(shell: Shell, number: str):
    before = shell.school.dump()
    shell.type("clip", "retire", number)
    assert shell.code == 1
    assert shell.school.dump() == before
