"""What cannot be meant: one sentence, the right exit code, nothing changed."""

from __future__ import annotations

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, given, settings

from filmrack.domain.codes import binder_code
from filmrack.domain.names import Person
from filmrack.store import people
from tests.cli.conftest import Shell


@pytest.fixture
def hung(shell: Shell) -> Shell:
    """One roll of Olu's hangs on clip 17."""
    shell.type("hang", "olu", "--clip", "17")
    assert shell.code == 0
    return shell


def refused(shell: Shell, *words: str) -> str:
    """Run a command that changes nothing; return its one sentence."""
    before = shell.school.dump()
    shell.type(*words)
    assert shell.school.dump() == before
    assert shell.out == ""
    assert shell.err.startswith("filmrack: ")
    assert shell.err.count("\n") == 1
    return shell.err


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["load", "zed", "--clip", "3"], "nobody here is called “zed”"),
        (["load", "\udcff", "--clip", "3"], "nobody here is called"),
        (["load", "zed\n\x1bzed", "--clip", "3"], "nobody here is called “zed��zed”"),
        (["load", "[/x]", "--clip", "3"], "nobody here is called “[/x]”"),
        (["load", "person", "77", "--clip", "3"], "there is no person 77"),
        (["load", "P000199", "--clip", "3"], "check digits do not fit"),
        (["load", "R26F" + "1" * 6000, "--clip", "3"], "nobody here is called"),
        (["load", "olu", "--clip", "C017A71"], "check digits do not fit"),
        (["load", "olu", "--clip", "https://example.org/17"], "not one of our codes"),
        (["load", "olu", "--clip", "9" * 40], "is no clip"),
        (["load", "olu", "--clip", "0"], "is no clip"),
        (["load", "olu", "--clip", "3", "--clip", "3"], "clip 3 is named twice"),
        (["load", "olu", "--clip", "3", "--film", "cinema"], "cinema"),
        (["hang", "olu", "--clip", "3", "--rod", "9"], "there is no rod 9"),
        (["hang", "olu", "--clip", "3", "--position", "9"], "has no position 9"),
        (["hang", "olu", "--clip", "3", "--clue", "a\x1b[2J"], "U+001B"),
        (["hang", "0142"], "is no roll that is known here"),
        (["hang", "3"], "is no roll that is known here"),
        (["hang", "17"], "hangs already on rod 2, position 1"),
        (["--at", "2099-01-01", "hang", "olu", "--clip", "3"], "that time is still to come"),
        (["--at", "noonish", "hang", "olu", "--clip", "3"], "is no time"),
        (["--at", "0001-01-01", "hang", "olu", "--clip", "3"], "no term has begun"),
        (["flip", "olu"], "is no roll that is known here"),
        (["flip", "17", "R26F000199"], "check digits do not fit"),
        (["flip", "clip", "9" * 30], "is no roll that is known here"),
        (["flip", "rod", "1"], "nothing is noted on rod 1"),
        (["flip", "WIFI:S:school;;"], "not one of our codes"),
        (["touch", "XFLIP51", "dry"], "FLIP is an action"),
        (["move", "17", "--rod", "2", "--position", "0"], "has no position 0"),
        (["box", "17", "--period", "nine"], "is no period here"),
        (["take", "18"], "is no roll that is known here"),
        (["take", "clip", "18"], "clip 18 is noted on no roll"),
        (["sleeve", "17", "--page", "9x9"], "9x9"),
        (["sleeve", "17", "--frames", "400"], "1 to 39 frames"),
        (["contact", "17", "--picks", "4,x"], "“x” is no frame"),
        (["contact", "17", "--paper", "napkin"], "napkin"),
        (["file", "17", "--binder", "0"], "is no binder"),
        (["file", "17", "--binder", binder_code("25S", 1)], "is of another term"),
        (["claim", "17", "zed"], "nobody here is called"),
        (["swap", "17", "17"], "with itself"),
        (["note", "17", " "], "the note is empty"),
        (["note", "17", "a\u202eb"], "U+202E"),
        (["fan", "on", "--hours", "25"], "give hours from 0 to 24"),
        (["fan", "on", "--dryer", "4"], "there is no dryer 4"),
        (["fan", "--dryer", "4"], "there is no dryer 4"),
        (["sweep", "--count", "9=1"], "there is no rod 9"),
        (["sweep", "--count", "two"], "is no count"),
        (["find", "zed"], "nothing is found"),
        (["find", "https://example.org"], "not one of our codes"),
        (["find", "m" * 501], "501 characters"),
        (["show", "olu"], "is no roll that is known here"),
        (["--at", "08:00", "show", "17"], "was not there yet"),
    ],
)
def test_what_cannot_be_meant_is_refused(hung: Shell, words: list[str], why: str):
    assert why in refused(hung, *words)
    assert hung.code == 1


@pytest.mark.parametrize(
    "words",
    [
        ["frobnicate"],
        ["hang"],
        ["hang", "olu", "--unknown"],
        ["load", "olu"],
        ["touch", "17", "damp"],
        ["move", "17", "--rod", "two"],
        ["fan", "off", "--hours", "2"],
        ["--wat"],
    ],
)
def test_wrong_usage_is_2(hung: Shell, words: list[str]):
    refused(hung, *words)
    assert hung.code == 2


def test_nothing_found_is_no_failure_for_a_program(shell: Shell):
    assert shell.json("find", "zed") == []
    assert shell.code == 0


def test_an_ambiguous_name_is_refused_with_the_choices(shell: Shell):
    with shell.school.file.writing() as conn:
        people.add(conn, Person(0, "Olu", "Adebayo"))
    sentence = refused(shell, "load", "olu", "--clip", "3")
    assert "Olu Adebayo (person 4), Olu Adeyemi (person 2)" in sentence
    shell.type("load", "olu", "adey", "--clip", "3")
    assert shell.code == 0


def test_twins_of_one_name_are_told_apart_by_number(shell: Shell):
    with shell.school.file.writing() as conn:
        people.add(conn, Person(0, "Ivo", "Lindqvist"))
    sentence = refused(shell, "load", "ivo", "lindqvist", "--clip", "3")
    assert "Ivo Lindqvist (person 3), Ivo Lindqvist (person 4)" in sentence
    assert shell.json("load", "person", "4", "--clip", "3")["rolls"][0]["who"] == "Ivo Lindqvist"


def test_a_name_full_of_markup_is_printed_as_it_is(shell: Shell):
    with shell.school.file.writing() as conn:
        people.add(conn, Person(0, "[bold]Zed[/x]", "=1+1"))
    shell.type("hang", "zed", "--clip", "3")
    assert "[bold]Zed[/x] =1+1" in shell.out
    assert "[bold]Zed[/x] =1+1" in shell.type("find", "zed")


@settings(max_examples=60, suppress_health_check=list(HealthCheck))
@given(words=st.lists(st.text(min_size=1, max_size=20), min_size=1, max_size=3))
def test_whatever_is_typed_never_crashes(hung: Shell, words: list[str]):
    for command in ("find", "show", "flip", "take", "load"):
        hung.type(command, *(["--clip", words[0]] if command == "load" else []), "--", *words)
        assert hung.code in (0, 1)


def test_wrong_usage_names_the_help_of_the_very_command(shell: Shell) -> None:
    shell.type("room", "days-off")
    assert shell.code == 2
    assert shell.err.endswith("(filmrack room days-off --help)\n")
