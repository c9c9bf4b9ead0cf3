"""Own keys from a TOML file, and the one list that footer and help read."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import drying, hanging
from filmrack.desk.app import Desk
from filmrack.desk.footer import sign
from filmrack.desk.help import Help
from filmrack.desk.keys import KEYS, key_map
from filmrack.desk.preferences import preferences_in
from filmrack.domain.refusal import Refused
from tests.conftest import MARA, School
from tests.desk.at_desk import at_desk


def written(folder: Path, text: str) -> Path:
    path = folder / "desk.toml"
    path.write_text(text, encoding="utf-8")
    return path


def test_without_a_file_the_keys_are_the_usual_ones(tmp_path: Path) -> None:
    usual = preferences_in(tmp_path / "desk.toml")
    assert (usual.colours, usual.keys["tab"]) == ("dim", "next_screen")


def test_own_keys_take_the_place_of_the_usual_ones(tmp_path: Path) -> None:
    text = 'colours = "daylight"\n[keys]\nnext_screen = "f5"\nhelp = ["f1", "f9"]\n'
    colours, keys = preferences_in(written(tmp_path, text))
    assert colours == "daylight"
    assert (keys["f5"], keys["f9"]) == ("next_screen", "help")
    assert "tab" not in keys


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("[keys]\nnext_screen = ", "cannot be read as TOML"),
        ("[keys]\nnext_screen = 5", 'next_screen is given no key: write one such as "f5"'),
        ('[keys]\nnext_screen = ["f5", 6]', "next_screen is given no key: write one"),
        ('[keys]\njump = "f5"', "no key called “jump”: remove it, or name one of next_screen, scr"),
        ('[keys]\nhelp = "h"', "needed for typing: choose another for help"),
        ('[keys]\nhelp = "enter"', "needed for typing: choose another for help"),
        ('[keys]\nhelp = "f8"', "given twice, to help and colours: choose another for one of"),
        ('colours = "pink"', "colours is none that there is: choose one of dim"),
        ("colours = 5", "colours is none that there is: choose one of dim"),
        ('colour = "dim"', "“colour” is nothing that can be changed: remove it"),
        ('keys = "f5"', r"keys is no table: begin it with \[keys\]"),
    ],
)
def test_a_mistake_in_own_keys_is_named_with_its_file_and_what_to_do(
    tmp_path: Path, text: str, why: str
) -> None:
    path = written(tmp_path, text)
    with pytest.raises(Refused, match=why) as refused:
        preferences_in(path)
    assert str(path) in str(refused.value)


def test_no_key_of_the_registry_is_one_that_a_scanner_types() -> None:
    """A scan can fire none: it types capitals, digits and a terminator."""
    keys = {key for entry in KEYS for key in entry.keys}
    assert not keys & {"enter", "ctrl+j", "ctrl+m", *"ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"}


def test_leaving_and_help_have_more_than_one_way() -> None:
    """Some chords never arrive in a terminal: each has another, or a word in the line."""
    ways = {entry.id: entry.keys for entry in KEYS}
    assert "question_mark" in ways["help"]
    assert "tab" in ways["next_screen"]
    assert len(ways["quit"]) > 1


async def test_footer_and_help_name_every_key_as_it_is_set(db: Path) -> None:
    async with at_desk(db) as here:
        await here.say("help")  # a page that Escape closes
        footer = here.rows()[-1]
        for entry in KEYS:
            if entry.footer:
                assert sign(entry.keys[0]) in footer
        page = "\n".join(line.plain for line in here.app.query_one(Help).page)
        assert all(entry.words in page for entry in KEYS)


async def test_changed_keys_work_and_are_shown(db: Path) -> None:
    desk = Desk(db, keys=key_map({"next_screen": "f5"}))
    async with desk.run_test(size=(120, 34)) as pilot:
        await pilot.pause()
        before = desk.view.screen_id
        await pilot.press("tab")
        assert desk.view.screen_id == before
        await pilot.press("f5")
        await pilot.pause()
        assert desk.view.screen_id != before


async def test_help_says_when_there_is_more_below_and_the_arrows_show_it(db: Path) -> None:
    async with at_desk(db) as here:
        await here.press("question_mark")
        assert "more below" in here.screen
        await here.press("end")
        assert "more below" not in here.screen
        assert here.app.query_one(Help).page[-1].plain.strip() in here.screen


async def test_enter_closes_help_and_does_nothing_to_the_roll_behind_it(
    db: Path, school: School
) -> None:
    hanging.hang(school.file, school.hand(7), person=MARA, clip=17)
    async with at_desk(db) as here:
        assert "enter it is flipped" in here.rows()[-1]
        await here.press("question_mark")
        assert "enter close help" in here.rows()[-1]
        await here.press("enter")
        assert "Take care" not in here.screen
        assert "flip" not in here.acts
        await here.press("enter")
        assert here.acts[-1] == "flip"


async def test_the_card_of_a_dry_roll_says_so_first(db: Path, school: School) -> None:
    hung = hanging.hang(school.file, school.hand(60), person=MARA, clip=17)
    drying.touch(school.file, school.hand(), hung.roll.id, dry=True)
    async with at_desk(db) as here:
        assert "Dry by touch. To box 1, or" in here.screen


async def test_what_a_later_act_implied_is_told_in_plain_words(db: Path, school: School) -> None:
    hanging.hang(school.file, school.hand(7), clip=17, rod=1)
    async with at_desk(db) as here:
        assert "assumed, nobody said" in here.shown
