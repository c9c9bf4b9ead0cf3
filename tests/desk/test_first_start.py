"""No darkroom file yet: cautions, six questions, and then there is one."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import count
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual import events
from textual.pilot import Pilot

from filmrack.desk.answer import Answer
from filmrack.desk.first_start import FirstStart
from filmrack.desk.line import Line
from filmrack.desk.lines import Lines
from filmrack.desk.set_up import SetUp
from filmrack.domain.refusal import Refused
from filmrack.printing import CAUTIONS
from filmrack.store.file import open_file
from tests.conftest import TUESDAY_9_00

CHICAGO = "America/Chicago"


async def say(pilot: Pilot[bool], ticks: Iterator[int], *texts: str) -> None:
    line = pilot.app.query_one(Line)
    for text in texts:
        at = float(next(ticks))
        line.ticks = lambda at=at: at
        if text:
            line.post_message(events.Paste(text))
            await pilot.pause()
        await pilot.press("enter")
        await pilot.pause()


def shown(pilot: Pilot[bool]) -> str:
    return "\n".join(row.plain for row in pilot.app.query_one("#page", Lines)._lines)


async def test_enter_alone_leads_to_a_room(tmp_path: Path) -> None:
    path = tmp_path / "data" / "darkroom.db"
    app = FirstStart(path, TUESDAY_9_00, CHICAGO)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        for caution in CAUTIONS:
            assert caution.split(":")[0][:40] in " ".join(shown(pilot).split())
        await say(pilot, count(10, 5), *[""] * 8)
    assert app.return_value is True
    with open_file(path, write=False) as file:
        room = file.room()
    assert len(room.rods) == len(room.periods) == 6
    assert room.zone == CHICAGO
    assert [term.code for term in room.terms] == ["26F"]


async def test_answers_make_another_room_and_mistakes_are_asked_again(tmp_path: Path) -> None:
    path = tmp_path / "darkroom.db"
    app = FirstStart(path, TUESDAY_9_00, CHICAGO)
    ticks = count(10, 5)
    async with app.run_test(size=(120, 34)) as pilot:
        await say(pilot, ticks, "", "block", "40")
        assert "is no number of periods" in app.query_one(Answer).words
        await say(pilot, ticks, "4", "12", "Mars/Olympus")
        assert "no time zone" in app.query_one(Answer).words
        await say(pilot, ticks, "Europe/Berlin", "2026-08-24", "2026-01-01")
        assert "give a later day" in app.query_one(Answer).words
        await say(pilot, ticks, "2026-12-18")
        assert not path.exists()
        await say(pilot, ticks, "")
    with open_file(path, write=False) as file:
        room = file.room()
    assert [period.name for period in room.periods] == [f"Block {n}" for n in (1, 2, 3, 4)]
    assert {rod.positions for rod in room.rods} == {12}
    assert room.zone == "Europe/Berlin"
    assert (room.terms[0].starts, room.terms[0].ends) == (date(2026, 8, 24), date(2026, 12, 18))


async def test_escape_goes_back_and_nothing_is_made_by_leaving(tmp_path: Path) -> None:
    app = FirstStart(tmp_path / "darkroom.db", TUESDAY_9_00, CHICAGO)
    async with app.run_test(size=(80, 24)) as pilot:
        await say(pilot, count(10, 5), "", "lesson", "3")
        assert "lessons a day" in shown(pilot)
        await pilot.press("escape", "escape")
        await pilot.pause()
        assert "What is a class period called" in shown(pilot)
        await pilot.press("escape")
        await pilot.pause()
        assert "take care" in shown(pilot)
        await pilot.press("ctrl+q")
    assert not app.return_value
    assert list(tmp_path.iterdir()) == []


async def test_a_folder_that_cannot_be_made_is_said_in_words(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("")
    app = FirstStart(blocked / "darkroom.db", TUESDAY_9_00, CHICAGO)
    async with app.run_test(size=(80, 24)) as pilot:
        await say(pilot, count(10, 5), *[""] * 8)
        said = app.query_one(Answer).words
        assert said.startswith(f"{blocked} cannot be made (")
        assert said.endswith("leave with Ctrl+Q and start “filmrack --db FILE” with another place")


@given(st.lists(st.one_of(st.text(max_size=30), st.just(""), st.just("2026-08-24")), max_size=12))
def test_whatever_is_answered_is_taken_or_refused_in_words(answers: list[str]) -> None:
    set_up = SetUp(TUESDAY_9_00, CHICAGO)
    for text in answers:
        try:
            set_up.answer(text)
            asked = set_up.asked
        except Refused:
            continue
        if asked is None:
            set_up.room()


@pytest.mark.parametrize("first", ["2027-01-01", "soon", "1200-01-01"])
def test_a_term_that_cannot_have_begun_is_refused(first: str) -> None:
    set_up = SetUp(TUESDAY_9_00, CHICAGO, ["period", "6", "10", CHICAGO])
    with pytest.raises(Refused):
        set_up.answer(first)
