"""An answer belongs to the screen on which it was given."""

from __future__ import annotations

from pathlib import Path

import pytest

from filmrack.acts import hanging
from filmrack.desk import press
from filmrack.desk.said import capital
from tests.conftest import MARA, School
from tests.desk.at_desk import at_desk


async def test_an_answer_stays_behind_when_another_screen_is_turned_to(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        assert "flipped" in await desk.say("17 flip")
        await desk.press("tab")
        assert desk.open == "boxes"
        assert desk.answer == ""
        assert "nothing is called" in await desk.say("zzz")
        assert await desk.say("board") == ""


async def test_an_answer_that_leads_to_a_screen_is_read_there(school: School) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        assert "box" in await desk.say("17 box")
        await desk.say("archive")
        assert "Mara O." in await desk.say("17")
        assert desk.answer


async def test_a_sentence_half_said_and_a_question_go_along(school: School) -> None:
    async with at_desk(school.file.path) as desk:
        assert "nobody's yet" in await desk.say("17")
        await desk.press("tab")
        assert "nobody's yet" in desk.answer
        await desk.press("escape")
        await desk.say("shelve 3")
        await desk.press("tab")
        assert "Type whose the first sleeve is" in desk.answer


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ("no rod is free", "No rod is free"),
        ("26 is back", "26 is back"),
        ("sweep-slips-2026-11-17-1605.pdf: print it", "sweep-slips-2026-11-17-1605.pdf: print it"),
        ("darkroom.db: 6 rolls", "darkroom.db: 6 rolls"),
        ("found. That is all", "Found. That is all"),
        ("", ""),
    ],
)
def test_a_sentence_begins_large_and_a_file_keeps_its_name(words: str, sentence: str) -> None:
    assert capital(words) == sentence


async def test_a_print_and_a_backup_are_told_with_their_folder(
    school: School, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = school.file.path.parent
    monkeypatch.chdir(folder)
    async with at_desk(Path(school.file.path.name)) as desk:
        assert f"{folder}/{school.file.path.stem}-" in await desk.say("backup")
        monkeypatch.setattr(press, "is_demo", lambda _: True)
        assert press.print_folder(desk.app.session) == folder


async def test_a_roll_on_its_clip_is_called_by_that_also_when_it_is_found_again(
    school: School,
) -> None:
    hanging.hang(school.file, school.hand(), person=MARA, clip=17)
    async with at_desk(school.file.path) as desk:
        for word in ("missing", "found"):
            assert (await desk.say(f"17 {word}")).startswith("17 → Mara O.")
